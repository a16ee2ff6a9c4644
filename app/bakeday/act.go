package bakeday

import (
	"math"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// later is by how much one key puts a step off.
const later plan.Minutes = 10

// errNothingNext means that a key was pressed when the day was over.
var errNothingNext = say.NewError("there is nothing left to do")

// errNoStep means that the bake has no step to keep a note or a reading with.
var errNoStep = say.NewError("this bake has no steps: add one first")

// actor makes the changes of the day view, each one step of the history.
type actor struct{ env *pages.Env }

// next changes the day at the moment that is next, and says what it was.
func (a actor) next(id journal.ID, label func(what map[string]any) string, how func(day plan.Plan, m plan.Moment, now time.Time) (plan.Plan, error)) (title string, ok bool) {
	now := a.env.Now()
	b, err := journal.Get[journal.Bake](a.env.Journal, id)
	if err != nil {
		a.env.Fail(err)
		return "", false
	}
	day, _ := b.Day()
	m, more := day.Next(now)
	if !more {
		a.env.Fail(errNothingNext)
		return "", false
	}
	title = a.env.Units().Say(m.Title)
	ok = a.change(id, label(map[string]any{"What": title}), func(b *journal.Bake) error {
		day, _ := b.Day()
		day, err := how(day, m, now)
		if err == nil {
			b.SetDay(day)
		}
		return err
	})
	return title, ok
}

// change alters the bake in one step of the history.
func (a actor) change(id journal.ID, label string, how func(*journal.Bake) error) bool {
	var said []string
	done := a.env.Do(label, func(tx *journal.Tx) error {
		said = nil // it may be made again
		b, err := journal.Get[journal.Bake](tx, id)
		if err != nil {
			return err
		}
		before := slices.Clone(b.Steps)
		if err := how(b); err != nil {
			return err
		}
		if err := journal.Put(tx, b); err != nil {
			return err
		}
		for _, s := range begun(before, b.Steps) {
			made, short, err := histories.Settle(tx, b, plan.Kind(s.Kind), s.At)
			if err != nil {
				return err
			}
			said = append(said, settledWords(made, short, a.env.Units())...)
		}
		return nil
	})
	if done && len(said) > 0 {
		a.env.Say(strings.Join(said, " "), true)
	}
	return done
}

// begun lists the steps that have begun now and had not before.
func begun(before, now []journal.Step) []journal.Step {
	var out []journal.Step
	for _, s := range now {
		was := slices.IndexFunc(before, func(b journal.Step) bool { return b.ID == s.ID })
		if !s.At.IsZero() && (was < 0 || before[was].At.IsZero()) {
			out = append(out, s)
		}
	}
	return out
}

// settledWords say what was taken from jars and put back, and what was not.
func settledWords(made, short []histories.Draw, u kit.Units) []string {
	g := func(w formula.Grams) string { return u.Weight().Write(math.Round(float64(w))) }
	var out []string
	for _, d := range made {
		data := map[string]any{"Culture": d.Culture.Name, "Out": g(d.Out), "Back": g(d.Back)}
		if d.Out > 0 {
			out = append(out, lang.L("{{.Out}} taken from the jar of {{.Culture}}.", data))
		}
		if d.Back > 0 {
			out = append(out, lang.L("{{.Back}} of the levain put back to {{.Culture}}.", data))
		}
	}
	for _, d := range short {
		out = append(out, lang.L("The jar of {{.Culture}} holds {{.Have}} by the record: write down yourself what you took.", map[string]any{"Culture": d.Culture.Name, "Have": g(d.Have)}))
	}
	return out
}

// done marks what is next as done now. A levain that is built, or a dough that is mixed,
// takes its culture out of the jar in the same step of the history.
func (a actor) done(id journal.ID) {
	a.next(id, func(what map[string]any) string { return lang.L("{{.What}}: done", what) }, func(day plan.Plan, m plan.Moment, now time.Time) (plan.Plan, error) {
		return day.Done(m.Ref, now)
	})
}

// skip leaves out what is next. The end of the day cannot be left out: it is
// done instead.
func (a actor) skip(id journal.ID) {
	title, ok := a.next(id, func(what map[string]any) string { return lang.L("{{.What}}: left out", what) }, func(day plan.Plan, m plan.Moment, now time.Time) (plan.Plan, error) {
		if m.Ref == plan.Ready {
			return day.Done(m.Ref, now)
		}
		return day.Skip(m.Ref, now)
	})
	if ok {
		a.env.Say(lang.L("{{.What}}: left out.", map[string]any{"What": title}), true)
	}
}

// later puts what is next off by ten minutes, and all that follows with it.
func (a actor) later(id journal.ID) {
	a.next(id, func(what map[string]any) string { return lang.L("{{.What}}: later", what) }, func(day plan.Plan, m plan.Moment, now time.Time) (plan.Plan, error) {
		day, _, err := day.Later(m.Ref, later, now)
		return day, err
	})
}

// shift moves a moment of the day, and all that follows with it.
func (a actor) shift(id journal.ID, label string, ref plan.Ref, by plan.Minutes) {
	a.change(id, label, func(b *journal.Bake) error {
		day, _ := b.Day()
		day, err := day.Shift(ref, by)
		if err == nil {
			b.SetDay(day)
		}
		return err
	})
}

// note adds a line to the notes of the step under hand.
func (a actor) note(id journal.ID, text string) bool {
	if text = strings.TrimSpace(text); text == "" {
		return false
	}
	now, u := a.env.Now(), a.env.Units()
	return a.change(id, lang.L("a note on the day"), func(b *journal.Bake) error {
		s := underHand(b, now)
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

// keep puts a reading on the step under hand. One that stood there before goes
// into the step's notes. While mixing, or right after, it is the water plan's too,
// which is what friction is learned from.
func (a actor) keep(id journal.ID, r reading) bool {
	if r.empty() {
		return false
	}
	now, u := a.env.Now(), a.env.Units()
	return a.change(id, lang.L("a reading"), func(b *journal.Bake) error {
		s := underHand(b, now)
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
func takeReading(s *journal.Step, r reading, now time.Time, u kit.Units) {
	if r.Dough != nil || r.Air != nil || r.Rise != nil {
		s.Readings = append(s.Readings, journal.StepReading{At: now, Dough: r.Dough, Air: r.Air, Rise: r.Rise})
	}
	var before []string
	if r.Dough != nil {
		if s.Dough != nil {
			before = append(before, lang.L("dough {{.T}}", map[string]any{"T": u.Temperature().Write(float64(*s.Dough))}))
		}
		s.Dough = r.Dough
	}
	if r.Air != nil {
		if s.Air != nil {
			before = append(before, lang.L("around it {{.T}}", map[string]any{"T": u.Temperature().Write(float64(*s.Air))}))
		}
		s.Air = r.Air
	}
	if r.Rise != nil {
		if s.Rise != nil {
			before = append(before, lang.L("{{.N}} times its start", map[string]any{"N": u.FormatNumber(*s.Rise, 2)}))
		}
		s.Rise = r.Rise
	}
	if len(before) > 0 {
		addNote(s, lang.L("Before: {{.What}}.", map[string]any{"What": strings.Join(before, ", ")}))
	}
}
