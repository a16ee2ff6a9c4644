package cut_test

import (
	"math"
	"testing"

	"twinloaf/cmd/demopictures/cut"
	"twinloaf/journal/journaltest/race"
)

// small is a slice that is made quickly.
func small(seed uint64) cut.Slice {
	return cut.Slice{
		Seed: seed, Form: cut.Boule, WidthMM: 40, Largest: 6, Gas: 1, Fine: 0.1, Baked: 0.5,
		View: cut.View{Seed: seed, Fill: 0.8, Turn: 2, Lean: 4, Window: 120, W: 400, H: 300},
	}
}

func TestADescriptionDecidesTheSlice(t *testing.T) {
	a, again, other := small(4).Bake(), small(4).Bake(), small(5).Bake()
	if a.Open != again.Open || a.Left != again.Left || a.WidthMM != again.WidthMM {
		t.Errorf("%+v, and the second time %+v", a, again)
	}
	if a.Open == other.Open {
		t.Errorf("both seeds give a share of %v", a.Open)
	}
}

func TestTheViewShowsItAsLargeAsAskedFor(t *testing.T) {
	for _, form := range race.Few([]cut.Form{cut.Boule, cut.Batard, cut.Slipper}, 1) {
		s := small(7)
		s.Form = form
		got := s.Bake()
		if share := (got.Right - got.Left) / 400; math.Abs(share-0.8) > 0.04 {
			t.Errorf("form %v takes %.2f of the width", form, share)
		}
		if math.Abs(got.WidthMM-40) > 4 {
			t.Errorf("form %v is %.1f mm wide", form, got.WidthMM)
		}
	}
}

func TestMoreGasOpensMore(t *testing.T) {
	dense, airy := small(4), small(4)
	dense.Gas, airy.Gas = 0.3, 1.1
	if d, a := dense.Bake().Open, airy.Bake().Open; a < 1.3*d {
		t.Errorf("a dense one is %.2f open, an airy one %.2f", d, a)
	}
}

// What is asked of a place of the picture adds up to the share that is stated.
func TestWhatIsOpenAddsUp(t *testing.T) {
	got := small(4).Bake()
	open, all := 0.0, 0.0
	for y := range 300 {
		for x := range 400 {
			if o, crumb := got.Opened(float64(x), float64(y)); crumb {
				all++
				if o {
					open++
				}
			}
		}
	}
	if all < 10000 || math.Abs(open/all-got.Open) > 0.03 {
		t.Errorf("of %.0f places %.3f are open, stated is %.3f", all, open/all, got.Open)
	}
}
