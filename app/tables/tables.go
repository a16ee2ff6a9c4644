// Package tables makes tables of what the journal holds: bakes, their scores, feedings
// and readings. Headings are in English and weights, lengths and temperatures in grams,
// millimetres and degrees Celsius, whatever the window shows, so that a file made in
// one kitchen is read in another. What is in the bin is left out.
package tables

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/table"
)

// Table is a kind of table: Write makes one of what the journal holds.
type Table struct {
	Name  string // of its file, with the ending
	Write func(w io.Writer, r journal.Reader) error
}

// All lists every table of the whole journal.
func All() []Table {
	return []Table{
		{"bakes.csv", func(w io.Writer, r journal.Reader) error { return whole(w, r, writeBakes) }},
		{"scores.csv", func(w io.Writer, r journal.Reader) error { return whole(w, r, writeScores) }},
		{"feedings.csv", func(w io.Writer, r journal.Reader) error { return writeFeedings(w, r, "") }},
		{"readings.csv", func(w io.Writer, r journal.Reader) error { return writeReadings(w, r, "") }},
	}
}

func whole(w io.Writer, r journal.Reader, write func(io.Writer, journal.Reader, []*journal.Bake) error) error {
	bakes, err := journal.All[journal.Bake](r)
	if err != nil {
		return fmt.Errorf("reading the bakes for a table: %w", err)
	}
	slices.SortStableFunc(bakes, func(a, b *journal.Bake) int { return a.At.Compare(b.At) })
	return write(w, r, bakes)
}

// figure is an optional quantity.
func figure[Q ~float64](q *Q) table.Cell {
	if q == nil {
		return ""
	}
	return table.Number(float64(*q))
}

// rounded drops what a division leaves behind the point.
func rounded(v float64) table.Cell { return table.Number(float64(int64(v*1000+0.5)) / 1000) }

// hours is a length in hours, empty for none.
func hours(d time.Duration) table.Cell {
	if d <= 0 {
		return ""
	}
	return rounded(d.Hours())
}

// names gives what records are called, and remembers it.
type names struct {
	r        journal.Reader
	cultures map[journal.ID]string
}

func (n *names) culture(id journal.ID) table.Cell {
	if id == "" {
		return ""
	}
	if n.cultures == nil {
		n.cultures = make(map[journal.ID]string)
	}
	name, ok := n.cultures[id]
	if !ok {
		if c, err := journal.Get[journal.Culture](n.r, id); err == nil { // one that is gone has no name
			name = c.Name
		}
		n.cultures[id] = name
	}
	return table.Text(name)
}

// writeBakes writes a row for each bake.
func writeBakes(w io.Writer, r journal.Reader, bakes []*journal.Bake) error {
	head := []table.Cell{"name", "begun", "out of the oven", "state", "culture", "loaves",
		"flour (g)", "water (g)", "dough (g)", "hydration (%)", "salt (%)", "prefermented flour (%)", "wholegrain (%)",
		"water used (°C)", "dough temperature (°C)", "bulk (h)", "proof (h)", "cold proof (h)",
		"dough into the oven (g)", "bread cooled (g)", "bake loss (%)", "height (mm)", "width (mm)", "volume (ml)", "specific volume (ml/g)", "core temperature (°C)",
		"overall (1 to 9)", "ingredients", "notes", "notes on the bread"}
	known := names{r: r}
	var rows [][]table.Cell
	for _, b := range bakes {
		if b.InBin() {
			continue
		}
		rows = append(rows, bakeRow(b, &known))
	}
	return table.Write(w, head, rows)
}

func bakeRow(b *journal.Bake, known *names) []table.Cell {
	f, o := b.Dough().Metrics(), b.Outcome
	share := func(p formula.Percent) table.Cell {
		if !f.Defined() {
			return ""
		}
		return rounded(float64(p))
	}
	weight := func(g formula.Grams) table.Cell {
		if g <= 0 {
			return ""
		}
		return rounded(float64(g))
	}
	var loss, specific table.Cell
	if p := o.BakeLoss(); p != nil {
		loss = rounded(float64(*p))
	}
	if v := o.SpecificVolume(); v != nil {
		specific = rounded(*v)
	}
	loaves, overall := table.Cell(""), table.Cell("")
	if b.Loaves > 0 {
		loaves = table.Int(b.Loaves)
	}
	if n := b.Overall(); n > 0 {
		overall = table.Int(n)
	}
	return []table.Cell{table.Text(b.Name), table.Time(b.At), table.Time(b.Ready), state(b.State), known.culture(b.Culture), loaves,
		weight(f.Flour), weight(f.Water), weight(f.Dough), share(f.Hydration), share(f.Salt), share(f.Prefermented), share(f.Wholegrain),
		figure(b.Water.Water), figure(b.Water.Dough), hours(took(b, journal.StepBulk, journal.StepTurns)), hours(took(b, journal.StepProof)), hours(took(b, journal.StepCold)),
		figure(o.DoughWeight), figure(o.LoafWeight), loss, figure(o.HeightMM), figure(o.WidthMM), figure(o.VolumeML), specific, figure(o.Inside),
		overall, table.Text(ingredients(b)), table.Text(b.Notes), table.Text(o.Notes)}
}

// took is how long the steps of some kinds took together.
func took(b *journal.Bake, kinds ...string) (sum time.Duration) {
	for _, s := range b.Steps {
		if slices.Contains(kinds, s.Kind) {
			sum += s.Length()
		}
	}
	return sum
}

func state(s journal.BakeState) table.Cell {
	return table.Text(cmp.Or(string(s), "recorded"))
}

// ingredients lists what was weighed for a bake in one cell.
func ingredients(b *journal.Bake) string {
	var parts []string
	add := func(lines []journal.Ingredient, in string) {
		for _, l := range lines {
			if l.Name == "" && l.Grams == 0 {
				continue
			}
			parts = append(parts, string(rounded(float64(l.Grams)))+" g "+l.Name+in)
		}
	}
	for _, l := range b.Levains {
		add(l.Lines, " ("+cmp.Or(l.Name, "levain")+")")
	}
	add(b.Ingredients, "")
	return strings.Join(parts, "; ")
}

// writeScores writes a row for each thing that a bread was judged by.
func writeScores(w io.Writer, _ journal.Reader, bakes []*journal.Bake) error {
	var rows [][]table.Cell
	for _, b := range bakes {
		for _, s := range b.Outcome.Scores {
			if b.InBin() || s.Score == 0 && s.Note == "" {
				continue
			}
			score := table.Cell("")
			if s.Score > 0 {
				score = table.Int(s.Score)
			}
			rows = append(rows, []table.Cell{table.Text(b.Name), table.Time(b.At), table.Text(s.Attribute), score, table.Text(s.Note)})
		}
	}
	return table.Write(w, []table.Cell{"bake", "begun", "attribute", "score (1 to 9)", "comment"}, rows)
}
