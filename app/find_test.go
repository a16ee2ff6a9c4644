package app

import (
	"errors"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// What is asked for by another word than the window's own is found, in a journal with one
// culture and one bake, from the page that the window opens with.
func TestWhatIsCalledOtherwiseIsFound(t *testing.T) {
	w := newWindow(t)
	if err := w.env.Journal.Do("begin", func(tx *journal.Tx) error {
		return errors.Join(journal.Put(tx, &journal.Culture{Name: "Gorse"}), journal.Put(tx, &journal.Bake{Name: "Ferry loaf", State: journal.Finished}))
	}); err != nil {
		t.Fatal(err)
	}
	all := w.everything()
	for text, want := range map[string]string{
		"compare":     "Compare Ferry loaf with other bakes",
		"versus":      "Compare Ferry loaf with other bakes",
		"export":      "Save all bakes, scores, feedings and readings as tables",
		"spreadsheet": "Save all bakes, scores, feedings and readings as tables",
		"import":      "Bring an archive in",
		"send":        "Take the journal away, as one archive",
		"dark":        "Appearance: dark",
		"night":       "Appearance: dark",
		"theme":       "Appearance: light",
		"print":       "Print or save Ferry loaf: open it",
		"pdf":         "Print or save Ferry loaf: open it",
		"undo":        "Undo · Ctrl+Z",
		"revert":      "Undo · Ctrl+Z",
		"password":    "Help: who can read the journal",
		"trash":       "The bin",
		"starter":     "Gorse, culture",
		"refresh":     "Feed Gorse",
		"german":      "Language: Deutsch",
		"fahrenheit":  "Settings: °C or °F, grams or ounces",
		"alarm":       "Settings: sound when a step is due",
		"backup":      "Back the journal up now",
		"zoom":        "Larger text · Ctrl++",
		"shortcuts":   "Every key · F1",
		"quit":        "Close · Ctrl+Q",
		"license":     "About Twinloaf: version, libraries, licences",
		"schedule":    "Plan a bake",
	} {
		var got []string
		for _, f := range search(all, text) {
			got = append(got, f.words)
		}
		if !strings.Contains("\n"+strings.Join(got, "\n")+"\n", "\n"+want+"\n") {
			t.Errorf("%q does not find %q, but %q", text, want, got)
		}
	}
}

// A bake that was begun in another time zone is found by the day that it was here.
func TestABakeFromElsewhereIsFoundByItsDayHere(t *testing.T) {
	w := newWindow(t)
	at := time.Date(2026, 1, 31, 23, 0, 0, 0, w.env.Now().Location()).In(time.FixedZone("", 13*3600))
	if err := w.env.Journal.Do("begin", func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Bake{Name: "Ferry loaf", At: at, State: journal.Finished})
	}); err != nil {
		t.Fatal(err)
	}
	if found := search(w.everything(), "Ferry loaf January"); len(found) == 0 {
		t.Error("a bake of 31 January is not found by its month")
	}
}

// An action that is found is done.
func TestAnActionThatIsFoundIsDone(t *testing.T) {
	w := newWindow(t)
	for _, f := range search(w.everything(), "night") {
		if f.words == "Appearance: dark" {
			f.do()
		}
	}
	s, err := w.env.Journal.Settings()
	if err != nil || s.Look != "dark" {
		t.Errorf("the appearance is %+v (%v)", s, err)
	}
}

// The sheet of keys is as high as what it says, with no empty half.
func TestTheSheetOfKeysIsFilled(t *testing.T) {
	w := newWindow(t)
	w.win.Resize(fyne.NewSize(1280, 800))
	w.listKeys()
	for _, o := range everySeen(w.win.Canvas().Overlays().Top()) {
		if s, ok := o.CanvasObject.(*container.Scroll); ok && s.Content.MinSize().Height < 0.85*s.Size().Height {
			t.Errorf("of %v points the keys take %v", s.Size().Height, s.Content.MinSize().Height)
		}
	}
}

// A loaf that nobody scored is told to be that, and drawn where it has no photo, rye dark.
func TestALoafWithoutAScoreOrPhotoIsFound(t *testing.T) {
	w := newWindow(t)
	if err := w.env.Journal.Do("begin", func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Bake{Name: "Deck rye", State: journal.Finished, Ingredients: []journal.Ingredient{
			{Name: "Dark rye", Role: formula.Flour, Grams: 500}, {Name: "Water", Role: formula.Water, Grams: 400},
		}})
	}); err != nil {
		t.Fatal(err)
	}
	for _, f := range w.everything() {
		if f.group == findBake && (f.under != "not scored yet" || f.loaf != kit.DarkLoaf) {
			t.Errorf("it is found as %+v", f)
		}
	}
}
