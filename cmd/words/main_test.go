package main

import (
	"strings"
	"testing"

	"twinloaf/assets/words/gather"
)

func TestTheCatalogueIsUpToDate(t *testing.T) {
	if err := run("../..", true); err != nil {
		t.Error(err)
	}
}

func TestUpdateKeepsPluralsAndDropsWhatIsNoLongerSaid(t *testing.T) {
	kept := `[{"id": "gone", "other": "gone"}, {"id": "{{.N}} bakes", "one": "{{.N}} bake", "other": "{{.N}} bakes"}]`
	out, err := update([]byte(kept), gather.Words{"Shelf": {}, "{{.N}} bakes": {Plural: true}, "{{.N}} loaves": {Plural: true}, "{{.N}} cells": {Plural: true, One: "{{.N}} cell"}})
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
