package tastings

import (
	"testing"

	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// Of two loaves each figure stands below the name of its own, and how far apart they are
// below that word.
func TestAFigureStandsBelowItsLoaf(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	water := map[string]formula.Celsius{"Harbour": 31, "Gorse": 27.5}
	b.Env.Do("water", func(tx *journal.Tx) error {
		for _, arm := range trial.Arms {
			if err := journal.Change(tx, arm.Bake, func(x *journal.Bake) { x.Water.Water = new(water[arm.Value]) }); err != nil {
				return err
			}
		}
		return nil
	})
	b.goTo(pages.At(pages.Trial, trial.ID))
	things := outline.Of(b.Window)
	at := func(text string) outline.Thing {
		t.Helper()
		for _, x := range things {
			if x.Kind == "text" && x.Text == text {
				return x
			}
		}
		t.Fatalf("%q is not said: %q", text, outline.Texts(things))
		return outline.Thing{}
	}
	apart := at("apart")
	// The names stand at other places of the page, too: here in one line with "apart".
	heads := map[string]outline.Thing{"3.5\u00a0°C": apart}
	for _, x := range things {
		if x.Kind == "text" && x.Y == apart.Y && x.Text == "Harbour" {
			heads["31\u00a0°C"] = x
		}
		if x.Kind == "text" && x.Y == apart.Y && x.Text == "Gorse" {
			heads["27.5\u00a0°C"] = x
		}
	}
	if len(heads) != 3 {
		t.Fatalf("headings: %v", heads)
	}
	for figure, head := range heads {
		if f := at(figure); f.Y <= head.Y || f.X+f.W-head.X-head.W > 1 || head.X+head.W-f.X-f.W > 1 {
			t.Errorf("%s ends at %v, below %q, which ends at %v", figure, f.X+f.W, head.Text, head.X+head.W)
		}
	}
}
