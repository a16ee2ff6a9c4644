package verdict

import (
	"fmt"
	"io"
	"slices"

	"twinloaf/journal/blind"
	"twinloaf/journal/table"
)

// WriteCSV writes an unsealed tasting as a [table.Write], one row for each plate, and one
// more for each plate of a corrected round, whose kind is "correction". The seal's
// text does not stand in the table: save it beside it, as it is, and check it with
// sha256sum.
func WriteCSV(w io.Writer, in Input) error {
	head, rows := Table(in)
	if err := table.Write(w, head, rows); err != nil {
		return fmt.Errorf("write the tasting as a table: %w", err)
	}
	return nil
}

// Table is what WriteCSV writes: the headings and the rows.
func Table(in Input) (head []table.Cell, rows [][]table.Cell) {
	head = []table.Cell{"kind", "method", "taster", "round", "place", "label", "slip", "loaf", "loaf name", "chosen", "no preference", "right", "missing", "rinses skipped", "on paper", "remark", "reason", "seal"}
	for _, a := range in.Opened.Setting.Plan.Attributes {
		head = append(head, table.Text(a.Name))
	}
	for _, r := range in.Opened.Rounds {
		rows = append(rows, plateRows(in.Opened, r, r.Answer, "score", "")...)
		for _, c := range in.Corrections {
			if c.Taster == r.Taster && c.Round == r.Round {
				rows = append(rows, plateRows(in.Opened, r, c.Answer, "correction", c.Reason)...)
			}
		}
	}
	return head, rows
}

func plateRows(o blind.Opened, r blind.Round, a blind.Answer, kind table.Cell, reason string) [][]table.Cell {
	plan := o.Setting.Plan
	right := table.Cell("")
	if plan.Method.Discriminates() && a.Counts() {
		right = table.Bool(o.Right(r, a))
	}
	var rows [][]table.Cell
	for place, plate := range r.Plates {
		name := ""
		if plate.Loaf != 0 {
			name = plan.Loaves[plate.Loaf-1].Name
		}
		row := []table.Cell{
			kind, table.Text(string(plan.Method)), table.Text(o.Who(r)), table.Int(r.Round + 1),
			table.Int(place + 1), table.Text(plate.Label), table.Text(plate.Slip), table.Int(plate.Loaf), table.Text(name),
			table.Bool(slices.Contains(a.Picks, plate.Label)), table.Bool(a.Tie), right, table.Text(a.Missing),
			table.Int(a.SkippedRinses), table.Bool(a.OnPaper), table.Text(a.Remark), table.Text(reason), table.Text(o.Setting.Commitment),
		}
		for _, attribute := range plan.Attributes {
			score := table.Cell("")
			if v := a.Scores[plate.Label][attribute.Name]; v != 0 {
				score = table.Int(v)
			}
			row = append(row, score)
		}
		rows = append(rows, row)
	}
	return rows
}
