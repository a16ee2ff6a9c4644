package bakeday

import (
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// later is by how much one key puts a step off.
const later plan.Minutes = 10

// errNothingNext means that a key was pressed when the day was over.
var errNothingNext = say.NewError("there is nothing left to do")

// errBegun means that it was said to begin only now what was said to have begun.
var errBegun = say.NewError("nothing runs that began by the clock")

// errNoStep means that the bake has no step to keep a note or a reading with.
var errNoStep = say.NewError("this bake has no steps: add one first")

// actor makes the changes of the day view, each one step of the history.
type actor struct{ env *pages.Env }

// stand changes the day where it stands, and says what that was.
func (a actor) stand(id journal.ID, label func(s plan.Stand, what map[string]any) string, how func(day plan.Plan, s plan.Stand, now time.Time) (plan.Plan, error)) (title string, ok bool) {
	now := a.env.Now()
	b, err := journal.Get[journal.Bake](a.env.Journal, id)
	if a.env.Failed(err) {
		return "", false
	}
	day, _ := b.Day()
	s, more := day.Stand(now)
	if !more {
		a.env.Fail(errNothingNext)
		return "", false
	}
	title = a.env.Units().Say(s.Title)
	ok = pages.ChangeDay(a.env, id, label(s, map[string]any{"What": title}), func(b *journal.Bake) error {
		day, _ := b.Day()
		day, err := how(day, s, now)
		if err == nil {
			b.SetDay(day)
		}
		return err
	})
	return title, ok
}

// press says that what is next begins, or is done, or that what runs is over. A levain that
// is built, or a dough that is mixed, takes its culture out of the jar in the same step of
// the history.
func (a actor) press(id journal.ID) {
	a.stand(id, func(s plan.Stand, what map[string]any) string {
		if s.Begins() {
			return lang.L("{{.What}}: begun", what)
		}
		return lang.L("{{.What}}: done", what)
	}, plan.Plan.Press)
}

// beginNow says that what began by the clock begins only now.
func (a actor) beginNow(id journal.ID) {
	a.stand(id, func(_ plan.Stand, what map[string]any) string { return lang.L("{{.What}}: begun", what) },
		func(day plan.Plan, s plan.Stand, now time.Time) (plan.Plan, error) {
			if !s.ByClock {
				return day, errBegun
			}
			return day.Done(s.Ref, now)
		})
}

// skip leaves out what is next. The end of the day cannot be left out: it is
// done instead. What runs is over by that.
func (a actor) skip(id journal.ID) {
	over := false
	title, ok := a.stand(id, func(s plan.Stand, what map[string]any) string {
		if over = s.Runs; over {
			return lang.L("{{.What}}: done", what)
		}
		return lang.L("{{.What}}: left out", what)
	}, plan.Plan.LeaveOut)
	if ok && !over {
		a.env.Say(lang.L("{{.What}}: left out.", map[string]any{"What": title}), true)
	}
}

// later puts what is next off by ten minutes, and all that follows with it; what runs goes
// on for that long.
func (a actor) later(id journal.ID) {
	a.stand(id, func(_ plan.Stand, what map[string]any) string { return lang.L("{{.What}}: later", what) },
		func(day plan.Plan, s plan.Stand, now time.Time) (plan.Plan, error) {
			return day.PutOff(s, later, now)
		})
}

// shift moves moments of the day, each with all that follows.
func (a actor) shift(id journal.ID, label string, moves ...plan.Move) {
	pages.ChangeDay(a.env, id, label, func(b *journal.Bake) error {
		day, _ := b.Day()
		for _, m := range moves {
			var err error
			if day, err = day.Shift(m.Ref, m.By); err != nil {
				return err
			}
		}
		b.SetDay(day)
		return nil
	})
}

// note adds a line to the notes of a step; it reports whether nothing is left to keep.
func (a actor) note(id, step journal.ID, text string) bool {
	if text = strings.TrimSpace(text); text == "" {
		return true
	}
	now, u := a.env.Now(), a.env.Units()
	return pages.ChangeDay(a.env, id, lang.L("a note on the day"), func(b *journal.Bake) error {
		s := stepOr(b, step, now)
		if s == nil {
			return errNoStep
		}
		addNote(s, u.Clock(now)+" "+text)
		return nil
	})
}

func addNote(s *journal.Step, line string) {
	if s.Note != "" {
		line = s.Note + "\n" + line
	}
	s.Note = line
}

// reading is what was measured at once; what was not is nil.
type reading struct {
	Dough, Air, Water *formula.Celsius
	Rise              *float64
}

func (r reading) empty() bool {
	return r.Dough == nil && r.Air == nil && r.Water == nil && r.Rise == nil
}

// keep puts a reading on a step. One that stood there before goes
// into the step's notes. While mixing, or right after, it is the water plan's too,
// which is what friction is learned from. It reports whether nothing is left to keep.
func (a actor) keep(id, step journal.ID, r reading) bool {
	if r.empty() {
		return true
	}
	now, u := a.env.Now(), a.env.Units()
	return pages.ChangeDay(a.env, id, lang.L("a reading"), func(b *journal.Bake) error {
		s := stepOr(b, step, now)
		if s == nil {
			return errNoStep
		}
		takeReading(s, r, now, u)
		if k := plan.Kind(s.Kind); k == plan.Mix || k == plan.Rest {
			if r.Dough != nil && b.Water.Dough == nil {
				b.Water.Dough = r.Dough
			}
			if r.Water != nil {
				b.Water.Water = r.Water
			}
		}
		return nil
	})
}

// takeReading puts a reading on a step.
func takeReading(s *journal.Step, r reading, now time.Time, u measure.Units) {
	if r.Dough != nil || r.Air != nil || r.Rise != nil {
		s.Readings = append(s.Readings, journal.StepReading{At: now, Dough: r.Dough, Air: r.Air, Rise: r.Rise})
	}
	var before []string
	if r.Dough != nil {
		if s.Dough != nil {
			before = append(before, lang.L("dough {{.T}}", map[string]any{"T": u.Celsius(*s.Dough)}))
		}
		s.Dough = r.Dough
	}
	if r.Air != nil {
		if s.Air != nil {
			before = append(before, lang.L("around it {{.T}}", map[string]any{"T": u.Celsius(*s.Air)}))
		}
		s.Air = r.Air
	}
	if r.Rise != nil {
		if s.Rise != nil {
			before = append(before, lang.L("rise {{.Rise}}", map[string]any{"Rise": u.Times().Write(*s.Rise)}))
		}
		s.Rise = r.Rise
	}
	if len(before) > 0 {
		addNote(s, lang.L("Before: {{.What}}.", map[string]any{"What": strings.Join(before, ", ")}))
	}
}
