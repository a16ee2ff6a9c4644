package pages

import (
	"math"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// ChangeDay alters a bake under way in one step of the history. What a step that begins by
// that takes out of a culture's jar, or puts back, is written down in the same step, and said.
func ChangeDay(env *Env, id journal.ID, label string, how func(*journal.Bake) error) bool {
	var said []string
	done := env.Do(label, func(tx *journal.Tx) error {
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
			said = append(said, settledWords(made, short, env.Units())...)
		}
		return nil
	})
	if done && len(said) > 0 {
		env.Say(strings.Join(said, " "), true)
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
func settledWords(made, short []histories.Draw, u measure.Units) []string {
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

// PressWord is what the main key of a day does where the day stands.
func PressWord(s plan.Stand) string {
	if s.Begins() {
		return lang.L("Start")
	}
	return lang.L("Done")
}

// Later is the later of two times.
func Later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// FinishDay ends the day of a bake and goes where it is said how the bread came out.
func FinishDay(env *Env, id journal.ID) {
	now := env.Now()
	done := ChangeDay(env, id, lang.L("finishing the day"), func(b *journal.Bake) error {
		finishDay(b, now)
		return nil
	})
	if done {
		env.Go(Route{Name: Bake, ID: id, More: ToOutcome})
	}
}

// finishDay ends the last step that is still open, and the bake's day with it.
func finishDay(b *journal.Bake, now time.Time) {
	day, _ := b.Day()
	if timeline := day.Timeline(now); len(timeline) > 0 {
		if end := timeline[len(timeline)-1].Due; end.Before(now) {
			now = end // the bread was ready then, though nobody said so
		}
	}
	for i := len(b.Steps) - 1; i >= 0; i-- {
		if s := &b.Steps[i]; !s.At.IsZero() {
			if s.End.IsZero() {
				s.End = now
			}
			break
		}
	}
	if b.Ready.IsZero() {
		b.Ready = now
	}
	b.State = journal.Finished
}
