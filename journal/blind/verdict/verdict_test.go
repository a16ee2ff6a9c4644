package verdict_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/blindtest"
	"twinloaf/journal/blind/fair"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/say"
)

func plan(m blind.Method, tasters, rounds int) blind.Plan {
	p := blind.Plan{
		Method: m, Mode: blind.WithHelper, Rounds: rounds,
		Loaves: [2]blind.Loaf{{ID: "h", Name: "Harbour"}, {ID: "g", Name: "Gorse"}},
	}
	for i := range tasters {
		p.Tasters = append(p.Tasters, []string{"Ines", "Tom", "Aud", "Per", "Liv", "Odd", "Siv", "Jon", "Eli", "Ane"}[i])
	}
	return p
}

// taste runs a tasting to its end. The plan's card is known to answer, which
// says for each round what is answered: it gets the loaf of each label.
func taste(t testing.TB, p blind.Plan, early string, answer func(n int, s blind.Serving, loaf func(string) int) blind.Answer) blind.Opened {
	t.Helper()
	fail := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	sealed, setting, lines := blindtest.Seal(t, p, rand.NewChaCha8([32]byte{7}))
	session := blind.Begin(setting)
	for n, serving := range setting.Servings {
		loaf := func(label string) int {
			for _, plate := range lines[n].Plates {
				if plate.Label == label {
					return plate.Loaf
				}
			}
			return 0
		}
		a := answer(n, serving, loaf)
		if a.Remark == "never" {
			continue
		}
		fail(session.TypeIn(serving.Taster, a))
	}
	if early != "" {
		fail(session.EndEarly(early))
	}
	proof, err := session.Finish()
	fail(err)
	opened, err := sealed.Unseal(proof)
	fail(err)
	return opened
}

// rightFor answers a triangle rightly for the first k rounds and wrongly after.
func rightFor(k int) func(int, blind.Serving, func(string) int) blind.Answer {
	return func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		count := map[int]int{}
		for _, label := range s.Samples {
			count[loaf(label)]++
		}
		for _, label := range s.Samples {
			if odd := count[loaf(label)] == 1; odd == (n < k) {
				return blind.Answer{Picks: []string{label}}
			}
		}
		panic("no such label")
	}
}

// naming answers a pair with loaf 1 for the first k and loaf 2 after.
func naming(k int) func(int, blind.Serving, func(string) int) blind.Answer {
	return func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		for _, label := range s.Samples {
			if (loaf(label) == 1) == (n < k) {
				return blind.Answer{Picks: []string{label}}
			}
		}
		panic("no such label")
	}
}

func judged(t testing.TB, in verdict.Input) verdict.Verdict {
	t.Helper()
	v, err := verdict.Of(in)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func says(t *testing.T, words []say.Line, wanted ...string) {
	t.Helper()
	all := say.Join(words...).String()
	for _, w := range wanted {
		if !strings.Contains(all, w) {
			t.Errorf("it does not say %q in\n%s", w, all)
		}
	}
}

func TestTriangleThatShowsADifference(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Triangle, 10, 1), "", rightFor(8))})
	if !v.Shown || v.Headline.String() != "They can be told apart." || v.Critical != 7 || v.Replicates {
		t.Errorf("%+v", v)
	}
	// Published: triangle 8 of 10, 0.34 %.
	if math.Abs(v.P-0.0034) > 5e-5 {
		t.Errorf("p %.5f", v.P)
	}
	says(t, slices.Concat(v.Words, v.Details),
		"8 of 10 answers right.",
		"By guessing alone that many or more comes up about once in 290 tries (p\u00a00.0034).",
		"Estimated share of tasters who can really tell: 70 %, and at least 24 % (one-sided 95 % confidence limit, as the test is one-sided).",
		"d′ 3.13, standard error 0.90")
}

func TestTriangleThatShowsNothing(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Triangle, 1, 6), "", rightFor(3))})
	if v.Shown || v.Headline.String() != "No difference shown." || !v.Replicates {
		t.Errorf("%+v", v)
	}
	says(t, slices.Concat(v.Words, v.Details),
		"Ines was right in 3 of 6 rounds.",
		"about 32 times in 100 tries (p\u00a00.32)",
		"That does not mean that the loaves are the same.",
		"With 6 rounds, a taster who can tell them apart half of the time will be shown to do so about one time in three.",
		"on it is always at least eight times in ten.",
		"Estimated share of rounds in which the difference was really noticed: 25 %")
	says(t, v.Cautions, "All answers are one taster's", "not for “there is none”", "6 answers were typed in from printed sheets")
}

func TestAllRightHasNoFiniteDPrime(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Triangle, 1, 6), "", rightFor(6))})
	says(t, slices.Concat(v.Words, v.Details), "about once in 730 tries (p\u00a00.0014)", "d′ has no finite value")
}

func TestNoneRightIsNoSurprise(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Triangle, 1, 6), "", rightFor(0))})
	says(t, slices.Concat(v.Words, v.Details), "By guessing alone that many or more comes up always (p\u00a01).")
}

func TestPairedOneSided(t *testing.T) {
	p := plan(blind.Paired, 1, 14)
	p.Attribute, p.Expected = "sour", 1
	v := judged(t, verdict.Input{Opened: taste(t, p, "", naming(11))})
	// Published: paired 11 of 14, one-sided, 2.87 %.
	if math.Abs(v.P-0.0287) > 5e-5 || v.Headline.String() != "“Harbour” is more sour." {
		t.Errorf("%s p %.5f", v.Headline, v.P)
	}
	says(t, slices.Concat(v.Words, v.Details), "11 of 14 answers called “Harbour” more sour, 3 “Gorse”.", "about once in 35 tries (p\u00a00.029)")

	// The other way round nothing is shown, however lopsided.
	v = judged(t, verdict.Input{Opened: taste(t, p, "", naming(1))})
	if v.Shown || v.P < 0.99 {
		t.Errorf("%+v", v)
	}
	says(t, slices.Concat(v.Words, v.Details), "comes up nearly always", "More answers named “Gorse”, but the plan asked beforehand for “Harbour” alone")
}

func TestPairedTwoSidedAndPreference(t *testing.T) {
	p := plan(blind.Paired, 1, 10)
	p.Attribute = "chewy"
	v := judged(t, verdict.Input{Opened: taste(t, p, "", naming(1))})
	if v.Headline.String() != "“Gorse” is more chewy." || math.Abs(v.P-0.021484375) > 1e-12 || v.Share == nil {
		t.Errorf("%s p %g", v.Headline, v.P)
	}
	likes := plan(blind.Paired, 10, 1)
	v = judged(t, verdict.Input{Opened: taste(t, likes, "", func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		if n == 9 {
			return blind.Answer{Tie: true}
		}
		return naming(9)(n, s, loaf)
	})})
	// 9 of 9: 2/2⁹.
	if v.Headline.String() != "“Harbour” is liked better." || math.Abs(v.P-2.0/512) > 1e-12 || v.Share != nil || v.Tally.Ties != 1 {
		t.Errorf("%s p %g %+v", v.Headline, v.P, v.Tally)
	}
	says(t, slices.Concat(v.Words, v.Details), "9 of 9 answers liked “Harbour” better, 0 “Gorse”.", "1 answer was “no preference”", "about once in 260 tries (p\u00a00.0039)")
	for i, s := range v.Tally.PerTaster[:9] {
		if s.Counted != 1 || s.Agreeing != 1 {
			t.Errorf("taster %d: %+v", i, s)
		}
	}
}

func TestDuoTrioAndTetrad(t *testing.T) {
	right := func(_ int, s blind.Serving, loaf func(string) int) blind.Answer {
		var a blind.Answer
		want := loaf(blind.ReferenceLabel)
		if want == 0 {
			want = 1
		}
		for _, label := range s.Samples {
			if loaf(label) == want {
				a.Picks = append(a.Picks, label)
			}
		}
		return a
	}
	for m, p := range map[blind.Method]float64{blind.DuoTrio: 1.0 / 64, blind.Tetrad: 1.0 / 729} {
		v := judged(t, verdict.Input{Opened: taste(t, plan(m, 1, 6), "", right)})
		if !v.Shown || math.Abs(v.P-p) > 1e-12 {
			t.Errorf("%s: p %g, want %g", m, v.P, p)
		}
	}
}

func scaled(score func(n, loaf int, attribute string) int) func(int, blind.Serving, func(string) int) blind.Answer {
	return func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		a := blind.Answer{Scores: map[string]map[string]int{}}
		for _, label := range s.Samples {
			a.Scores[label] = map[string]int{}
			for _, attribute := range []string{"sour", "chewy", "liking"} {
				a.Scores[label][attribute] = score(n, loaf(label), attribute)
			}
		}
		return a
	}
}

func scalingPlan(rounds int) blind.Plan {
	p := plan(blind.Scaling, 1, rounds)
	p.Attributes = []blind.Attribute{{Name: "sour"}, {Name: "chewy"}, blind.Liking()}
	return p
}

func TestScaling(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, scalingPlan(8), "", scaled(func(n, loaf int, attribute string) int {
		switch {
		case attribute == "sour" && loaf == 1:
			return 6 + n%3 // always higher
		case attribute == "chewy" && n%2 == loaf%2:
			return 6 // to and fro
		}
		return 5
	}))})
	sour, chewy, liking := v.Attributes[0], v.Attributes[1], v.Attributes[2]
	// Eight pairs all one way: 2/2⁸, times three by Holm.
	if math.Abs(sour.Test.P-2.0/256) > 1e-12 || math.Abs(sour.Adjusted-6.0/256) > 1e-12 || !sour.Shown {
		t.Errorf("sour: %+v", sour)
	}
	if chewy.Shown || chewy.Test.P != 1 || liking.Test.Zeros != 8 || liking.Shown {
		t.Errorf("chewy %+v, liking %+v", chewy, liking)
	}
	if len(sour.Pairs) != 8 || sour.Pairs[1].First != 7 || sour.Pairs[1].Second != 5 {
		t.Errorf("pairs %+v", sour.Pairs)
	}
	if v.Headline.String() != "A difference was shown: sour." {
		t.Error(v.Headline)
	}
	says(t, slices.Concat(v.Words, v.Details),
		"Sour: “Harbour” scores higher. “Harbour” 6.9, “Gorse” 5.0 on average (p\u00a00.0078, with Holm's correction 0.023).",
		"Liking: nothing was shown.", "8 pairs were scored both alike and are left out of the test.")

	v = judged(t, verdict.Input{Opened: taste(t, scalingPlan(5), "", scaled(func(n, loaf int, _ string) int { return 4 + loaf }))})
	if v.Shown {
		t.Error("five pairs cannot show anything")
	}
	says(t, slices.Concat(v.Words, v.Details), "5 rounds cannot show anything: there are too few pairs of scores for 3 attributes.", "A true difference of two points on the scale would be shown about eight times in ten with")
}

func TestCautionsAreRepeated(t *testing.T) {
	p := plan(blind.Triangle, 1, 6)
	opened := taste(t, p, "the ferry left", func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		switch n {
		case 1:
			return blind.Answer{Missing: "a plate was dropped"}
		case 4, 5:
			return blind.Answer{Remark: "never"}
		}
		a := rightFor(6)(n, s, loaf)
		a.SkippedRinses = 1
		return a
	})
	differences := fair.Differences([]fair.Metric{{Name: say.Of("dough temperature"), Unit: "°C", First: fair.Number(26), Second: fair.Number(24)}, {Name: say.Of("oven"), First: fair.Text("a"), Second: fair.Text("b")}})
	differences[0].Accepted = true
	differences[1].Note = "only one oven was free"
	v := judged(t, verdict.Input{Opened: opened, Differences: differences})
	if v.Tally.Counted != 3 || v.Tally.Missing != 1 || v.Tally.Never != 2 || v.Tally.Planned != 6 {
		t.Errorf("%+v", v.Tally)
	}
	says(t, slices.Concat(v.Cautions, v.Unfair),
		"The host ended early, after 4 of 6 rounds (“the ferry left”). Stopping when the count looks good makes a false alarm more likely than the p-value says.",
		"1 round was handed in without an answer",
		"3 pauses to rinse were cut short.",
		"Dough temperature: 26 °C for “Harbour”, 24 °C for “Gorse”, a difference of 2 °C. (accepted)",
		"(noted: only one oven was free)")
}

func TestNothingToCount(t *testing.T) {
	opened := taste(t, plan(blind.Triangle, 1, 1), "", func(int, blind.Serving, func(string) int) blind.Answer {
		return blind.Answer{Missing: "burnt"}
	})
	v := judged(t, verdict.Input{Opened: opened})
	if v.Shown || v.P != 1 || v.Share != nil || v.DPrime != nil {
		t.Errorf("%+v", v)
	}
	says(t, slices.Concat(v.Words, v.Details), "There is no answer to count.")
}

func TestCorrectionsAreAdditions(t *testing.T) {
	opened := taste(t, plan(blind.Triangle, 1, 5), "", rightFor(3))
	right := func(round int) blind.Answer {
		r := opened.Rounds[round]
		for _, plate := range r.Plates {
			if a := (blind.Answer{Picks: []string{plate.Label}}); opened.Right(r, a) {
				return a
			}
		}
		panic("no odd sample")
	}
	in := verdict.Input{Opened: opened, Corrections: []verdict.Correction{{Round: 3, Answer: right(3), Reason: "read the sheet wrongly"}}}
	v := judged(t, in)
	if v.Shown || v.Tally.Agreeing != 3 {
		t.Errorf("a correction changed the verdict: %+v", v)
	}
	says(t, v.Cautions, "After unsealing 1 correction was added.", "round 4 of Ines: read the sheet wrongly.", "With the corrections it would read: They can be told apart. (p\u00a00.045)")
	for why, c := range map[string]verdict.Correction{
		"no reason":      {Round: 3, Answer: right(3)},
		"no such round":  {Round: 9, Answer: right(3), Reason: "x"},
		"no such sample": {Round: 3, Answer: blind.Answer{Picks: []string{"000"}}, Reason: "x"},
	} {
		if _, err := verdict.Of(verdict.Input{Opened: opened, Corrections: []verdict.Correction{c}}); !errors.Is(err, blind.ErrAnswer) {
			t.Errorf("%s: %v", why, err)
		}
	}
}

// Corrections that turn a shown liking round do not read the same.
func TestCorrectionsCanTurnAVerdictRound(t *testing.T) {
	in := verdict.Input{Opened: taste(t, plan(blind.Paired, 1, 8), "", naming(8))}
	for _, r := range in.Opened.Rounds {
		for _, plate := range r.Plates {
			if plate.Loaf == 2 {
				in.Corrections = append(in.Corrections, verdict.Correction{Round: r.Round, Answer: blind.Answer{Picks: []string{plate.Label}}, Reason: "left and right taken for one another"})
			}
		}
	}
	v := judged(t, in)
	if v.Headline.String() != "Ines likes “Harbour” better." {
		t.Error(v.Headline)
	}
	says(t, v.Cautions, "they say what Ines likes, not what others do", "With the corrections it would read: Ines likes “Gorse” better.")
}

func TestABrokenSealGivesNoVerdict(t *testing.T) {
	opened := taste(t, plan(blind.Triangle, 1, 3), "", rightFor(3))
	opened.Text = strings.Replace(opened.Text, "=1", "=2", 1)
	if _, err := verdict.Of(verdict.Input{Opened: opened}); !errors.Is(err, verdict.ErrSeal) {
		t.Errorf("%v", err)
	}
}

func TestAddingUp(t *testing.T) {
	a := verdict.Input{Opened: taste(t, plan(blind.Triangle, 1, 4), "", rightFor(3))}
	b := verdict.Input{Opened: taste(t, plan(blind.Triangle, 1, 6), "", rightFor(5))}
	sum, err := verdict.Pool([]verdict.Input{a, b}, []bool{true, true})
	if err != nil {
		t.Fatal(err)
	}
	// 8 of 10 in all: 0.34 %, as published for one sitting of ten.
	if sum.Tally.Agreeing != 8 || sum.Tally.Counted != 10 || math.Abs(sum.P-0.0034) > 5e-5 || !sum.Replicates || len(sum.Tally.PerTaster) != 1 {
		t.Errorf("%+v", sum)
	}
	says(t, sum.Words, "Ines was right in 8 of 10 rounds.")
	says(t, sum.Cautions, "2 tastings are added up. Decide beforehand how many", "not for “there is none”")

	// The loaves may be the other way round in the second tasting.
	likes := func(k int) verdict.Input {
		return verdict.Input{Opened: taste(t, plan(blind.Paired, 1, 6), "", naming(k))}
	}
	sum, err = verdict.Pool([]verdict.Input{likes(6), likes(0)}, []bool{true, false})
	if err != nil || sum.Tally.Agreeing != 12 || sum.Headline.String() != "Ines likes “Harbour” better." {
		t.Errorf("%+v, %v", sum, err)
	}
	scale := verdict.Input{Opened: taste(t, scalingPlan(6), "", scaled(func(_, loaf int, _ string) int { return 4 + loaf }))}
	sum, err = verdict.Pool([]verdict.Input{scale, scale}, []bool{true, false})
	if err != nil || sum.Shown || len(sum.Attributes[0].Pairs) != 12 || sum.Attributes[0].Test.P != 1 {
		t.Errorf("%+v, %v", sum, err)
	}

	for why, other := range map[string]blind.Plan{
		"another method":    plan(blind.DuoTrio, 1, 6),
		"another attribute": func() blind.Plan { p := plan(blind.Triangle, 1, 6); p.Alpha = 0.2; return p }(),
	} {
		in := verdict.Input{Opened: taste(t, other, "", func(_ int, s blind.Serving, _ func(string) int) blind.Answer {
			return blind.Answer{Picks: s.Samples[:1]}
		})}
		if _, err := verdict.Pool([]verdict.Input{a, in}, []bool{true, true}); !errors.Is(err, verdict.ErrPool) {
			t.Errorf("%s: %v", why, err)
		}
	}
	if _, err := verdict.Pool([]verdict.Input{a}, []bool{true}); !errors.Is(err, verdict.ErrPool) {
		t.Errorf("one alone: %v", err)
	}
}

// Fisher's lady: of eight cups, four of each, three of four rightly named; by
// guessing that or better has probability 17/70. A tetrad is her test with two
// of each, where guessing gives 1/3: both are the share of ways to choose.
func TestFishersTeaAndTheTetrad(t *testing.T) {
	ways := func(half, right int) float64 {
		choose := func(n, k int) float64 {
			c := 1.0
			for i := range k {
				c = c * float64(n-i) / float64(i+1)
			}
			return c
		}
		sum := 0.0
		for k := right; k <= half; k++ {
			sum += choose(half, k) * choose(half, half-k)
		}
		return sum / choose(2*half, half)
	}
	if math.Abs(ways(4, 3)-17.0/70) > 1e-12 {
		t.Errorf("Fisher's tea: %g", ways(4, 3))
	}
	// In a tetrad the groups are not named: both namings are right.
	if math.Abs(2*ways(2, 2)-blind.Tetrad.Chance()) > 1e-12 {
		t.Errorf("tetrad: %g", 2*ways(2, 2))
	}
}

func TestForesight(t *testing.T) {
	f := verdict.Foresee(plan(blind.Triangle, 1, 6))
	if f.Critical != 5 || math.Abs(f.Power-256.0/729) > 1e-12 {
		t.Errorf("%+v", f)
	}
	says(t, f.Words,
		"6 rounds will show something if at least 5 of 6 answers are right.",
		"With 6 rounds, a taster who can tell them apart half of the time will be shown to do so about one time in three.",
		fmt.Sprintf("From %d rounds on it is always at least eight times in ten.", f.Needed),
		"not for “there is none”")
	f = verdict.Foresee(plan(blind.DuoTrio, 1, 4))
	if f.Critical != 0 || f.Power != 0 {
		t.Errorf("%+v", f)
	}
	says(t, f.Words, "4 rounds cannot show anything: even if every answer agreed, that would come up by guessing about once in 16 tries.",
		"A difference that is noticed half of the time would be shown at least eight times in ten with 28 rounds or more.")
	f = verdict.Foresee(plan(blind.Paired, 8, 4))
	says(t, f.Words, // by hand: 2/2⁸ is 0.0078, and 2·9/2⁸ is 0.0703
		"8 tasters with 4 rounds each will show something if all 8 tasters like the same loaf better.", "tasters of whom three in four like the same loaf better", "From 35 tasters on it is always at least eight times in ten.", "each taster counts once, however many rounds")
	says(t, verdict.Foresee(plan(blind.Paired, 1, 8)).Words, "8 rounds will show something if all 8 answers name the same loaf.")
	says(t, verdict.Foresee(plan(blind.Triangle, 5, 8)).Words, "tasters who can tell them apart half of the time", "this plan has enough")
	p := plan(blind.Paired, 2, 3)
	p.Attribute, p.Expected = "sour", 2
	says(t, verdict.Foresee(p).Words, "if all 6 answers name “Gorse”")
	says(t, verdict.Foresee(scalingPlan(6)).Words, "6 rounds cannot show anything")
	says(t, verdict.Foresee(scalingPlan(12)).Words, "With 12 rounds, a true difference of two points on the scale")
}

func TestPoolTellsEachDifferenceOnce(t *testing.T) {
	warmer := fair.Difference{Figure: fair.Metric{Name: say.Of("dough temperature"), Unit: "°C", First: fair.Number(26), Second: fair.Number(24)}}
	longer := fair.Difference{Figure: fair.Metric{Name: say.Of("proof"), Unit: "min", First: fair.Number(60), Second: fair.Number(90)}}
	with := func(all ...fair.Difference) verdict.Input {
		return verdict.Input{Opened: taste(t, plan(blind.Triangle, 3, 2), "", rightFor(3)), Differences: all}
	}
	for _, c := range []struct {
		what     string
		tastings []verdict.Input
		want     map[string]int // how often each is said
	}{
		{"the same bakes", []verdict.Input{with(warmer, longer), with(warmer, longer)},
			map[string]int{"In every tasting the bakes differed as shown for tasting 1.": 1, "26 °C": 0, "90 min": 0}},
		{"one more in the second", []verdict.Input{with(warmer), with(warmer, longer)},
			map[string]int{"In every tasting the bakes differed as shown for tasting 1.": 1, "26 °C": 0, "Tasting 2: the bakes differed in another way too. Proof": 1}},
		{"one of three is like the first", []verdict.Input{with(warmer), with(warmer), with()},
			map[string]int{"In every tasting": 0, "Tasting 2: the bakes differed as shown for tasting 1.": 1, "26 °C": 0, "Tasting 3": 0}},
		{"a part of the first's", []verdict.Input{with(warmer, longer), with(longer)},
			map[string]int{"as shown for": 0, "26 °C": 0, "Tasting 2: the bakes differed in another way too. Proof": 1}},
		{"none", []verdict.Input{with(), with()}, map[string]int{"differed": 0}},
	} {
		ones := make([]bool, len(c.tastings))
		for i := range ones {
			ones[i] = true
		}
		sum, err := verdict.Pool(c.tastings, ones)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, line := range sum.Cautions {
			said += line.String() + "\n"
		}
		for words, n := range c.want {
			if strings.Count(said, words) != n {
				t.Errorf("%s: %q is said %d times, want %d, in:\n%s", c.what, words, strings.Count(said, words), n, said)
			}
		}
	}
}

func TestPoolSaysOnceWhatTakesFromEach(t *testing.T) {
	one := verdict.Input{Opened: taste(t, plan(blind.Triangle, 3, 2), "", rightFor(3))}
	sum, err := verdict.Pool([]verdict.Input{one, one}, []bool{true, true})
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, c := range sum.Cautions {
		words = append(words, c.String())
	}
	said := strings.Join(words, "\n")
	if strings.Count(said, "answered more than once") != 1 || strings.Count(said, "typed in from printed sheets") != 1 ||
		!strings.Contains(said, "Each time: 6 answers were typed in") {
		t.Errorf("it says:\n%s", said)
	}
}
