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

func TestBakesSideBySideHaveTheirCulturesMarks(t *testing.T) {
	j, err := journal.Open(t.Context(), t.TempDir(), journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	culture := func(colour int) *journal.Culture { return &journal.Culture{Name: "c", Colour: colour, Shape: 1} }
	a, b := culture(1), culture(2)
	bakes := make([]*journal.Bake, 4)
	if err := j.Do("test", func(tx *journal.Tx) error {
		for _, c := range []*journal.Culture{a, b} {
			if err := journal.Put(tx, c); err != nil {
				return err
			}
		}
		for i, c := range []journal.ID{a.ID, b.ID, a.ID, ""} {
			bakes[i] = &journal.Bake{Culture: c}
			if err := journal.Put(tx, bakes[i]); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	ids := []journal.ID{bakes[0].ID, bakes[1].ID, bakes[2].ID, bakes[3].ID}
	four := CompareLooks(j, ids)
	if len(four) != 3 || four[ids[0]] != LookOf(a) || four[ids[1]] != LookOf(b) || four[ids[2]] != LookOf(a) {
		t.Errorf("four bakes look like %v", four)
	}
	if two := CompareLooks(j, []journal.ID{ids[0], ids[2]}); two[ids[0]] == two[ids[2]] {
		t.Errorf("two of one culture look like %v", two)
	}
}
