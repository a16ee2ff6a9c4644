package verdict_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"strings"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
)

func TestTheTableHoldsEveryPlate(t *testing.T) {
	opened := taste(t, scalingPlan(3), "", scaled(func(n, loaf int, _ string) int { return n + loaf }))
	in := verdict.Input{Opened: opened, Corrections: []verdict.Correction{{Round: 1, Answer: opened.Rounds[1].Answer, Reason: "looked again"}}}
	var out bytes.Buffer
	if err := verdict.WriteCSV(&out, in); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+3*2+2 {
		t.Fatalf("%d rows", len(rows))
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	for _, row := range rows[1:] {
		want := map[string]string{"1": "Harbour", "2": "Gorse"}[row[at["loaf"]]]
		if row[at["loaf name"]] != want || row[at["seal"]] != opened.Setting.Commitment {
			t.Errorf("row %v", row)
		}
		if row[at["kind"]] == "correction" && row[at["reason"]] != "looked again" {
			t.Errorf("correction %v", row)
		}
		if row[at["sour"]] == "" || row[at["liking"]] == "" {
			t.Errorf("no scores in %v", row)
		}
	}
}

// What a guest writes is not run by a spreadsheet.
func TestCellsAreNotFormulas(t *testing.T) {
	p := plan(blind.Triangle, 1, 2)
	p.Tasters = []string{`=HYPERLINK("http://x","y")`}
	p.Loaves[0].Name = "@SUM(1)"
	opened := taste(t, p, "", func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		a := rightFor(2)(n, s, loaf)
		a.Remark = []string{"+1, \"good\"\nbread", " \t-2"}[n]
		return a
	})
	var out bytes.Buffer
	if err := verdict.WriteCSV(&out, verdict.Input{Opened: opened}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if lead := strings.TrimLeft(cell, " "); lead != "" && strings.ContainsAny(lead[:1], "=+-@\t\r\n") {
				t.Errorf("a cell starts a formula: %q", cell)
			}
		}
	}
	if rows[1][2] != `'=HYPERLINK("http://x","y")` {
		t.Errorf("taster %q", rows[1][2])
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestAFullDiskIsAnError(t *testing.T) {
	opened := taste(t, plan(blind.Triangle, 1, 2), "", rightFor(2))
	if err := verdict.WriteCSV(full{}, verdict.Input{Opened: opened}); err == nil || !strings.Contains(err.Error(), "disk full") {
		t.Errorf("%v", err)
	}
}
