package dough

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// A StepHolder is a record whose steps are shown and edited as a template for
// the day.
type StepHolder interface {
	Steps() []journal.Step
	EditSteps(label string, change func(*[]journal.Step))
	DoSteps(label string, change func(*[]journal.Step)) bool
}

// Steps edits the steps of a day as they are planned: their order, lengths, the
// lengths between which they may be moved, and their turns.
type Steps struct {
	Object fyne.CanvasObject

	env    *pages.Env
	holder StepHolder
	units  measure.Units
	rows   []*stepRow
	box    *fyne.Container
	sum    *kit.Text
	usual  *kit.Link // offered while there are no steps
}

// NewSteps makes the editor of steps.
func NewSteps(env *pages.Env, h StepHolder) *Steps {
	s := &Steps{env: env, holder: h, units: env.Units(), box: kit.Stack(0.5), sum: kit.Small("")}
	names := make([]string, 0, len(plan.Kinds()))
	for _, k := range plan.Kinds() {
		names = append(names, pages.StepWord(k))
	}
	add := kit.NewChoiceField("", lang.L("Add a step"), names, nil)
	add.OnChanged = func(i int) {
		add.SetChosen(-1)
		s.add(plan.Kinds()[i])
	}
	s.usual = kit.NewLink(lang.L("Begin with a usual day"), s.TakeUsual)
	s.Object = kit.Stack(2, s.box, s.sum, kit.Row(6, add, s.usual))
	s.Show()
	return s
}

// Show shows the steps as they are now.
func (s *Steps) Show() {
	steps := s.holder.Steps()
	next := kit.KeptRows(s.rows, steps,
		func(r *stepRow, st journal.Step) bool { return r.id == st.ID },
		func(st journal.Step) *stepRow { return newStepRow(s, st.ID) })
	if !slices.Equal(next, s.rows) || len(s.box.Objects) == 0 {
		s.rows = next
		s.box.Objects = []fyne.CanvasObject{stepHeads()}
		for _, r := range s.rows {
			s.box.Add(r.object)
		}
	}
	for i, st := range steps {
		s.rows[i].show(st)
	}
	s.sum.SetText(stepsWords(steps, s.units))
	kit.SetVisible(s.sum, len(steps) > 0)
	kit.SetVisible(s.usual, len(steps) == 0)
	s.box.Refresh()
}

// stepsWords says how long the day is, or why the steps make no plan.
func stepsWords(steps []journal.Step, u measure.Units) string {
	planned := journal.PlanSteps(steps)
	if err := plan.Check(planned); err != nil {
		return u.ErrorText(err)
	}
	least, most, all := plan.Minutes(0), plan.Minutes(0), plan.Minutes(0)
	for _, s := range planned {
		a, b := s.Bounds()
		least, most, all = least+a, most+b, all+s.Length
	}
	d := func(m plan.Minutes) string { return u.Duration().Format(float64(m)) }
	return lang.L("Total {{.All}} ({{.Least}} to {{.Most}} if steps shift around your sleep).",
		map[string]any{"All": d(all), "Least": d(least), "Most": d(most)})
}

// TakeUsual puts the steps of a usual day where there are none.
func (s *Steps) TakeUsual() {
	usual, err := s.env.Journal.TemplateSteps(Advised(plan.CountryLoaf()))
	if s.env.Failed(err) {
		return
	}
	s.holder.DoSteps(lang.L("the steps of a usual day"), func(steps *[]journal.Step) { *steps = usual })
}

func (s *Steps) add(kind plan.Kind) {
	id, err := s.env.Journal.NewID()
	if s.env.Failed(err) {
		return
	}
	st := usualStep(kind)
	st.ID = id
	s.holder.DoSteps(lang.L("another step"), func(steps *[]journal.Step) {
		*steps = slices.Insert(slices.Clone(*steps), placeFor(*steps, kind), st)
	})
}

// Advised gives the steps of a template with their advice in the baker's language,
// as it is kept from then on.
func Advised(steps []plan.Step) []plan.Step {
	out := slices.Clone(steps)
	for i, s := range out {
		if advice := s.Kind.Advice(); s.Note == advice.String() {
			out[i].Note = measure.Units{}.Say(advice)
		}
	}
	return out
}

// usualStep is a step of a kind as a day usually has it.
func usualStep(kind plan.Kind) journal.Step {
	for _, s := range Advised(slices.Concat(plan.CountryLoaf(), plan.Shaping(), []plan.Step{plan.LevainBuild()})) {
		if s.Kind == kind {
			return journal.Step{Kind: string(kind), Planned: s.Length.Duration(), Min: s.Min.Duration(), Max: s.Max.Duration(),
				Every: s.Every.Duration(), Times: s.Turns, Advice: s.Note}
		}
	}
	return journal.Step{Kind: string(kind), Planned: 15 * time.Minute}
}

// placeFor is where a step of a kind belongs: before the first of a later kind.
func placeFor(steps []journal.Step, kind plan.Kind) int {
	order := func(k plan.Kind) int { return slices.Index(plan.Kinds(), k) }
	if kind == plan.Other {
		return len(steps)
	}
	for i, s := range steps {
		if k := plan.Kind(s.Kind); k != plan.Other && order(k) > order(kind) {
			return i
		}
	}
	return len(steps)
}

func stepHeads() fyne.CanvasObject {
	var heads []fyne.CanvasObject
	for _, w := range []string{lang.L("step"), lang.L("length"), lang.L("at least"), lang.L("at most"), lang.L("folds"), lang.L("every"), ""} {
		heads = append(heads, kit.NewLine(kit.Span{Text: w, Size: look.TextSmall, Color: look.ColorFaint}))
	}
	return container.New(&stepLayout{}, heads...)
}

// StepWord says what a usual kind of step is called; nothing for any other.
func StepWord(k plan.Kind) string {
	if k == plan.Other || !slices.Contains(plan.Kinds(), k) {
		return ""
	}
	return pages.StepWord(k)
}

// NameStep gives a step the name that was typed. One of the usual names makes it a step of
// that kind. A step that was called by its kind stays of it while the name still has the
// kind's word in it, as "Long bulk" has; any other name is the baker's own.
func NameStep(s *journal.Step, typed string) {
	low := strings.ToLower(strings.TrimSpace(typed))
	for _, k := range plan.Kinds() {
		if w := StepWord(k); w != "" && strings.ToLower(w) == low {
			s.Kind, s.Name = string(k), ""
			return
		}
	}
	if w := StepWord(plan.Kind(s.Kind)); s.Kind == "" || w != "" && s.Name == "" && !strings.Contains(low, strings.ToLower(w)) {
		s.Kind = string(plan.Other)
	}
	s.Name = typed
}

// SuggestSteps gives the usual names that go on from what is typed.
func SuggestSteps(typed string) []string {
	low := strings.ToLower(strings.TrimSpace(typed))
	var out []string
	for _, k := range plan.Kinds() {
		if w := StepWord(k); w != "" && strings.HasPrefix(strings.ToLower(w), low) {
			out = append(out, w)
		}
	}
	return out
}
