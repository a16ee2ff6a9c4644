package cultures

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
)

// A wish is a feeding that is only thought of.
type wish struct {
	At           time.Time
	Flour, Water float64 // to one part kept
	Room         *float64
}

// wishLike is the last feeding's ratio at the place where it stands.
func wishLike(p *portrait) wish {
	w := wish{At: p.now, Flour: 2, Water: 2}
	if f := likeLast(p.life, p.now); f.kept > 0 && f.flour > 0 {
		w.Flour, w.Water = f.flour/f.kept, f.water/f.kept
	}
	if c, ok := p.life.Current(p.now); ok && c.Feeding.Room.Known {
		w.Room = new(float64(c.Feeding.Room.C))
	}
	return w
}

// foresee forecasts a feeding that is only thought of. The first mix is its own ratio.
func (w wish) foresee(l *histories.CultureHistory) (ferment.Forecast, error) {
	f := ferment.Feeding{At: w.At, Place: ferment.Place(l.Home(w.At)), Kept: 100, Flour: ferment.Grams(100 * w.Flour), Water: ferment.Grams(100 * w.Water)}
	if w.Room != nil {
		f.Room, f.Steady = ferment.Measured(ferment.Celsius(*w.Room)), true
	}
	return l.Planner(w.At).Predict(ferment.Course{Feeding: f}, w.At)
}

// plannedSection answers "what if": a feeding at another time, ratio or temperature, and
// when it would be ripe.
type plannedSection struct {
	page   *culturePage
	box    *fyne.Container
	wish   wish
	own    bool // something was typed: the wish does not follow the record any more
	when   *kit.WhenField
	ratio  *kit.TextField
	room   *kit.QuantityField
	answer *kit.Text
	rests  *kit.Text
	stop   func() // gives up what is being worked out
}

func newPlannedSection(p *culturePage) *plannedSection {
	t := &plannedSection{page: p, stop: func() {}, answer: kit.Body(" "), rests: kit.Small(" ")}
	u := p.env.Units()
	t.when = kit.NewWhenField(kit.WhenOptions{Label: lang.L("If you feed it at"), Units: u, Now: p.env.Now, OnChanged: func(at time.Time) {
		t.wish.At = at
		t.typed()
	}})
	t.ratio = kit.NewTextField(lang.L("at the ratio"), "1:2:2")
	t.ratio.SelectWhole()
	t.ratio.OnChanged = func(text string) {
		flour, water, err := parseRatio(text, 1, p.env.Units())
		if err != nil || flour+water <= 0 {
			t.ratio.SetProblem(lang.L("Parts kept, of flour, of water: 1:2:2."))
			return
		}
		t.ratio.SetProblem("")
		t.wish.Flour, t.wish.Water = flour, water
		t.typed()
	}
	t.room = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("kept at"), Measure: u.Temperature(), Keep: func(v *float64) {
		t.wish.Room = v
		t.typed()
	}})
	t.box = kit.Stack(3, kit.Section(lang.L("What comes next")), kit.WeightedColumns(look.Space(18), []float32{2, 1, 1.2}, t.when, t.ratio, t.room), t.answer, t.rests,
		kit.Row(3, kit.NewButton(lang.L("Plan a levain build"), p.plan).WithKey("P")))
	return t
}

func (t *plannedSection) show(p *portrait) {
	fed := p.life.Culture.Ended.IsZero() && p.guide.Stage != ferment.StageDanger
	kit.SetVisible(t.box, fed)
	if !fed {
		t.stop()
		return
	}
	if !t.own {
		t.wish = wishLike(p)
		t.when.SetTime(t.wish.At)
		u := t.page.env.Units()
		t.ratio.SetText("1:" + u.FormatNumber(t.wish.Flour, 2) + ":" + u.FormatNumber(t.wish.Water, 2))
		if t.wish.Room != nil {
			t.room.SetValue(*t.wish.Room)
		}
	}
	t.work()
}

func (t *plannedSection) typed() {
	t.own = true
	t.work()
}

// work foretells the wish away from the main goroutine.
func (t *plannedSection) work() {
	t.stop()
	por := t.page.now
	if por == nil {
		return
	}
	w := t.wish
	var f ferment.Forecast
	var err error
	t.stop = t.page.env.Think(func() { f, err = w.foresee(por.life) }, func() {
		u := t.page.env.Units()
		if err != nil {
			t.answer.SetText(u.ErrorText(err))
			t.rests.Say("")
			return
		}
		o := outlookOf(f, nil, por.now, u)
		t.answer.SetSpans(
			kit.Span{Text: ripeWords(f, por.now, u) + ". ", Bold: true},
			kit.Span{Text: o.Label + " " + o.When + "."})
		rests := o.Rests
		if !f.Temp.Known {
			rests = joined(lang.L("No temperature is known; {{.Temp}} is assumed.", map[string]any{"Temp": u.Celsius(f.Temp.C)}), rests)
		}
		t.rests.Say(rests)
		t.box.Refresh()
	})
}
