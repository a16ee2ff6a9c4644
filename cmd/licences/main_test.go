package main

import (
	"path/filepath"
	"testing"

	"twinloaf/assets/licences"
)

// The list that the program carries names every module that is linked, with its licence.
func TestTheListIsUpToDate(t *testing.T) {
	if err := run(filepath.Join("..", ".."), true); err != nil {
		t.Error(err)
	}
}

func TestEveryPartHasAText(t *testing.T) {
	list, err := licences.Read()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"fyne.io/fyne/v2": "BSD-3-Clause", "libheif (HEIC, as WebAssembly)": "LGPL-3.0", "Fraunces (the headings)": "OFL-1.1", "Go": "BSD-3-Clause"}
	for _, p := range list.Parts {
		if len(list.Of(p)) < 40 || p.Licence == "" {
			t.Errorf("%s has no licence", p.Name)
		}
		if is, ok := want[p.Name]; ok && is != p.Licence {
			t.Errorf("%s is under %s", p.Name, p.Licence)
		}
		delete(want, p.Name)
	}
	if len(want) > 0 {
		t.Errorf("the list lacks %v", want)
	}
}

// A licence that is not known is not passed over.
func TestAStrangeLicence(t *testing.T) {
	if got := kind("Do as you like."); got != "" {
		t.Errorf("it is taken for %s", got)
	}
}
