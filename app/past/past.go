// Package past puts what the journal remembers of past bakes on a shelf, and says
// what the figures there are called and how they are written. The shelf and the
// findings share it.
package past

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

// A BakeIndex is every past bake, newest first: those planned, under way or in the bin
// left out. It does not change once it is read, and may be used from any goroutine.
type BakeIndex struct {
	*shelf.Shelf
	Bakes    []*journal.BakeSummary // by row; shared, not to be altered
	Cultures map[string]string
	Marks    map[string]journal.Mark // of the cultures, by name
	Trials   map[string]string
	Flours   map[string]string // names by key, as written last
}

// Of reads the record.
func Of(j journal.Source) (*BakeIndex, error) {
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, fmt.Errorf("reading the past bakes: %w", err)
	}
	cultures, err := journal.All[journal.Culture](j)
	if err != nil {
		return nil, fmt.Errorf("reading the past bakes: %w", err)
	}
	trials, err := journal.All[journal.Trial](j)
	if err != nil {
		return nil, fmt.Errorf("reading the past bakes: %w", err)
	}
	r := &BakeIndex{
		Cultures: make(map[string]string, len(cultures)), Marks: make(map[string]journal.Mark, len(cultures)), Trials: make(map[string]string, len(trials)),
		Flours: map[string]string{}, Bakes: make([]*journal.BakeSummary, 0, len(summaries)),
	}
	born := map[journal.ID]time.Time{}
	for _, c := range cultures {
		r.Cultures[string(c.ID)], born[c.ID] = c.Name, c.Born
		r.Marks[c.Name] = c.Mark()
	}
	for _, t := range trials {
		r.Trials[string(t.ID)] = trialName(t)
	}
	for _, c := range summaries {
		if !c.Binned && c.State.Over() {
			r.Bakes = append(r.Bakes, c)
		}
	}
	rows := make([]shelf.Row, len(r.Bakes))
	for i, c := range r.Bakes {
		rows[i] = Row(c, born[c.Culture])
		rows[i].At = c.At.In(j.Now().Location()) // its day and month are those that it had here
		for _, f := range c.Flours {
			if _, known := r.Flours[f.Key]; !known {
				r.Flours[f.Key] = f.Name
			}
		}
	}
	r.Shelf = shelf.New(rows)
	return r, nil
}

// Row turns a summary into a row of the shelf. born is when its culture was begun;
// zero when that is not known.
func Row(c *journal.BakeSummary, born time.Time) shelf.Row {
	r := shelf.Row{
		ID: string(c.ID), At: c.At, AddIns: c.AddIns, Culture: string(c.Culture), Trial: string(c.Trial),
		Photos: c.Photos, Crumb: c.Crumb, Text: c.Text,
		Flours:  make([]shelf.Share, len(c.Flours)),
		Figures: c.Metrics,
	}
	for i, f := range c.Flours {
		r.Flours[i] = shelf.Share{Flour: f.Key, Percent: float64(f.Share)}
	}
	if !born.IsZero() && c.At.After(born) {
		r.Figures = append(slices.Clip(r.Figures), shelf.Value{Figure: shelf.CultureAge, Value: c.At.Sub(born).Hours() / 24})
	}
	return r
}

func trialName(t *journal.Trial) string {
	for _, s := range []string{t.Name, t.Question} {
		if s = strings.TrimSpace(s); s != "" {
			return s
		}
	}
	return lang.L("a trial without a name")
}

// Name is what a bake is called, or what stands for it.
func Name(name string) string {
	if name = strings.TrimSpace(name); name != "" {
		return name
	}
	return lang.L("A bake without a name")
}

// Shares gives the share of one flour in every bake, in percent; 0 where it was not
// in.
func (r *BakeIndex) Shares(flour string) []float64 {
	out := make([]float64, r.Len())
	for i := range out {
		for _, f := range r.Row(i).Flours {
			if f.Flour == flour {
				out[i] = f.Percent
			}
		}
	}
	return out
}

// Column gives one figure of every bake; NaN where there is none.
func (r *BakeIndex) Column(f shelf.Metric) []float64 {
	if flour, ok := f.Flour(); ok {
		return r.Shares(flour)
	}
	out := make([]float64, r.Len())
	for i := range out {
		out[i] = r.Metric(i, f)
	}
	return out
}
