package tables

import (
	"fmt"
	"io"

	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/table"
)

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
