package formula

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Volumes against solid geometry: a box, a cylinder, a cone cut off (πh/3 (R²+Rr+r²)) and
// a pyramid cut off (h/3 (A+B+√AB)), each by its own formula.
func TestTinVolume(t *testing.T) {
	for _, c := range []struct {
		name string
		tin  Tin
		want float64
	}{
		{"a box", Tin{Length: 200, Width: 100, Depth: 100}, 2000},
		{"a cylinder", Tin{Length: 200, Depth: 80, Round: true}, math.Pi * 100 * 100 * 80 / 1000},
		{"a cone cut off", Tin{Length: 220, BaseLength: 180, Depth: 70, Round: true}, math.Pi * 70 / 3 * (110*110 + 110*90 + 90*90) / 1000},
		{"a pyramid cut off", Tin{Length: 120, Width: 120, BaseLength: 90, BaseWidth: 90, Depth: 60}, 60.0 / 3 * (14400 + 8100 + math.Sqrt(14400*8100)) / 1000},
	} {
		got, err := c.tin.Volume()
		if err != nil || math.Abs(float64(got)-c.want) > 1e-9*c.want {
			t.Errorf("%s holds %v ml (%v), want %v", c.name, got, err, c.want)
		}
	}
	for _, tin := range []Tin{{}, {Length: 100, Width: 100}, {Length: -100, Width: -100, Depth: 50}, {Length: math.NaN(), Width: 1, Depth: 1}, {Length: 10, Width: 10, Depth: 10, BaseWidth: -1}} {
		if got, err := tin.Volume(); err == nil {
			t.Errorf("%+v holds %v ml", tin, got)
		}
	}
}

// A tin of 33 by 10 by 10 cm with a lid takes 1000 to 1144 g of white dough, one of 1.9 l
// without a lid 680 to 750 g, to five grams, and one of 1.5 l 1000 to 1100 g of rye, which
// is to fill two thirds of it (common practice, no source; from memory).
func TestDoughForATin(t *testing.T) {
	for _, c := range []struct {
		bread      TinBread
		volume     Millilitres
		from, till Grams
	}{{TinLidded, 3300, 1000, 1144}, {TinWhite, 1900, 680, 750}, {TinRye, 1500, 1000, 1100}} {
		got, err := DoughFor(c.volume, c.bread.Space())
		if to5 := Grams(5 * math.Round(float64(got.Grams)/5)); err != nil || to5 < c.from || to5 > c.till {
			t.Errorf("%s in %v ml: %+v (%v), want %v to %v", c.bread, c.volume, got, err, c.from, c.till)
		}
	}
	last := math.Inf(1)
	for _, b := range TinBreads() {
		if s := b.Space(); s <= 0 || s >= last {
			t.Errorf("%s wants %v ml a gram, after %v", b, s, last)
		} else {
			last = s
		}
	}
	if TinBread("cake").Space() != 0 {
		t.Error("something is known of cake")
	}
	if _, err := DoughFor(1000, 0); err == nil {
		t.Error("dough without a factor")
	}
}

// The volume grows with every measure, a tin twice as large each way holds eight times
// as much, and one whose base is smaller holds less than the box around it.
func TestTinProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(20, 400)
		tin := Tin{Length: side.Draw(t, "length"), Width: side.Draw(t, "width"), Depth: side.Draw(t, "depth"), Round: rapid.Bool().Draw(t, "round")}
		tin.BaseLength = tin.Length * rapid.Float64Range(0.3, 1).Draw(t, "base")
		tin.BaseWidth = tin.Width * rapid.Float64Range(0.3, 1).Draw(t, "base width")
		v, err := tin.Volume()
		if err != nil {
			t.Fatal(err)
		}
		twice := Tin{2 * tin.Length, 2 * tin.Width, 2 * tin.BaseLength, 2 * tin.BaseWidth, 2 * tin.Depth, tin.Round}
		if w, _ := twice.Volume(); math.Abs(float64(w/v)-8) > 1e-9 {
			t.Errorf("twice as large it holds %v times as much", w/v)
		}
		box := tin
		box.BaseLength, box.BaseWidth = 0, 0
		if w, _ := box.Volume(); v > w*(1+1e-12) {
			t.Errorf("a narrower base holds more: %v against %v", v, w)
		}
		d, err := DoughFor(v, rapid.Float64Range(1, 5).Draw(t, "space"))
		if err != nil || !(d.Least < d.Grams && d.Grams < d.Most) {
			t.Errorf("%+v, %v", d, err)
		}
	})
}
