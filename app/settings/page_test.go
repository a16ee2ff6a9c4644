package settings

import (
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
)

// What is typed in a field of the settings is undone whole, and what was typed in another
// stays.
func TestTypedSettingsAreUndoneByTheField(t *testing.T) {
	b := pagestest.New(t)
	b.Show(Routes()[pages.Settings], pages.Route{Name: pages.Settings})
	b.Type(pagestest.All[*kit.QuantityField](b.Window.Content())[0], "24.5")
	for _, f := range pagestest.All[*kit.TextField](b.Window.Content()) {
		switch f.Name() {
		case "Bedtime":
			b.Type(f, "23:15")
		case "Wake-up time":
			b.Type(f, "7:45")
		}
	}
	for _, want := range []string{"Wake-up time", "Bedtime", "kitchen temperature"} {
		if got, err := b.Journal.Undo(); err != nil || got != want {
			t.Errorf("undone is %q, %v, not %q", got, err, want)
		}
		s, err := b.Journal.Settings()
		if err != nil {
			t.Fatal(err)
		}
		from, to := s.Sleep()
		if want != "Wake-up time" && from != 22*time.Hour+30*time.Minute || to != 6*time.Hour+30*time.Minute || want == "kitchen temperature" && s.Kitchen != nil {
			t.Errorf("after %s was undone: sleep from %v to %v, kitchen %v", want, from, to, s.Kitchen)
		}
	}
}
