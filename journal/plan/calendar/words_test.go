package calendar

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// What is called by a name keeps it, everything else is said in the language asked for.
func TestEntriesAreSaidInTheBakersLanguage(t *testing.T) {
	p := plan.Plan{ID: "a", Name: "Ferry loaf", Start: time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC), Steps: []plan.Step{
		{ID: "mix", Kind: plan.Mix, Length: 15}, {ID: "own", Kind: plan.Other, Name: "Laminate", Length: 15}}}
	in := map[string]string{"Mix": "Kneten", "Ready": "Fertig", "{{.What}}: {{.Name}}": "{{.Name}} – {{.What}}"}
	german := func(l say.Line) string {
		return l.Fill(func(text, _ string, _ int) string {
			if said, known := in[text]; known {
				return said
			}
			return text
		}, func(v any) string { return v.(string) })
	}
	var b bytes.Buffer
	if err := Write(&b, Options{Say: german}, p); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"SUMMARY:Ferry loaf – Kneten\r\n", "SUMMARY:Ferry loaf – Laminate\r\n", "SUMMARY:Ferry loaf – Fertig\r\n"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing from\n%s", want, b.String())
		}
	}
}
