package findings

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

var march = time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)

// record puts n bakes into a journal: the longer the cold rest, the higher the
// score, and the cooler the dough; salt has to do with nothing.
func record(t *testing.T, b *pagestest.Bench, n int) {
	t.Helper()
	harbour, gorse := &journal.Culture{Name: "Harbour"}, &journal.Culture{Name: "Gorse"}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, harbour); err != nil {
			return err
		}
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		for i := range n {
			cold := 8 + float64(i*7%17)
			at := march.AddDate(0, 0, -i)
			k := &journal.Bake{
				Name: fmt.Sprintf("Loaf %d", i), At: at, State: journal.Finished, Culture: harbour.ID,
				Ingredients: []journal.Ingredient{
					{Name: "Strong white", Role: formula.Flour, Grams: 500}, {Name: "Water", Role: formula.Water, Grams: formula.Grams(330 + 5*(i*3%11))},
					{Name: "Salt", Role: formula.Salt, Grams: formula.Grams(9 + float64(i*5%4)/2)},
				},
				Steps: []journal.Step{{Kind: journal.StepCold, At: at, End: at.Add(time.Duration(cold * float64(time.Hour)))}},
				Water: journal.WaterPlan{Dough: new(formula.Celsius(28 - cold/4))},
			}
			if i%3 == 0 {
				k.Culture = gorse.ID
			}
			k.Outcome.Scores = []journal.AttributeScore{{Attribute: journal.Overall, Score: 3 + int(cold-8)/4 + i%2}}
			if err := journal.Put(tx, k); err != nil {
				return err
			}
		}
		return nil
	})
}

func show(t *testing.T, b *pagestest.Bench, about string) *page {
	t.Helper()
	p := b.Show(Routes()[pages.Findings], pages.Route{Name: pages.Findings, More: about}).(*page)
	b.Wait()
	return p
}

func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// A trend is told with how much, how sure, how many, what it cannot say and what
// moved with it.
func TestTrendIsTold(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	p := show(t, b, "")
	a := p.answer
	if a.factor.Key != shelf.ColdHours || a.outcome.Key != shelf.Score {
		t.Fatalf("asked %q of %q", a.outcome.Key, a.factor.Key)
	}
	if got := headline(a); got != "Longer cold proofs went with higher scores" {
		t.Errorf("headline %q", got)
	}
	said := plain(strings.Join(finds(a, measure.Units{}), " "))
	for _, want := range []string{"Over 30 bakes", "higher for each 4 h more of cold proof", "95 % confidence interval", "Rank correlation 0.", "p < 0.001", "less than once in 1000 times", "reordering"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
	if got := cannot(a); !strings.Contains(got, "not randomised") || !strings.Contains(got, "other things changed with it") {
		t.Errorf("what cannot be said: %q", got)
	}
	if len(a.links) == 0 || a.links[0].Name != string(shelf.DoughTemp) || a.links[0].Strength != -1 {
		t.Fatalf("what moved along: %+v", a.links)
	}
	if got := plain(linkWords(a.links[0], "dough temperature", a, measure.Units{})); got != "dough temperature fell as it rose (rank correlation −1.00, 30 bakes)" {
		t.Errorf("in words: %q", got)
	}
}

// The finding is held against all that the record can be asked, and says so; what
// goes with the outcome is listed, the strongest first.
func TestManyQuestionsAreHeldTogether(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	p := show(t, b, "")
	a := p.answer
	n := len(a.survey.Found)
	if n < 5 || a.found.Adjusted < a.found.P || !told(a) {
		t.Fatalf("%d questions, %+v", n, a.found)
	}
	said := plain(strings.Join(finds(a, measure.Units{}), " "))
	for _, want := range []string{fmt.Sprintf("%d questions can be asked", n), "Benjamini and Hochberg", "Only bakes of the same flour and the same culture are set beside one another (2 kinds of bakes)."} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
	list := a.survey.With(string(shelf.Score))
	if len(list) < 3 || !list[0].Told() || len(p.list.Objects) < 3 {
		t.Errorf("listed %+v", list)
	}
	for _, f := range a.survey.Found {
		if f.Factor == string(shelf.Salt) && f.Told() {
			t.Errorf("salt has to do with nothing, and yet %+v", f)
		}
	}
}

// The figures of what goes with an outcome end at one edge in each column, in rows that are easily
// pressed, however narrow the list is.
func TestWhatGoesWithAnOutcomeStandsInColumns(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	p := show(t, b, "")
	for _, width := range []float32{500, 900} {
		p.list.Resize(fyne.NewSize(width, p.list.MinSize().Height))
		var ends [surveyFigures]float32
		rows := pagestest.All[*kit.OpenRow](p.list)
		for i, row := range rows {
			if row.Size().Height < 32 {
				t.Errorf("row %d is %v high", i, row.Size().Height)
			}
			texts := pagestest.All[*kit.Text](row)
			for k, text := range texts[1:] {
				if at := text.Position(); at.X < texts[0].Position().X+texts[0].Size().Width {
					t.Errorf("%v wide, row %d: %q lies over %q", width, i, text, texts[0])
				}
				end := text.Position().X
				if rightAligned[k] {
					end += text.Size().Width
				}
				if i > 0 && max(end-ends[k], ends[k]-end) > 0.01 {
					t.Errorf("%v wide, row %d: %q ends or begins at %v, the one above at %v", width, i, text, end, ends[k])
				}
				ends[k] = end
			}
		}
		if len(rows) < 3 {
			t.Fatalf("%d rows", len(rows))
		}
	}
}

// A heading follows the line: where the ranks rise and the line is level or falls,
// neither is claimed.
func TestTheHeadingFollowsTheLine(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	a := show(t, b, "").answer
	level := *a.trend
	level.Slope = 0
	a.trend = &level
	if got := headline(a); got != "Overall score and cold proof go together, and no line says by how much" {
		t.Errorf("headline over a level line: %q", got)
	}
}

// From a dozen bakes nobody can say that nothing else moved along.
func TestTooFewToSeeWhatElseMoved(t *testing.T) {
	a := answer{n: 12, trend: &finding.Trend{}, found: finding.Found{Factor: "x", Adjusted: 0.01}}
	if got := cannot(a); !strings.Contains(got, "too few to see whether anything else changed with it") {
		t.Errorf("%q", got)
	}
	a.n = 60
	if got := cannot(a); !strings.Contains(got, "clearly linked to it") {
		t.Errorf("%q", got)
	}
}

func TestNoTrendIsTold(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	p := show(t, b, string(shelf.Salt))
	if got := headline(p.answer); got != "No trend of overall score with salt can be told from chance" {
		t.Errorf("headline %q", got)
	}
	if got := cannot(p.answer); !strings.Contains(got, "does not say that salt makes no difference") {
		t.Errorf("what cannot be said: %q", got)
	}
}

func TestGroups(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	p := show(t, b, string(byCulture))
	a := p.answer
	if a.groups == nil || a.groups.Groups[0].Name != "Harbour" || len(a.groups.Groups[0].Values) != 20 {
		t.Fatalf("%+v", a.groups)
	}
	said := plain(strings.Join(finds(a, measure.Units{}), " "))
	for _, want := range []string{"Medians of overall score: Harbour ", "(of 20); Gorse ", "Mann–Whitney"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
	if len(p.proposal.cultures) != 2 || p.proposal.varied != journal.VaryCulture {
		t.Errorf("the trial proposed is %+v", p.proposal)
	}
}

func TestTooFew(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 3)
	p := show(t, b, "")
	if got := headline(p.answer); got != "Too few bakes to say what cold proof has to do with overall score" {
		t.Errorf("headline %q", got)
	}
	if cannot(p.answer) != "" || len(p.answer.links) != 0 {
		t.Error("something is concluded from three bakes")
	}
}

func TestNothingYet(t *testing.T) {
	b := pagestest.New(t)
	p := show(t, b, "")
	b.Press("T")
	if len(p.outcomes) != 0 || len(b.Failed) != 0 || len(b.Went) != 0 {
		t.Errorf("outcomes %v, failed %v, went %v", p.outcomes, b.Failed, b.Went)
	}
}

// Who stops the asking is told nothing half-asked, and can ask again.
func TestAskingIsStoppedAndBegunAgain(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	p := show(t, b, "")
	p.showStopped()
	if said := b.Texts(); !strings.Contains(said, "Not every question was asked") || strings.Contains(said, "Rank correlation") {
		t.Errorf("stopped, the page says %q", said)
	}
	p.load()
	b.Wait()
	if said := b.Texts(); !strings.Contains(said, "Rank correlation") {
		t.Errorf("asked again, the page says %q", said)
	}
}

// One key plans the trial that would settle it, and goes there; one undo takes it
// back whole.
func TestPlanTheTrial(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	show(t, b, "")
	b.Press("T")
	trials, err := journal.All[journal.Trial](b.Journal)
	if err != nil || len(trials) != 1 {
		t.Fatalf("%d trials, %v; failed %v", len(trials), err, b.Failed)
	}
	tr := trials[0]
	if want := pages.At(pages.Trial, tr.ID); len(b.Went) != 1 || b.Went[0] != want {
		t.Errorf("went to %v, want %v", b.Went, want)
	}
	if tr.Varied != journal.VaryColdRest || len(tr.Arms) != 2 || tr.Question != "Does cold proof change overall score?" {
		t.Errorf("the trial is %+v", tr)
	}
	tastings, err := journal.All[journal.Tasting](b.Journal)
	if err != nil || len(tastings) != 1 {
		t.Fatalf("%d tastings, %v", len(tastings), err)
	}
	// The question goes into the tasting, of the two bakes, with rounds enough.
	s, err := tastings[0].Setting()
	if err != nil || tastings[0].Trial != tr.ID || tastings[0].Name != tr.Question || s.Plan.Method != blind.Triangle ||
		s.Plan.Loaves[1].ID != string(tr.Arms[1].Bake) || s.Plan.Rounds != 6 {
		t.Errorf("the tasting is %+v of %+v, %v", s.Plan, tastings[0], err)
	}
	var hours []float64
	for _, arm := range tr.Arms {
		k, err := journal.Get[journal.Bake](b.Journal, arm.Bake)
		if err != nil {
			t.Fatal(err)
		}
		if k.State != journal.Planned || k.Trial != tr.ID {
			t.Errorf("an arm is %q of trial %q", k.State, k.Trial)
		}
		hours = append(hours, k.Steps[0].Planned.Hours())
	}
	if math.Abs(hours[0]-hours[1]) < 4 {
		t.Errorf("the rests are %v: too near to tell", hours)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if trials, _ := journal.All[journal.Trial](b.Journal); len(trials) != 0 {
		t.Error("undo left the trial")
	}
	if tastings, _ := journal.All[journal.Tasting](b.Journal); len(tastings) != 0 {
		t.Error("undo left the tasting")
	}
}

// A point of either chart leads to its bake.
func TestPointsLeadToBakes(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	for _, about := range []string{"", string(byCulture)} {
		p := show(t, b, about)
		series := "bakes"
		if about != "" {
			series = "Gorse"
		}
		p.open(charts.Mark{Series: series, Index: 0})
		if len(b.Went) == 0 {
			t.Fatalf("%q: the first point leads nowhere", about)
		}
		if got, want := b.Went[len(b.Went)-1], pages.At(pages.Bake, p.record.Bakes[p.answer.rows[0]].ID); about == "" && got != want {
			t.Errorf("went to %v, want %v", got, want)
		}
		n := len(b.Went)
		p.open(charts.Mark{Series: "trend", Index: 0})
		if len(b.Went) != n {
			t.Errorf("%q: a point of the line leads to a bake", about)
		}
	}
}

func TestOneIn(t *testing.T) {
	for p, want := range map[float64]string{
		0.9: "more often than not", 0.44: "about every other time", 0.3: "about once in 3 times", 0.05: "about once in 20 times",
		0.012: "about once in 85 times", 0.004: "about once in 250 times", 0.0011: "about once in 900 times", 0.00005: "less than once in 1000 times", 0: "less than once in 1000 times",
	} {
		if got := oneIn(p, measure.Units{}); got != want {
			t.Errorf("p %v is %q, want %q", p, got, want)
		}
	}
}

func TestNoPIsWrittenAsOneThatTells(t *testing.T) {
	for p, want := range map[float64]string{0.0004: "< 0.001", 0.0123: "0.012", 0.05: "0.05", 0.0503: "0.0503", 0.0506: "0.051", 0.2345: "0.23"} {
		if got := pWords(p, measure.Units{}); got != want {
			t.Errorf("%v: %q, want %q", p, got, want)
		}
	}
}

// One kind is told as one.
func TestHeldWordsOfOneKind(t *testing.T) {
	u := pagestest.New(t).Env.Units()
	if err := words.Speak("en"); err != nil { // with its plurals
		t.Fatal(err)
	}
	for strata, want := range map[int]string{1: "(one culture)", 3: "(3 cultures)"} {
		if got := heldWords(finding.Held{Name: alikeInCulture, Strata: strata}, u); !strings.Contains(got, want) {
			t.Errorf("%q, want %q in it", got, want)
		}
	}
}
