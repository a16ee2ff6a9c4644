package gather

import (
	"maps"
	"os"
	"path/filepath"
	"testing"
)

func TestWordsOfEveryRoomAreGathered(t *testing.T) {
	dir := t.TempDir()
	source := `package charts
func f(w Words) { w.Say(say.Of("missing")); w.Say(say.N("{{.N}} bar", "{{.N}} bars", 2)); say.Of(name) }
func g() { lang.L("Shelf"); lang.N("{{.N}} loaves", 2); say.Of("{{.A}}" + " rose"); say.N("{{.N}} cell", "{{.N}} cells", 2); say.NewError("it is shut") }`
	if err := os.WriteFile(filepath.Join(dir, "a.go"), []byte(source), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := calls(dir)
	if err != nil {
		t.Fatal(err)
	}
	want := Words{
		"missing": {}, "{{.N}} bars": {Plural: true, One: "{{.N}} bar"}, "Shelf": {}, "{{.N}} loaves": {Plural: true},
		"{{.A}} rose": {}, "{{.N}} cells": {Plural: true, One: "{{.N}} cell"}, "it is shut": {},
	}
	if !maps.Equal(got, want) {
		t.Errorf("gathered %v, want %v", got, want)
	}
}
