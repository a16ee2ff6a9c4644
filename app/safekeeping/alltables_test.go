package safekeeping

import (
	"os"
	"path/filepath"
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
)

func TestEveryTableIsOfferedAndNoKeyTwice(t *testing.T) {
	b := pagestest.New(t)
	dir := t.TempDir()
	b.Env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(filepath.Join(dir, o.Name)) }
	p := b.Show(Routes()[pages.Safekeeping], pages.Route{Name: pages.Safekeeping})
	seen := map[string]bool{}
	for _, k := range p.Keys() {
		if seen[k.Name] {
			t.Errorf("the key %s is there twice", k.Name)
		}
		seen[k.Name] = true
	}
	for key, name := range map[rune]string{'1': "bakes.csv", '2': "scores.csv", '3': "feedings.csv", '4': "readings.csv"} {
		newAllTables(b.Env).save()
		b.Window.Canvas().OnTypedRune()(key)
		b.Env.Wait()
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			t.Error(err)
		}
	}
}
