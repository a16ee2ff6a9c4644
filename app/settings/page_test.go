package settings

import (
	"errors"
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
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

// The page says how much the journal holds, of what there is.
func TestWhatTheJournalHoldsIsCounted(t *testing.T) {
	b := pagestest.New(t)
	b.Put(func(tx *journal.Tx) error {
		return errors.Join(journal.Put(tx, &journal.Culture{Name: "Gorse"}), journal.Put(tx, &journal.Bake{Name: "Ferry loaf"}), journal.Put(tx, &journal.Bake{Name: "Deck rye"}))
	})
	b.Show(Routes()[pages.Settings], pages.Route{Name: pages.Settings})
	b.Wait()
	said := b.Texts()
	for words, want := range map[string]bool{"2 bakes": true, "1 culture": true, "feedings": false, "the settings": false} {
		if strings.Contains(strings.ToLower(said), words) != want {
			t.Errorf("%q is said: %v, want %v, in %s", words, !want, want, said)
		}
	}
}
