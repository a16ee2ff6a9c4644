package pages

import (
	"math"
	"slices"
	"strings"

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
