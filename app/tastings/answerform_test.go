package tastings

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
)

// What was taken down of a paper sheet is not lost: neither by Esc, nor to a reason why there
// is no answer.
func TestASheetTakenDownIsNotLost(t *testing.T) {
	b := newBench(t)
	b.goTo(pages.At(pages.Tasting, b.sealedTasting()))
	b.press("Type in a sheet")
	session, err := b.Env.Journal.Session(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	step, err := session.At(0)
	if err != nil {
		t.Fatal(err)
	}
	pill := func() *kit.Pill {
		t.Helper()
		for _, p := range pagestest.All[*kit.Pill](b.Window.Canvas().Overlays().Top()) {
			if p.Words() == label(step.Serving.Samples[0]) {
				return p
			}
		}
		t.Fatalf("no sample can be chosen:\n%s", b.Texts())
		return nil
	}
	pill().Tapped(&fyne.PointEvent{})
	b.press("Cancel")
	b.mustSay("Close without saving?")
	b.key("Ctrl+Enter") // goes on writing
	for _, f := range pagestest.All[*kit.TextField](b.Window.Canvas().Overlays().Top()) {
		if f.Name() == "Or no answer, because" {
			b.Type(f, "a plate was dropped")
		}
	}
	b.Window.Canvas().Unfocus()
	for _, button := range pagestest.All[*kit.Button](b.Window.Canvas().Overlays().Top()) {
		if button.Label() == "Hand in" {
			button.Tapped(&fyne.PointEvent{})
		}
	}
	if len(b.Failed) != 1 || !strings.Contains(b.Failed[0].Error(), "the answer is both missing and given") {
		t.Errorf("handed in with a reason for none: %v", b.Failed)
	}
	b.Failed = nil
	pill().Tapped(&fyne.PointEvent{}) // takes it back
	b.press("Hand in")
	session, err = b.Env.Journal.Session(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	if got := session.Progress().Sheets[0].Answers; len(got) != 1 || got[0].Missing != "a plate was dropped" {
		t.Errorf("handed in: %+v", got)
	}
}
