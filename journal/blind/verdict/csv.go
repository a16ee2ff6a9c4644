package verdict

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"twinloaf/journal/blind"
)

// WriteCSV writes an unsealed tasting, one row for each plate, and one more for
// each plate of a corrected round, whose kind is "correction". UTF-8, comma,
// CRLF (RFC 4180). A cell that a spreadsheet would take for a formula gets an
// apostrophe before it. The seal's text does not stand in the table: save it
// beside it, as it is, and check it with sha256sum.
func WriteCSV(w io.Writer, in Input) error {
	plan := in.Opened.Setting.Plan
	out := csv.NewWriter(w)
	out.UseCRLF = true
	header := []string{"kind", "method", "taster", "round", "place", "label", "slip", "loaf", "loaf name", "chosen", "no preference", "right", "missing", "rinses skipped", "on paper", "remark", "reason", "seal"}
	for _, a := range plan.Attributes {
		header = append(header, a.Name)
	}
	rows := [][]string{header}
	for _, r := range in.Opened.Rounds {
		rows = append(rows, plateRows(in.Opened, r, r.Answer, "score", "")...)
		for _, c := range in.Corrections {
			if c.Taster == r.Taster && c.Round == r.Round {
				rows = append(rows, plateRows(in.Opened, r, c.Answer, "correction", c.Reason)...)
			}
		}
	}
	for _, row := range rows {
		for i := range row {
			row[i] = harmless(row[i])
		}
		if err := out.Write(row); err != nil {
			return fmt.Errorf("write the tasting as a table: %w", err)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("write the tasting as a table: %w", err)
	}
	return nil
}

func plateRows(o blind.Opened, r blind.Round, a blind.Answer, kind, reason string) [][]string {
	plan := o.Setting.Plan
	right := ""
	if plan.Method.Discriminates() && a.Counts() {
		right = yes(o.Right(r, a))
	}
	var rows [][]string
	for place, plate := range r.Plates {
		name := ""
		if plate.Loaf != 0 {
			name = plan.Loaves[plate.Loaf-1].Name
		}
		row := []string{
			kind, string(plan.Method), o.Who(r), strconv.Itoa(r.Round + 1),
			strconv.Itoa(place + 1), plate.Label, plate.Slip, strconv.Itoa(plate.Loaf), name,
			yes(slices.Contains(a.Picks, plate.Label)), yes(a.Tie), right, a.Missing,
			strconv.Itoa(a.SkippedRinses), yes(a.OnPaper), a.Remark, reason, o.Setting.Commitment,
		}
		for _, attribute := range plan.Attributes {
			score := ""
			if v := a.Scores[plate.Label][attribute.Name]; v != 0 {
				score = strconv.Itoa(v)
			}
			row = append(row, score)
		}
		rows = append(rows, row)
	}
	return rows
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// harmless keeps a cell from being run as a formula: common practice, after
// OWASP's note on CSV injection.
func harmless(cell string) string {
	trimmed := strings.TrimLeft(cell, " ")
	if trimmed != "" && strings.ContainsRune("=+-@\t\r\n＝＋－＠", []rune(trimmed)[0]) {
		return "'" + cell
	}
	return cell
}
