package table_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"twinloaf/journal/table"
)

func TestWordsAreNeverAFormula(t *testing.T) {
	for text, want := range map[string]string{
		"Ferry loaf":      "Ferry loaf",
		"":                "",
		`=HYPERLINK("x")`: `'=HYPERLINK("x")`,
		"+1 egg":          "'+1 egg",
		"-2+3":            "'-2+3",
		"@SUM(1)":         "'@SUM(1)",
		"\tx":             "'\tx",
		"\rx":             "'\rx",
		"\nx":             "'\nx",
		"  =1+1":          "'  =1+1",
		"\u00a0=1+1":      "'\u00a0=1+1",
		"\ufeff=1+1":      "'\ufeff=1+1",
		"\u200b=1+1":      "'\u200b=1+1",
		"＝1+1":            "'＝1+1",
		"＠x":              "'＠x",
		"-5":              "'-5",
		"a=1":             "a=1",
		"\x00=1":          "'=1",
		"bad \xff":        "bad \uFFFD",
	} {
		if got := table.Text(text); string(got) != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
}

func TestNumbersAndTimesStayWhatTheyAre(t *testing.T) {
	zone := time.FixedZone("", 2*3600)
	for got, want := range map[table.Cell]string{
		table.Number(-5.5): "-5.5", table.Number(1e21): "1000000000000000000000", table.Number(math.NaN()): "",
		table.Number(math.Inf(-1)): "", table.Int(-7): "-7", table.Bool(true): "yes",
		table.Time(time.Date(2026, 3, 14, 7, 5, 0, 0, zone)): "2026-03-14T07:05:00+02:00", table.Time(time.Time{}): "",
	} {
		if string(got) != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// RFC 4180, section 2: rules 1, 2, 5, 6 and 7.
func TestTheTableIsRFC4180(t *testing.T) {
	var out bytes.Buffer
	err := table.Write(&out, []table.Cell{"name", "weight (g)", "note"}, [][]table.Cell{
		{table.Text("Rye, \"whole\""), table.Number(12.5), table.Text("two\r\nlines")},
		{table.Text("Water; tap")},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := "\uFEFFname,weight (g),note\r\n\"Rye, \"\"whole\"\"\",12.5,\"two\r\nlines\"\r\n\"Water; tap\",,\r\n"
	if out.String() != want {
		t.Errorf("%q, want %q", out.String(), want)
	}
}

var errFull = errors.New("no room")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFullDiskIsTold(t *testing.T) {
	if err := table.Write(full{}, []table.Cell{"a"}, nil); !errors.Is(err, errFull) {
		t.Errorf("told %v", err)
	}
}

// Whatever is typed comes back from another reader of the standard as it was, save
// the guard before it.
func FuzzText(f *testing.F) {
	for _, s := range []string{"=1", " -", "\"", "a\r\nb", ";", "\xff\x00", "-1", "'"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var out bytes.Buffer
		cell := table.Text(s)
		if err := table.Write(&out, []table.Cell{"x", "y"}, [][]table.Cell{{cell, "end"}}); err != nil {
			t.Fatal(err)
		}
		if !utf8.Valid(out.Bytes()) {
			t.Fatal("it is not UTF-8")
		}
		rows, err := csv.NewReader(&out).ReadAll()
		if err != nil || len(rows) != 2 || len(rows[1]) != 2 {
			t.Fatalf("%q, %v", rows, err)
		}
		// The reader at hand makes every CRLF one new line.
		if want := strings.ReplaceAll(string(cell), "\r\n", "\n"); rows[1][0] != want {
			t.Fatalf("read back %q, want %q", rows[1][0], want)
		}
		if trimmed := strings.TrimLeft(rows[1][0], " "); trimmed != "" && strings.ContainsAny(trimmed[:1], "=@\t\r\n") {
			t.Fatalf("a formula: %q", rows[1][0])
		}
	})
}
