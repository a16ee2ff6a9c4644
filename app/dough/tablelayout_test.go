package dough

import (
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
)

type still struct{ mix Mix }

func (s still) Mix() Mix                   { return s.mix }
func (s still) Edit(string, func(*Mix))    {}
func (s still) Do(string, func(*Mix)) bool { return false }

// A table takes as much height as its lines do, where names stand over them as well.
func TestATableIsAsHighAsItsLines(t *testing.T) {
	b := pagestest.New(t)
	e, err := NewEditor(b.Env, still{ferryLoaf()})
	if err != nil {
		t.Fatal(err)
	}
	table := e.parts.final
	b.Window.SetContent(e.Object)
	for _, width := range []float32{900, 460, 700} {
		have, need := kit.FitHeight(table.Object, width), float32(0)
		for _, o := range table.box.Objects {
			need = max(need, o.Position().Y+o.Size().Height)
		}
		if have < need {
			t.Errorf("%v wide it is %v high, and its lines go down to %v", width, have, need)
		}
	}
}
