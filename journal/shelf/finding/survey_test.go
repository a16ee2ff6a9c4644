package finding

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"twinloaf/journal/journaltest/race"
)

// records is how many records are made up for each row of the simulated tables.
// By hand: go test ./journal/shelf/finding -run Simulated -v -records 500
var records = flag.Int("records", race.Cases(40, 4), "how many records to make up")

// made is a record of n bakes in three flours that differ in level, in every
// factor and every outcome; within a flour nothing goes with anything, but for
// an effect of the first factor on the first outcome.
func made(r *rand.Rand, n, outcomes, factors int, effect float64) []Question {
	flours, level := make([]string, n), make([]float64, n)
	for i := range flours {
		k := r.IntN(3)
		flours[i], level[i] = fmt.Sprint("flour ", k), 1.5*float64(k)
	}
	column := func() []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = level[i] + r.NormFloat64()
		}
		return out
	}
	xs := make([][]float64, factors)
	for k := range xs {
		xs[k] = column()
	}
	levels := []Level{{Name: "flour", Words: flours}}
	var questions []Question
	for o := range outcomes {
		y := column()
		if o == 0 {
			for i := range y {
				y[i] += effect * (xs[0][i] - level[i])
			}
		}
		for i := range y {
			y[i] = math.Round(2 * y[i]) // as coarse as scores
		}
		for k, x := range xs {
			questions = append(questions, Question{Outcome: fmt.Sprint(o), Factor: fmt.Sprint(k), Y: y, Number: x, Levels: levels})
		}
	}
	return questions
}

// Of records with nothing in them no more than about one in twenty tells of
// anything, whoever looks at all forty questions; each question by itself at one
// in twenty would tell in most of them. With one true effect it is found, and few
// of what is told is false.
//
// 500 records of 40 bakes each with nothing in them: 3.2 % tell of anything, each
// question by itself would in 85.4 %; with one effect of 0.8 standard deviations it
// is found in 72.4 %.
func TestSimulatedRecordsOfFortyQuestions(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	any, single, found, share := 0, 0, 0, 0.0 // share: of false findings among those told, summed over records
	for range *records {
		s, err := Ask(context.Background(), made(r, 40, 5, 8, 0), nil)
		if err != nil || len(s.Found) != 40 {
			t.Fatal(len(s.Found), err)
		}
		if s.Told() > 0 {
			any++
		}
		for _, f := range s.Found {
			if f.P <= 0.05 {
				single++
				break
			}
		}
		s, _ = Ask(context.Background(), made(r, 40, 5, 8, 0.8), nil)
		wrong := 0
		for _, f := range s.Found {
			switch {
			case !f.Told():
			case f.Outcome == "0" && f.Factor == "0":
				found++
			default:
				wrong++
			}
		}
		share += float64(wrong) / float64(max(1, s.Told()))
	}
	n := float64(*records)
	t.Logf("%d records: told anything %.1f %%, each by itself %.1f %%; effect found %.1f %%, share of false ones among told %.1f %%",
		*records, 100*float64(any)/n, 100*float64(single)/n, 100*float64(found)/n, 100*share/n)
	if float64(any) > 0.05*n+4*math.Sqrt(0.05*n) {
		t.Errorf("%d of %d empty records tell of something", any, *records)
	}
	if float64(single) < 0.5*n {
		t.Errorf("only %d of %d empty records would have told by single questions: the test shows nothing", single, *records)
	}
	if float64(found) < 0.5*n || share > 0.05*n+4*math.Sqrt(0.05*n) {
		t.Errorf("the effect was found in %d of %d; of what is told %.1f %% is false", found, *records, 100*share/n)
	}
}

// Two flours that differ in level turn a trend round (Simpson's paradox): within
// each flour the outcome falls with the factor, and over all bakes it rises. Told
// is the fall, or nothing, or that too few bakes are alike.
//
// 500 records of each size: the rise was told in none of them. Of 12 bakes the fall
// was told in 375 (2 flours), 332 (3) and 162 (6), of 20 bakes in 491 and 477 (2, 3),
// of 40 bakes of 2 flours in 500; of 6 bakes it is nearly always unknown. Over all
// bakes, flours thrown together, the rise was told in up to 500 of 500.
func TestSimulatedSimpson(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2))
	for _, n := range []int{6, 12, 20, 40} {
		for _, flours := range []int{2, 3, n / 2} {
			right, wrong, unknown, fooled := 0, 0, 0, 0
			for range *records {
				x, y, words := make([]float64, n), make([]float64, n), make([]string, n)
				for i := range x {
					k := r.IntN(flours)
					words[i] = fmt.Sprint(k)
					x[i] = 3*float64(k) + r.NormFloat64()
					y[i] = 3*float64(k) - (x[i] - 3*float64(k)) + 0.7*r.NormFloat64()
				}
				if all, err := TrendOf(x, y); err == nil && all.Told() && all.Rank.Rho > 0 {
					fooled++
				}
				trend, err := TrendWithin(x, y, []Level{{Name: "flour", Words: words}})
				switch {
				case err != nil:
					unknown++
				case trend.Told() && trend.Rank.Rho < 0 && trend.Slope < 0:
					right++
				case trend.Told():
					wrong++
				}
			}
			t.Logf("%d bakes of %d flours: the fall %d, nothing %d, unknown %d, the rise %d; without flours the rise %d of %d",
				n, flours, right, *records-right-wrong-unknown, unknown, wrong, fooled, *records)
			if float64(wrong) > 0.025*float64(*records)+4*math.Sqrt(0.025*float64(*records)) {
				t.Errorf("%d bakes of %d flours: told the wrong way round in %d of %d", n, flours, wrong, *records)
			}
			if n == 40 && flours == 2 && (right < *records*9/10 || fooled < *records/2) {
				t.Errorf("the fall was told in %d, without flours the rise in %d of %d", right, fooled, *records)
			}
		}
	}
}

// Groups are held alike too: one culture was used with the better flour.
func TestGroupsAreComparedWithinFlours(t *testing.T) {
	var names, flours []string
	var y []float64
	for i := range 24 {
		names = append(names, []string{"Harbour", "Gorse"}[i%2])
		flours = append(flours, "plain")
		y = append(y, float64(3+i%3))
	}
	for i := range 20 { // Harbour alone with the finer flour, one Gorse with it
		names = append(names, []string{"Harbour", "Gorse"}[i/19])
		flours = append(flours, "fine")
		y = append(y, float64(7+i%2))
	}
	all, err := CompareGroups(names, y)
	if err != nil || !all.Told() {
		t.Fatalf("without flours it is not told: %+v, %v", all.Test, err)
	}
	c, err := CompareWithin(names, y, []Level{{Name: "flour", Words: flours}})
	if err != nil || c.Told() || c.Held.Name != "flour" || c.Held.Strata != 2 || c.Across < 0.3 {
		t.Errorf("%+v %+v across %.2f, %v", c.Held, c.Test, c.Across, err)
	}
	if _, err := CompareWithin(names, y, []Level{{Name: "lot", Words: manyWords(len(y))}}); err != ErrMixed {
		t.Errorf("each of its own flour: %v", err)
	}
}

func manyWords(n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprint(i)
	}
	return out
}

// The list of what went with an outcome has what is told first, then the
// strongest; a question that cannot be worked out is counted as such.
func TestSurveyIsOrdered(t *testing.T) {
	n := 30
	y, same, other, flat := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	r := rand.New(rand.NewPCG(4, 9))
	for i := range y {
		y[i], same[i], other[i] = float64(i), float64(-i), r.Float64()
	}
	s, err := Ask(context.Background(), []Question{
		{Outcome: "score", Factor: "other", Y: y, Number: other}, {Outcome: "score", Factor: "same", Y: y, Number: same}, {Outcome: "score", Factor: "flat", Y: y, Number: flat},
	}, nil)
	if err != nil || s.Few != 1 || s.Told() != 1 {
		t.Fatalf("%+v, %v", s, err)
	}
	if list := s.With("score"); list[0].Factor != "same" || list[0].Strength != -1 || list[0].Adjusted < list[0].P {
		t.Errorf("%+v", list)
	}
	if _, ok := s.Of("score", "flat"); ok {
		t.Error("what never varies was worked out")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Ask(ctx, []Question{{Y: y, Number: same}}, nil); err != context.Canceled {
		t.Errorf("it went on: %v", err)
	}
}
