package safekeeping

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/outline"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

func TestWhatWasSetAsideIsTold(t *testing.T) {
	cases := []struct {
		name        string
		with        string // what is written over the bake's name, wherever it lies
		told, never []string
	}{
		{"nothing", "Ferry loaf", nil, []string{"Damage that was found"}},
		{"one bit", "Fesry loaf", []string{
			"Damage that was found", "the journal was found damaged, and was made whole again.",
			"Bake Ferry loaf, DAY: one letter was damaged, and has been set right.",
		}, []string{"may still have what is missing"}},
		{"more than can be set right", "Fe!!! loaf", []string{
			"Damage that was found", "a part of the journal could not be read.",
			"Bake Ferry loaf, DAY: restored as an earlier change had left it.", "may still have what is missing",
		}, []string{"whole again"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := pagestest.New(t)
			newBake(b, "Ferry loaf")
			if err := b.Journal.Close(); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(b.Dir, journal.FileName)
			file, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			file = bytes.ReplaceAll(file, []byte(`"name":"Ferry loaf"`), []byte(`"name":"`+c.with+`"`))
			if err := os.WriteFile(path, file, 0o600); err != nil {
				t.Fatal(err)
			}
			b.Reopen()
			open(t, b)
			day := b.Units().Say(say.Of("{{.Day}}", say.With{"Day": say.Moment{At: b.Clock, As: say.Date}}))
			for _, want := range c.told {
				want = strings.Replace(want, "DAY", day, 1)
				if !sees(b, want) {
					t.Errorf("does not say %q: %q", want, outline.Texts(outline.Of(b.Window)))
				}
			}
			for _, never := range c.never {
				if sees(b, never) {
					t.Errorf("says %q", never)
				}
			}
		})
	}
}
