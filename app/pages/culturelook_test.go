package pages

import (
	"testing"

	"twinloaf/app/look"
	"twinloaf/charts"
	"twinloaf/journal"
)

func TestTwoLoavesAreToldApart(t *testing.T) {
	culture := func(id journal.ID, colour, shape int) *journal.Culture {
		return &journal.Culture{Head: journal.Head{ID: id}, Colour: colour, Shape: shape}
	}
	a, b, like := culture("a", 1, 0), culture("b", 2, 0), culture("c", 1, 1)
	for _, c := range []struct {
		what   string
		a, b   *journal.Culture
		inked  bool
		marked bool // the first is drawn as its culture
	}{
		{"two cultures", a, b, false, true},
		{"two cultures of one mark", a, like, false, true},
		{"one culture", a, a, true, false},
		{"one unknown", a, nil, true, false},
		{"both unknown", nil, nil, true, false},
	} {
		got := PairLooks(c.a, c.b)
		if got[0] == got[1] {
			t.Errorf("%s: both look like %+v", c.what, got[0])
		}
		if ink := got[0].Hue == charts.Ink && got[1].Hue == charts.Accent; ink != c.inked {
			t.Errorf("%s: in ink %v, want %v", c.what, ink, c.inked)
		}
		if c.inked && (got[0].Shape == got[1].Shape || got[0].Hue == got[1].Hue) {
			t.Errorf("%s: they have one shape or one colour", c.what)
		}
		if c.marked && got[0] != LookOf(c.a) {
			t.Errorf("%s: the first is drawn as %+v, its culture's mark is %+v", c.what, got[0], LookOf(c.a))
		}
	}
}

// A mark of the journal is a look of the charts: they count the same colours and shapes,
// each of which has a name.
func TestMarksAreLooks(t *testing.T) {
	if n := len(look.Light().Series); n != journal.MarkColours || len(MarkColours()) != n {
		t.Errorf("%d colours of charts, %d of marks, %d names", n, journal.MarkColours, len(MarkColours()))
	}
	if charts.Wedge+1 != journal.MarkShapes || len(MarkShapes()) != journal.MarkShapes {
		t.Errorf("%d shapes of charts, %d of marks, %d names", charts.Wedge+1, journal.MarkShapes, len(MarkShapes()))
	}
	for i := range journal.MarkColours {
		c := &journal.Culture{Colour: i + 1}
		if got := LookOf(c); int(got.Hue) != i || got.Hollow {
			t.Errorf("colour %d looks like %+v", i, got)
		}
	}
}
