package findings

import (
	"context"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/past"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

// What bakes are held alike in before they are compared.
const (
	alikeInBoth    = "flour and culture"
	alikeInFlour   = "flour"
	alikeInCulture = "culture"
)

// levels gives what bakes are held alike in when a factor is asked about, finest
// first: the flour that each has most of, and its culture. A factor that is a
// flour or the culture itself is not held.
func levels(r *past.BakeIndex, of shelf.Metric) []finding.Level {
	flours, cultures, both := make([]string, r.Len()), make([]string, r.Len()), make([]string, r.Len())
	for i := range flours {
		row := r.Row(i)
		most := -1.0
		for _, f := range row.Flours {
			if f.Percent > most {
				flours[i], most = f.Flour, f.Percent
			}
		}
		cultures[i] = row.Culture
		both[i] = flours[i] + "\x00" + cultures[i]
	}
	_, share := of.Flour()
	switch {
	case share || of == shelf.Wholegrain:
		return []finding.Level{{Name: alikeInCulture, Words: cultures}}
	case of == byCulture:
		return []finding.Level{{Name: alikeInFlour, Words: flours}}
	}
	return []finding.Level{{Name: alikeInBoth, Words: both}, {Name: alikeInFlour, Words: flours}}
}

// askable reports whether an outcome can be set against a factor: not against
// itself, nor one measure of a crumb against another of the same crumb.
func askable(outcome, factor shelf.Metric) bool {
	return outcome != factor && (!outcome.IsCrumb() || !factor.IsCrumb())
}

// surveyOf asks the record everything that it can be asked, and tells how far it is.
func surveyOf(ctx context.Context, r *past.BakeIndex, outcomes []past.Described, all []factor, progress func(asked, of int)) (finding.Survey, error) {
	var questions []finding.Question
	for _, f := range all {
		col, held := f.column(r), levels(r, f.Key)
		for _, o := range outcomes {
			if !askable(o.Key, f.Key) {
				continue
			}
			questions = append(questions, finding.Question{Outcome: string(o.Key), Factor: string(f.Key), Y: r.Column(o.Key), Number: col.Number, Word: col.Word, Levels: held})
		}
	}
	return finding.Ask(ctx, questions, progress)
}

// heldWords says what was held alike; empty where nothing had to be.
func heldWords(h finding.Held, u measure.Units) string {
	data := map[string]any{"Kinds": u.FormatNumber(float64(h.Strata), 0), "Alone": u.FormatNumber(float64(h.Alone), 0)}
	words := ""
	switch h.Name {
	case alikeInBoth:
		words = lang.N("Only bakes of the same flour and the same culture are set beside one another ({{.Kinds}} kinds of bakes).", h.Strata, data)
	case alikeInFlour:
		words = lang.N("Only bakes of the same flour are set beside one another ({{.Kinds}} flours).", h.Strata, data)
	case alikeInCulture:
		words = lang.N("Only bakes of the same culture are set beside one another ({{.Kinds}} cultures).", h.Strata, data)
	default:
		return ""
	}
	if h.Alone > 0 {
		words += " " + lang.L("{{.Alone}} that are the only one of their kind are left out.", data)
	}
	return words
}

// turned says that all bakes together would point the other way.
func turned(held finding.Held, within, across float64) string {
	if held.Name == "" || within*across >= 0 || across > -0.1 && across < 0.1 {
		return ""
	}
	return lang.L("All bakes thrown together point the other way: they differ in kind, and the kinds differ in level.")
}

// lookedAt says how many questions there are and how this one stands among them.
func lookedAt(a answer, u measure.Units) string {
	data := map[string]any{
		"N": u.FormatNumber(float64(len(a.survey.Found)), 0), "Told": u.FormatNumber(float64(a.survey.Told()), 0),
		"Adjusted": pWords(a.found.Adjusted, u),
	}
	if a.found.Factor == "" {
		return ""
	}
	if a.survey.Told() == 0 {
		return lang.L("{{.N}} questions can be asked of this record, and from so many some answer by chance. Held against all of them (Benjamini and Hochberg 1995) this one has p\u00a0{{.Adjusted}}; none of them stands out from chance.", data)
	}
	return lang.N("{{.N}} questions can be asked of this record, and from so many some answer by chance. Held against all of them (Benjamini and Hochberg 1995) this one has p\u00a0{{.Adjusted}}; {{.Told}} are shown, of which up to one in twenty may be false.", a.survey.Told(), data)
}
