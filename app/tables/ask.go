package tables

import (
	"io"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// AskBakes asks which table of some bakes to save.
func AskBakes(env *pages.Env, bakes func() ([]*journal.Bake, error)) {
	of := func(write func(io.Writer, journal.Reader, []*journal.Bake) error) func(io.Writer) error {
		return func(w io.Writer) error {
			some, err := bakes()
			if err != nil {
				return err
			}
			return write(w, env.Journal, some)
		}
	}
	env.SaveOneOf([]pages.Saving{
		{Title: lang.L("These bakes, as a table (CSV)"), Name: "bakes.csv", Write: of(writeBakes)},
		{Title: lang.L("Their scores, as a table (CSV)"), Name: "scores.csv", Write: of(writeScores)},
	}, Note())
}

// Note says how the figures of a table are written.
func Note() string {
	return lang.L("Tables are in grams, millimetres and °C, with headings in English, whatever the window shows.")
}

// ByID reads bakes in the order of their IDs given.
func ByID(r journal.Reader, ids []journal.ID) func() ([]*journal.Bake, error) {
	return func() ([]*journal.Bake, error) {
		out := make([]*journal.Bake, 0, len(ids))
		for _, id := range ids {
			b, err := journal.Get[journal.Bake](r, id)
			if err != nil {
				return nil, err
			}
			out = append(out, b)
		}
		return out, nil
	}
}

// Cultures lists what can be saved of a culture as tables.
func Cultures(env *pages.Env, c *journal.Culture) []pages.Saving {
	name := func(what string) string { return pages.FileName(c.Name, lang.L("culture"), what+".csv") }
	return []pages.Saving{
		{Title: lang.L("Its feedings, as a table (CSV)"), Name: name("-feedings"), Write: func(w io.Writer) error { return writeFeedings(w, env.Journal, c.ID) }},
		{Title: lang.L("Its readings, as a table (CSV)"), Name: name("-readings"), Write: func(w io.Writer) error { return writeReadings(w, env.Journal, c.ID) }},
	}
}
