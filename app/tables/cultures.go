package tables

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/table"
)

// of reads the records of a kind that belong to a culture, or all of them for no ID, the
// oldest first.
func of[T any, P journal.Record[T]](r journal.Reader, culture journal.ID) ([]P, error) {
	if culture == "" {
		return journal.All[T, P](r)
	}
	return journal.Linked[T, P](r, culture)
}

// writeFeedings writes a row for each feeding of a culture, or of all for no ID.
func writeFeedings(w io.Writer, r journal.Reader, culture journal.ID) error {
	feedings, err := of[journal.Feeding](r, culture)
	if err != nil {
		return fmt.Errorf("reading the feedings for a table: %w", err)
	}
	slices.SortStableFunc(feedings, func(a, b *journal.Feeding) int { return a.At.Compare(b.At) })
	known := names{r: r}
	var rows [][]table.Cell
	for _, f := range feedings {
		if f.InBin() {
			continue
		}
		var flours, taken []string
		for _, s := range f.Flours {
			flours = append(flours, string(rounded(float64(s.Share)))+" % "+s.Name)
		}
		for _, t := range f.Taken {
			taken = append(taken, string(rounded(float64(t.Grams)))+" g "+cmp.Or(t.For, journal.Discarded))
		}
		rows = append(rows, []table.Cell{known.culture(f.Culture), table.Time(f.At), table.Number(float64(f.Kept)), table.Number(float64(f.Flour)), table.Number(float64(f.Water)),
			table.Text(strings.Join(flours, "; ")), table.Text(strings.Join(taken, "; ")), figure(f.WaterC), figure(f.RoomC), figure(f.StartMM), table.Text(f.Note)})
	}
	return table.Write(w, []table.Cell{"culture", "fed", "kept (g)", "flour (g)", "water (g)", "flours, where not the usual", "taken out", "water (°C)", "room (°C)", "height after feeding (mm)", "note"}, rows)
}

// writeReadings writes a row for each reading of a culture, or of all for no ID.
func writeReadings(w io.Writer, r journal.Reader, culture journal.ID) error {
	readings, err := of[journal.Reading](r, culture)
	if err != nil {
		return fmt.Errorf("reading the readings for a table: %w", err)
	}
	slices.SortStableFunc(readings, func(a, b *journal.Reading) int { return a.At.Compare(b.At) })
	known := names{r: r}
	var rows [][]table.Cell
	for _, g := range readings {
		if g.InBin() {
			continue
		}
		bubbles := table.Cell("")
		if g.Bubbles != nil {
			bubbles = table.Int(*g.Bubbles)
		}
		var smells []string
		for _, s := range slices.Sorted(maps.Keys(g.Smells)) {
			smells = append(smells, fmt.Sprintf("%s %d", s, g.Smells[s]))
		}
		rows = append(rows, []table.Cell{known.culture(g.Culture), table.Time(g.At), figure(g.Rise), figure(g.HeightMM), figure(g.Temp), bubbles, table.Text(strings.Join(smells, "; ")),
			table.Bool(g.Liquid), table.Bool(g.Mould), table.Bool(g.Tint), figure(g.PH), figure(g.TTA), figure(g.TTASampleG), figure(g.TTAEndPH), table.Text(g.Note)})
	}
	return table.Write(w, []table.Cell{"culture", "read", "rise (times the start)", "height (mm)", "temperature (°C)", "bubbles (0 to 4)", "smells (1 faint to 3 strong)",
		"liquid on top", "mould", "pink or orange tint", "pH", "TTA (ml of 0.1 M NaOH)", "TTA sample (g)", "TTA end pH", "note"}, rows)
}

// WriteHeights writes a row for each picture of a series and each of its jars, of which
// names says what is in them, and levels how high their levels lie in millimetres; 0 where
// that is not known.
func WriteHeights(w io.Writer, s *journal.Series, names []string, levels []float64, frames []*journal.Photo, curves []journal.SeriesCurve) error {
	var rows [][]table.Cell
	for k, c := range curves {
		for i, p := range c.Points {
			rise, sd, height := table.Cell(""), table.Cell(""), table.Cell("")
			if p.Lost == jar.Kept {
				rise, sd = rounded(p.Rise), rounded(p.SD)
				if levels[k] > 0 {
					height = rounded(p.Rise * levels[k])
				}
			}
			rows = append(rows, []table.Cell{table.Text(names[k]), table.Text(frames[i].Name), table.Time(s.TakenAt(frames[i])), table.Bool(frames[i].Taken.IsZero()),
				rise, sd, height, table.Text(string(p.Lost)), table.Bool(p.Drawn), table.Text(fmt.Sprintf("pictures, method %d", jar.MethodVersion))})
		}
	}
	return table.Write(w, []table.Cell{"jar", "picture", "taken", "by the file's time", "rise (times the start)", "standard deviation (times the start)", "height (mm)", "not seen because", "drawn by hand", "worked out by"}, rows)
}
