package kit_test

import (
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// Words that go on to more lines stay behind their mark, and all of them begin at one edge.
func TestWordsHangBehindTheirMarks(t *testing.T) {
	maintest.App(t)
	long := kit.Body("Rises to 2.02× within 6 h: 2 of 3 feedings in a row that were read long enough.")
	first, second, short := kit.NewLine(kit.Span{Text: "met"}), kit.NewLine(kit.Span{Text: "not known"}), kit.Body("Its age is not known.")
	list := kit.Hanging(first, long, second, short)
	high := kit.FitHeight(list, 240)
	if edge := second.MinSize().Width; long.Position().X < edge || long.Position().X != short.Position().X {
		t.Errorf("the words begin at %v and %v, the widest mark ends at %v", long.Position(), short.Position(), edge)
	}
	if end := long.Position().Y + long.Size().Height; long.Size().Height < 2*short.Size().Height || second.Position().Y < end || second.Position().Y != short.Position().Y {
		t.Errorf("the first words end at %v, the second mark stands at %v, its words at %v", end, second.Position(), short.Position())
	}
	if end := short.Position().Y + short.Size().Height; end > high {
		t.Errorf("the list is %v high and ends at %v", high, end)
	}
}
