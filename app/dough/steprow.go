package dough

import (
	"math"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/limit"
	"twinloaf/journal/plan"
)

// stepRow holds the widgets of one step.
type stepRow struct {
	object *fyne.Container
	steps  *Steps
	id     journal.ID

	name                             *kit.SuggestField
	length, least, most, times, each *kit.QuantityField
}

func newStepRow(s *Steps, id journal.ID) *stepRow {
	r := &stepRow{steps: s, id: id}
	r.name = kit.NewSuggestField("", lang.L("a step"), SuggestSteps)
	r.name.OnChanged = func(text string) {
		r.edit(lang.L("name of a step"), func(st *journal.Step) { NameStep(st, text) })
	}
	r.length = r.minutes(lang.L("length of a step"), setLength)
	r.least = r.minutes(lang.L("least length of a step"), func(st *journal.Step, d time.Duration) { setBounds(st, d, st.Max) })
	r.most = r.minutes(lang.L("greatest length of a step"), func(st *journal.Step, d time.Duration) { setBounds(st, st.Min, d) })
	r.each = r.minutes(lang.L("time between folds"), func(st *journal.Step, d time.Duration) { setTurns(st, st.Times, d) })
	r.times = kit.NewQuantityField(kit.QuantityOptions{Measure: s.units.Number("", 0).In(limit.Turns), Hint: "–",
		Keep: func(v *float64) {
			r.edit(lang.L("number of folds"), func(st *journal.Step) { setTurns(st, int(kit.OrZero(v)), st.Every) })
		},
	})
	sign := func(words string, do func()) *kit.Link {
		return kit.NewLinkSpan(kit.Span{Text: words, Bold: true, Color: look.ColorFaint}, do)
	}
	acts := kit.Row(2, sign("↑", r.up), sign("×", r.remove))
	r.object = &fyne.Container{Layout: &stepLayout{},
		Objects: []fyne.CanvasObject{r.name, r.length, r.least, r.most, r.times, r.each, acts}}
	return r
}

func (r *stepRow) minutes(label string, set func(*journal.Step, time.Duration)) *kit.QuantityField {
	return kit.NewQuantityField(kit.QuantityOptions{Measure: r.steps.units.Duration(), Hint: "–",
		Keep: func(v *float64) {
			r.edit(label, func(st *journal.Step) { set(st, time.Duration(math.Round(kit.OrZero(v)))*time.Minute) })
		},
	})
}

func (r *stepRow) edit(label string, set func(*journal.Step)) {
	r.steps.holder.EditSteps(label, func(steps *[]journal.Step) {
		for i := range *steps {
			if (*steps)[i].ID == r.id {
				set(&(*steps)[i])
			}
		}
	})
}

// setLength sets a step's length and moves its bounds out of the way.
func setLength(st *journal.Step, d time.Duration) {
	st.Planned = d
	if st.Min != 0 || st.Max != 0 {
		st.Min, st.Max = min(st.Min, d), max(st.Max, d)
	}
}

// setBounds sets the lengths between which a step may be moved. Without one of
// them, the length stands for it; without either, the step is fixed.
func setBounds(st *journal.Step, least, most time.Duration) {
	switch {
	case least == 0 && most == 0:
	case most == 0:
		most = max(st.Planned, least)
	case least == 0 && st.Min == 0:
		least = min(st.Planned, most)
	}
	st.Min, st.Max = least, most
	if most > 0 {
		st.Planned = min(max(st.Planned, least), most)
	}
}

// setTurns makes a step one of turns, long enough for them, or none.
func setTurns(st *journal.Step, times int, every time.Duration) {
	if times > 0 && every == 0 {
		every = 30 * time.Minute // common practice, no source
	}
	was := time.Duration(st.Times) * st.Every
	need := time.Duration(times) * every
	st.Times, st.Every = times, every
	if times == 0 {
		st.Every = 0
	}
	if st.Planned == was || st.Planned < need {
		setLength(st, need)
	}
	if st.Min != 0 || st.Max != 0 {
		st.Min, st.Max = max(st.Min, need), max(st.Max, need)
	}
}

func (r *stepRow) up() {
	r.steps.holder.DoSteps(lang.L("order of the steps"), func(steps *[]journal.Step) {
		all := slices.Clone(*steps)
		i := slices.IndexFunc(all, func(s journal.Step) bool { return s.ID == r.id })
		if i > 0 {
			all[i-1], all[i] = all[i], all[i-1]
		}
		*steps = all
	})
}

func (r *stepRow) remove() {
	done := r.steps.holder.DoSteps(lang.L("removing a step"), func(steps *[]journal.Step) {
		*steps = slices.DeleteFunc(slices.Clone(*steps), func(s journal.Step) bool { return s.ID == r.id })
	})
	if done {
		r.steps.env.Say(lang.L("{{.Name}} is removed.", map[string]any{"Name": r.name.Text()}), true)
	}
}

func (r *stepRow) show(st journal.Step) {
	r.name.SetText(pages.StepTitle(plan.Kind(st.Kind), st.Name))
	r.length.Set(positive(st.Planned.Minutes()))
	r.least.Set(positive(st.Min.Minutes()))
	r.most.Set(positive(st.Max.Minutes()))
	r.times.Set(positive(float64(st.Times)))
	r.each.Set(positive(st.Every.Minutes()))
}

// stepLayout sets what is said of a step in columns on one line: its name first, its figures,
// and last the signs that move it. Where there is no room for the name beside the others it stands
// over the figures, with the signs. It remembers its width, from which its height follows.
type stepLayout struct{ width float32 }

// The widths of the columns of steps, in points.
var stepFigures = shrinkingColumns{96, 96, 96, 56, 80}

const (
	stepName      = 200
	leastStepName = 116
	stepSigns     = 52
	stepGap       = 8
)

// beside is how wide the name is beside the figures, and whether that is enough.
func (l *stepLayout) beside() (name float32, enough bool) {
	name = l.width - stepGap - stepFigures.width() - stepSigns
	return min(stepName, name), l.width == 0 || name >= leastStepName
}

func (l *stepLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	name, line := things[0].MinSize().Height, float32(0)
	for _, o := range things[1:] {
		line = max(line, o.MinSize().Height)
	}
	if _, enough := l.beside(); enough {
		name, line = 0, max(name, line)
	}
	return fyne.NewSize(2*leastStepName+stepSigns, name+line)
}

func (l *stepLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	name, enough := l.beside()
	x, y, part, signs := name+stepGap, float32(0), float32(1), name+stepGap+stepFigures.width()
	if !enough {
		signs = size.Width - stepSigns
		name = signs - stepGap
		x, y, part = 0, things[0].MinSize().Height, min(1, size.Width/stepFigures.width())
	}
	put := func(o fyne.CanvasObject, x, y, width float32) { // signs in the middle of the fields' line
		h := o.MinSize().Height
		kit.Put(o, fyne.NewPos(x, y+max(0, (min(size.Height, kit.LineHeight())-h)/2)), fyne.NewSize(width, h))
	}
	put(things[0], 0, 0, name)
	for i, w := range stepFigures {
		put(things[1+i], x, y, w*part)
		x += (w + stepGap) * part
	}
	put(things[len(things)-1], signs, 0, stepSigns)
}
