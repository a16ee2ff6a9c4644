package journal

import (
	"slices"
	"testing"
	"time"
)

// A step keeps the letters of the name that the baker gave it: in German a noun begins with a capital.
func TestAStepOfItsOwnNameKeepsItsLetters(t *testing.T) {
	at := time.Date(2026, 3, 14, 8, 0, 0, 0, time.UTC)
	bake := func(long time.Duration) *Bake {
		return &Bake{Steps: []Step{{ID: "s", Name: "Ruhe im Korb", At: at, End: at.Add(long)}}}
	}
	var names []string
	for _, f := range fairFigures(bake(time.Hour), bake(2*time.Hour), [2]string{}, "") {
		names = append(names, f.Name.String())
	}
	if !slices.Contains(names, "length of Ruhe im Korb") {
		t.Errorf("compared are %q", names)
	}
}
