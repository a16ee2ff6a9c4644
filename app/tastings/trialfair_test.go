package tastings

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/fair"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

func apart(name, unit string, a, b float64) fair.Difference {
	return fair.Difference{Figure: fair.Metric{Name: say.Of(name), Unit: unit, First: fair.Number(a), Second: fair.Number(b)}}
}

// A pair is called fair only once every difference is accepted, and no figure stands for
// others that are not of its kind.
func TestFairHeading(t *testing.T) {
	if err := words.Speak("en"); err != nil { // with its plurals
		t.Fatal(err)
	}
	water, core := apart("water temperature", "°C", 29.9, 29.1), apart("core temperature", "°C", 97.2, 97.7)
	dough, rest := apart("dough temperature", "°C", 25.1, 24.9), apart("length of bulk", "min", 240, 300)
	settled := func(ds ...fair.Difference) []journal.Unfair {
		var out []journal.Unfair
		for _, d := range ds {
			d.Accepted = true
			out = append(out, journal.Unfair{Difference: d})
		}
		return out
	}
	noted := settled(water)
	noted[0].Accepted, noted[0].Note = false, "the tap"
	for _, c := range []struct {
		unfair []journal.Unfair
		alike  []fair.Difference
		want   string
	}{
		{settled(water, core), []fair.Difference{dough}, "A fair pair: temperatures within 0.8 °C"},
		{nil, []fair.Difference{dough}, "A fair pair: temperatures within 0.2 °C"},
		{settled(water, rest), nil, "A fair pair, 2 differences accepted"},
		{nil, nil, "A fair pair, as far as is recorded"},
		{append(settled(core), journal.Unfair{Difference: water}), nil, "Is it a fair pair? One difference waits for your word"},
		{noted, nil, "Not quite alike: one difference is noted"},
	} {
		if got := plain(fairHeading(c.unfair, c.alike, measure.Units{})); got != c.want {
			t.Errorf("%q instead of %q", got, c.want)
		}
	}
}

func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// One day ran behind the other only if every step that both have says so.
func TestBehind(t *testing.T) {
	begin := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	day := func(late ...int) *journal.Bake {
		b := &journal.Bake{}
		for i, kind := range []string{"mix", "bulk", "bake"} {
			b.Steps = append(b.Steps, journal.Step{ID: journal.ID(kind), Kind: kind, At: begin.Add(time.Duration(i)*time.Hour + time.Duration(late[i])*time.Minute)})
		}
		return b
	}
	for want, late := range map[string][]int{
		"Gorse ran 8 min behind at every step": {8, 8, 8},
		"Gorse ran 5 min to 12 min behind":     {5, 12, 8},
		"Harbour ran 4 min to 6 min behind":    {-4, -6, -5},
		"":                                     {-1, 3, 8},
	} {
		if got := plain(behind([2]string{"Harbour", "Gorse"}, day(0, 0, 0), day(late...), measure.Units{})); got != want {
			t.Errorf("%v: %q instead of %q", late, got, want)
		}
	}
}

// A tasting is proposed for the first evening on which both loaves have cooled, and is
// planned for the time that the baker gives.
func TestTheTimeOfATasting(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	bakes, err := journal.TrialBakes(b.Env.Journal, trial)
	if err != nil {
		t.Fatal(err)
	}
	both := [2]journal.ID{bakes[0].ID, bakes[1].ID}
	now := b.Env.Now()
	hour := func(days int) time.Time {
		return time.Date(now.Year(), now.Month(), now.Day()+days, evening, 0, 0, 0, now.Location())
	}
	for i, c := range []struct{ start, want time.Time }{
		{hour(2).Add(-5 * time.Hour), hour(2)},
		{hour(2).Add(-time.Hour), hour(3)}, // too warm to cut that evening
	} {
		b.Put(func(tx *journal.Tx) error {
			return journal.Change(tx, both[1], func(x *journal.Bake) {
				day, _ := x.Day()
				day.Start = c.start
				x.SetPlan(day)
			})
		})
		if got := proposedTime(b.Env.Journal, both, now); !got.Equal(c.want) {
			t.Errorf("%d: %v instead of %v", i, got, c.want)
		}
	}
	given := now.Add(50 * time.Hour)
	planTasting(b.Env, given, trial.ID, both, blind.Plan{}, "")
	got, err := journal.Get[journal.Tasting](b.Env.Journal, b.place.ID)
	if err != nil || !got.At.Equal(given) {
		t.Errorf("planned for %v, %v", got.At, err)
	}
}

// What both loaves follow is chosen by its picture, and what is alike is told but for what is
// varied.
func TestANewTrialByItsPictures(t *testing.T) {
	b := newBench(t)
	b.trial()
	b.goTo(pages.Route{Name: pages.Trial})
	b.mustSay("that both follow.")
	var tile *kit.PhotoTile
	pagestest.Each(b.Window.Content(), func(o fyne.CanvasObject) {
		if p, ok := o.(*kit.PhotoTile); ok && tile == nil {
			tile = p
		}
	})
	tile.Tapped(nil)
	b.mustSettle()
	for _, said := range []string{"Alike in all of them", "Wheat flour", "Say what each of them has."} {
		b.mustSay(said)
	}
	b.press("the flour")
	if strings.Contains(b.Texts(), "Wheat flour") {
		t.Error("the flour is varied and called alike")
	}
}

// What has to be at hand follows from the method: samples a round, rounds, tasters.
func TestWhatATastingNeeds(t *testing.T) {
	p := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Rounds: 6, Tasters: []string{"A", "B", "C"}}
	if got := needs(p); !strings.HasPrefix(got, "54 samples of bread in all, 3 to a round.") || !strings.Contains(got, "helper") {
		t.Errorf("a triangle: %s", got)
	}
	p.Mode, p.Tasters = blind.Alone, nil
	if got := needs(p); !strings.HasPrefix(got, "18 samples") || strings.Contains(got, "helper") {
		t.Errorf("alone: %s", got)
	}
}
