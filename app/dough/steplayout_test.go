package dough

import (
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

type stillSteps []journal.Step

func (s stillSteps) Steps() []journal.Step                      { return s }
func (s stillSteps) EditSteps(string, func(*[]journal.Step))    {}
func (s stillSteps) DoSteps(string, func(*[]journal.Step)) bool { return false }

// Every field of a step and the signs that move it are within the width, however narrow, none over
// another, and a step is as high as what is said of it.
func TestAStepHasRoomInANarrowWindow(t *testing.T) {
	b := pagestest.New(t)
	s := NewSteps(b.Env, stillSteps{{Name: "A slow rest by the window"}})
	b.Window.SetContent(s.Object)
	for _, width := range []float32{900, 674, 420, 700} {
		kit.FitHeight(s.Object, width)
		row := s.rows[0].object
		for i, o := range row.Objects {
			if left, right := o.Position().X, o.Position().X+o.Size().Width; left < 0 || right < left+40 || right > width+1 {
				t.Errorf("%v wide: column %d goes from %v to %v", width, i, left, right)
			}
			if low := o.Position().Y + o.Size().Height; low > row.Size().Height+1 {
				t.Errorf("%v wide: column %d ends %v down in a row of %v", width, i, low, row.Size().Height)
			}
			for j, other := range row.Objects[:i] {
				a, b := o.Position(), other.Position()
				if a.X < b.X+other.Size().Width && b.X < a.X+o.Size().Width && a.Y < b.Y+other.Size().Height && b.Y < a.Y+o.Size().Height {
					t.Errorf("%v wide: columns %d and %d lie over each other", width, j, i)
				}
			}
		}
	}
}
