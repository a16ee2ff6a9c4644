package paper_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/paper"
)

// letters measures a text by its letters.
func letters(s string) float64 { return float64(utf8.RuneCountInString(s)) }

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"Ferry loaf\nfor Sunday": "Ferry loaf\nfor Sunday",
		"a\tb\x00c\x7fd":         "a b c d",
		"loaf 🍞":                 "loaf □",
		"a\xffb":                 "a□b",
		"d′ 2.32":                "d′ 2.32",
		"":                       "",
	} {
		if got := paper.Clean(text); got != want {
			t.Errorf("%q is cleaned to %q, want %q", text, got, want)
		}
	}
}

func TestFit(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width float64
		want  string
	}{
		{"Harbour", 7, "Harbour"}, {"Harbour", 6, "Harbo…"}, {"Har\nbour", 8, "Har bour"}, {"Harbour", 1, "…"}, {"", 0, ""},
	} {
		if got := paper.Fit(tt.text, tt.width, letters); got != tt.want {
			t.Errorf("%q in %g is %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

func TestWhatIsFittedFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, width := rapid.String().Draw(t, "text"), float64(rapid.IntRange(1, 40).Draw(t, "width"))
		got := paper.Fit(text, width, letters)
		if letters(got) > width || strings.ContainsAny(got, "\n\t\x00") {
			t.Fatalf("%q in %g is %q", text, width, got)
		}
	})
}
