package main

import (
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestTheCatalogueIsUpToDate(t *testing.T) {
	if err := run("../..", true); err != nil {
		t.Error(err)
	}
}

func TestWordsOfEveryRoomAreGathered(t *testing.T) {
	dir := t.TempDir()
	source := `package charts
func f(w Words) { tell(w, "missing", nil); tellCount(w, "{{.N}} bar", "{{.N}} bars", 2, nil); tell(w, name, nil) }
func g() { lang.L("Shelf"); lang.N("{{.N}} loaves", 2); say.Of("{{.A}}" + " rose"); say.N("{{.N}} cell", "{{.N}} cells", 2); say.Wrong("it is shut") }`
	if err := os.WriteFile(filepath.Join(dir, "a.go"), []byte(source), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := gather(dir)
	if err != nil {
		t.Fatal(err)
	}
	want := words{
		"missing": {}, "{{.N}} bars": {plural: true, one: "{{.N}} bar"}, "Shelf": {}, "{{.N}} loaves": {plural: true},
		"{{.A}} rose": {}, "{{.N}} cells": {plural: true, one: "{{.N}} cell"}, "it is shut": {},
	}
	if !maps.Equal(got, want) {
		t.Errorf("gathered %v, want %v", got, want)
	}
}

func TestUpdateKeepsPluralsAndDropsWhatIsNoLongerSaid(t *testing.T) {
	kept := `[{"id": "gone", "other": "gone"}, {"id": "{{.N}} bakes", "one": "{{.N}} bake", "other": "{{.N}} bakes"}]`
	out, err := update([]byte(kept), words{"Shelf": {}, "{{.N}} bakes": {plural: true}, "{{.N}} loaves": {plural: true}, "{{.N}} cells": {plural: true, one: "{{.N}} cell"}})
	if err != nil {
		t.Fatal(err)
	}
	got := string(out)
	for _, want := range []string{`"other": "Shelf"`, `"one": "{{.N}} bake"`, `"one": "{{.N}} loaves"`, `"one": "{{.N}} cell"`} {
		if !strings.Contains(got, want) {
			t.Errorf("%s is missing from %s", want, got)
		}
	}
	if strings.Contains(got, "gone") {
		t.Errorf("what is no longer said is still in %s", got)
	}
}
