package pages

import (
	"context"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// FitnessWord says in a word or two how far a crumb photo is fit for measuring.
func FitnessWord(s crumb.Summary) string {
	switch fit, _ := s.Fitness(); fit {
	case crumb.Fit:
		return lang.L("fit")
	case crumb.FitInPart:
		return lang.L("fit in part")
	}
	return lang.L("not fit")
}

// FitnessWords says it in a sentence, with what is wrong first and what to do about it.
func FitnessWords(s crumb.Summary, u measure.Units) string {
	fit, advice := s.Fitness()
	words := ""
	switch fit {
	case crumb.Fit:
		return lang.L("This photo is fit for measuring.")
	case crumb.FitInPart:
		words = lang.L("This photo is fit for measuring in part.")
	default:
		words = lang.L("This photo is not fit for measuring.")
	}
	if len(advice) > 0 {
		words += " " + u.Say(advice[0].Why)
		if do := advice[0].Do; !do.IsZero() {
			words += " " + u.Say(do)
		}
	}
	return words
}

// RateCrumb measures a crumb photo away from the main goroutine, unless its measures are kept,
// and hands over what came of it; false where it cannot be measured at all.
func RateCrumb(env *Env, id journal.ID, done func(crumb.Summary, bool)) {
	var s crumb.Summary
	ok := false
	env.Run(func(ctx context.Context) {
		ph, err := journal.Get[journal.Photo](env.Journal, id)
		if err != nil {
			return // it is gone: there is nothing to rate
		}
		if s, ok, err = journal.CrumbMeasures(env.Journal, ph); err == nil && ok {
			return
		}
		s, err = env.Journal.MeasureCrumb(ctx, id)
		ok = err == nil // why not is told where it is measured
	}, func() { done(s, ok) })
}
