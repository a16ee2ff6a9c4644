package templog

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"
)

// One line in another encoding does not make the whole file be read in that.
func TestOneLatinLineLeavesTheFileInUTF8(t *testing.T) {
	var rows strings.Builder
	rows.WriteString("Zeit;Kühlraum °C\r\n")
	for i := range 20 {
		note := "grün"
		if i == 4 || i == 9 {
			note = "gr\xfcn" // as Windows-1252 writes it
		}
		fmt.Fprintf(&rows, "2026-11-24 %02d:00;4,%d;%s\r\n", i, i%10, note)
	}
	log, err := Read(context.Background(), []byte(rows.String()), Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if log.Layout.Encoding != "UTF-8" || len(log.Points) != 20 {
		t.Errorf("read as %s, %d readings", log.Layout.Encoding, len(log.Points))
	}
	if got := log.Layout.Heading; len(got) < 2 || got[1] != "Kühlraum °C" {
		t.Errorf("the heading is %q", got)
	}
	for _, r := range log.Rows {
		if len(r.Fields) < 3 || r.Fields[2] != "grün" {
			t.Errorf("line %d is read as %q", r.Line, r.Fields)
		}
	}
	told := ""
	for _, n := range log.Notes {
		if n.Code == NoteEncodings {
			told = n.Sentence.String()
		}
	}
	if !strings.Contains(told, "6, 11") {
		t.Errorf("of the lines that are not it says %q", told)
	}
}

// A log of any length takes a bounded memory, and what is left out is told.
func TestEndlessLogIsThinned(t *testing.T) {
	var r reader
	begun := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	const all = 5 * mostPoints / 2
	for i := range all {
		r.keep(Point{At: begun.Add(time.Duration(i) * time.Second), Temp: Celsius(i % 30)})
	}
	r.finish()
	if n := len(r.log.Points); n > mostPoints || n < mostPoints/2 || cap(r.log.Points) > 2*mostPoints {
		t.Errorf("%d are kept of %d, with room for %d", n, all, cap(r.log.Points))
	}
	for i, p := range r.log.Points {
		if want := begun.Add(time.Duration(i*r.stride) * time.Second); !p.At.Equal(want) {
			t.Fatalf("reading %d is of %v, want %v", i, p.At, want)
		}
	}
	if len(r.log.Notes) != 1 || r.log.Notes[0].Code != NoteThinned || !strings.Contains(r.log.Notes[0].Sentence.String(), "one in 4") {
		t.Errorf("it says %v", r.log.Notes)
	}
}
