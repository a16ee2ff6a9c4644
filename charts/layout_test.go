package charts

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

func testStyle(t testing.TB) Style {
	t.Helper()
	regular, err := os.ReadFile("../assets/fonts/TwinloafText-Regular.ttf")
	if err != nil {
		t.Fatal(err)
	}
	bold, err := os.ReadFile("../assets/fonts/TwinloafText-SemiBold.ttf")
	if err != nil {
		t.Fatal(err)
	}
	s, err := NewStyle(LightPalette(), regular, bold)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// No text lies on another, however many lines end in the same place.
func TestLabelsDoNotOverlap(t *testing.T) {
	style := testStyle(t)
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-50, 50)
		panel := Panel{Title: "A panel", Layers: []Layer{
			Band{From: 1, To: 3, Label: "a first stretch"}, Band{From: 2, To: 4, Label: "a second stretch"},
			Level{At: value.Draw(t, "level"), Label: "a level"},
		}}
		for i := range rapid.IntRange(1, 9).Draw(t, "series") {
			n := rapid.IntRange(1, 8).Draw(t, "points")
			s := Series{Name: fmt.Sprintf("series %d", i), Look: SeriesStyle{Hue: Hue(i)}}
			for k := range n {
				s.X = append(s.X, float64(k))
				s.Y = append(s.Y, value.Draw(t, "y"))
			}
			panel.Layers = append(panel.Layers, s)
		}
		p := Plot{X: Axis{Title: "along"}, Panels: []Panel{panel, {Y: Axis{Title: "up"}, Layers: panel.Layers[3:4]}}}
		w, h := rapid.Float64Range(240, 1200).Draw(t, "w"), rapid.Float64Range(200, 700).Draw(t, "h")
		sh := newDrawList(style, w, h, 1)
		p.draw(sh)
		apart(t, sh)
	})
}

func TestLabelsOfLanesDoNotOverlap(t *testing.T) {
	style := testStyle(t)
	rapid.Check(t, func(t *rapid.T) {
		var l Lanes
		for i := range rapid.IntRange(1, 4).Draw(t, "lanes") {
			lane := Lane{Name: fmt.Sprintf("loaf %d", i)}
			for k := range rapid.IntRange(1, 6).Draw(t, "blocks") {
				from := rapid.Float64Range(0, 20).Draw(t, "from")
				lane.Blocks = append(lane.Blocks, Block{From: from, To: from + rapid.Float64Range(0, 6).Draw(t, "length"), Label: fmt.Sprintf("a block %d", k), Planned: k%3 == 0})
			}
			l.Lanes = append(l.Lanes, lane)
		}
		sh := newDrawList(style, rapid.Float64Range(240, 1000).Draw(t, "w"), rapid.Float64Range(120, 400).Draw(t, "h"), 1)
		l.draw(sh)
		apart(t, sh)
	})
}

// apart fails when two texts of a sheet overlap or one leaves the sheet.
func apart(t *rapid.T, sh *drawList) {
	var boxes []rect
	var words []string
	for _, it := range sh.items {
		if it.words == "" {
			continue
		}
		// Half a unit is the side bearing of letters: their ink is within.
		b := sh.bounds(it.pts[0], it.words, it.font, it.anchor).grown(-0.5)
		if b.x < -1 || b.y < -1 || b.right() > sh.w+1 || b.bottom() > sh.h+1 {
			t.Fatalf("%q leaves the picture: %+v of %v by %v", it.words, b, sh.w, sh.h)
		}
		for i, o := range boxes {
			if b.overlaps(o) {
				t.Fatalf("%q lies on %q: %+v, %+v", it.words, words[i], b, o)
			}
		}
		boxes, words = append(boxes, b), append(words, it.words)
	}
}

func TestClippedLinesStayInside(t *testing.T) {
	r := rect{10, 20, 100, 50}
	inside := func(p point) bool {
		return p.x >= r.x-1e-6 && p.x <= r.right()+1e-6 && p.y >= r.y-1e-6 && p.y <= r.bottom()+1e-6
	}
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.OneOf(rapid.Float64Range(0, 120), rapid.Float64Range(-1e6, 1e6))
		var pts []point
		for range rapid.IntRange(2, 12).Draw(t, "n") {
			pts = append(pts, point{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")})
		}
		for _, piece := range clipLine(pts, r) {
			for _, p := range piece {
				if !inside(p) {
					t.Fatalf("%v lies outside", p)
				}
			}
		}
		for _, p := range clipArea(pts, r) {
			if !inside(p) {
				t.Fatalf("corner %v lies outside", p)
			}
		}
	})
}

// A line thinned to columns of pixels keeps what it reached, and is short.
func TestThinnedLinesKeepTheirExtremes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 3000).Draw(t, "n")
		seed := rapid.Float64Range(1, 9).Draw(t, "seed")
		var pts []point
		for i := range n {
			pts = append(pts, point{300 * float64(i) / float64(n), math.Sin(float64(i) * seed)})
		}
		out := thin(pts, 1)
		if len(out) > 4*301 {
			t.Fatalf("%d points for 300 columns", len(out))
		}
		less := func(a, b point) int { return int(math.Copysign(1, a.y-b.y)) }
		if slices.MinFunc(pts, less).y != slices.MinFunc(out, less).y || slices.MaxFunc(pts, less).y != slices.MaxFunc(out, less).y {
			t.Fatal("an extreme was lost")
		}
		if !slices.IsSortedFunc(out, func(a, b point) int { return int(math.Ceil(a.x - b.x)) }) || out[0] != pts[0] || out[len(out)-1] != pts[n-1] {
			t.Fatal("the line runs otherwise than it did")
		}
	})
}

func TestNumberTicks(t *testing.T) {
	for _, c := range []struct {
		axis   Axis
		lo, hi float64
		want   int
		labels []string
	}{
		{Axis{}, 0, 1, 5, []string{"0.0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		{Axis{Ratio: true}, 1, 3, 4, []string{"1×", "1.5×", "2×", "2.5×", "3×"}},
		{Axis{Min: 1, Max: 9}, 1, 9, 4, []string{"1", "3", "5", "7", "9"}},
		{Axis{Min: 1, Max: 9, Whole: true}, 1, 9, 2, []string{"1", "5", "9"}},
		{Axis{Whole: true}, 1, 3, 9, []string{"1", "2", "3"}},
		{Axis{}, -3, 3, 3, []string{"−2", "0", "2"}},
		{Axis{Format: Words{}.Percent}, 0, 0.5, 5, []string{"0\u00A0%", "10\u00A0%", "20\u00A0%", "30\u00A0%", "40\u00A0%", "50\u00A0%"}},
		{Axis{}, 0, 1e6, 2, []string{"0", "500000", "1000000"}},
	} {
		var got []string
		for _, tk := range c.axis.ticks(c.lo, c.hi, c.want, Words{}) {
			got = append(got, tk.label)
		}
		if !slices.Equal(got, c.labels) {
			t.Errorf("%v to %v in %d: %q, want %q", c.lo, c.hi, c.want, got, c.labels)
		}
	}
}

func TestRatiosAreMeasuredFromWhereTheyBegin(t *testing.T) {
	var data span
	data.add(1, 1.35, 2.3)
	for _, c := range []struct {
		axis   Axis
		lo, hi float64
	}{
		{Axis{Include: []float64{1}}, 1, 2.5},
		{Axis{Include: []float64{1, 3}}, 1, 3},
		{Axis{Include: []float64{0.97}}, 0.97, 2.5},
		{Axis{Min: 0.5, Max: 2}, 0.5, 2},
	} {
		if lo, hi := c.axis.widened(data, 4); lo != c.lo || hi != c.hi {
			t.Errorf("%+v: %v to %v, want %v to %v", c.axis, lo, hi, c.lo, c.hi)
		}
	}
}

// Okabe and Ito, "Color Universal Design" (2008), in the order and values of
// their table: blue, vermilion, bluish green, reddish purple, sky blue, orange.
func TestSeriesColours(t *testing.T) {
	want := [][3]uint8{{0, 114, 178}, {213, 94, 0}, {0, 158, 115}, {204, 121, 167}, {86, 180, 233}, {230, 159, 0}}
	for i, c := range LightPalette().Series {
		if [3]uint8{c.R, c.G, c.B} != want[i] {
			t.Errorf("series colour %d is %v, want %v", i, c, want[i])
		}
	}
}

// WCAG 2.1, success criterion 1.4.3: text stands out by at least 4.5 to 1;
// 1.4.11: what is needed to read a graphic by at least 3 to 1. The contrast of
// black and white is 21 to 1 by definition.
func TestContrasts(t *testing.T) {
	if got := contrast(rgb(0), rgb(0xFFFFFF)); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %v to 1", got)
	}
	for name, p := range map[string]Palette{"light": LightPalette(), "dark": DarkPalette()} {
		s := Style{Palette: p}
		for _, h := range []Hue{Ink, Faint, Accent, 0, 1, 2, 3, 4, 5} {
			if got := contrast(s.readable(s.colour(h)), p.Paper); got < 4.5 {
				t.Errorf("%s: text of hue %d stands out by %.2f", name, h, got)
			}
		}
		if got := contrast(p.Faint, p.Paper); got < 4.5 {
			t.Errorf("%s: axis labels stand out by %.2f", name, got)
		}
	}
}

// A picture too small for its figure says so, and has no marks to point at.
func TestSmallPicturesSayThatTheyAre(t *testing.T) {
	for _, f := range []Spec{
		Plot{Panels: []Panel{{Title: "t", Layers: []Layer{Series{X: []float64{1}, Y: []float64{1}}}}}},
		Bars{Title: "t", Bars: []Bar{{Name: "a", Value: 1}}},
		Groups{Title: "t", Groups: []Group{{Name: "a", Values: []float64{1}}}},
		Pairs{Rows: []Pair{{Name: "a", A: 1, B: 2}}},
		Slopes{Title: "t", Pairs: [][2]float64{{1, 2}}},
		Lanes{Lanes: []Lane{{Name: "a", Blocks: []Block{{From: 1, To: 2}}}}},
		Calendar{Year: 2026},
	} {
		sh := newDrawList(testStyle(t), 260, 26, 1)
		f.draw(sh)
		if len(sh.items) != 1 || sh.items[0].words == "" || len(sh.marks) != 0 {
			t.Errorf("%T in 260 by 26: %d things drawn, %d marks", f, len(sh.items), len(sh.marks))
		}
	}
}

// A month that has just begun stands whole at the edge of a calendar.
func TestTheLastMonthIsWhole(t *testing.T) {
	for days := 1; days <= 365; days++ {
		sh := newDrawList(testStyle(t), 700, 200, 1)
		Calendar{Year: 2026, Days: days}.draw(sh)
		for _, it := range sh.items {
			if it.words != "" && it.pts[0].x+(1-it.anchor)*sh.measure(it.words, it.font) > 700+1e-6 {
				t.Fatalf("after %d days %q ends at %v", days, it.words, it.pts[0].x+(1-it.anchor)*sh.measure(it.words, it.font))
			}
		}
	}
}

func TestDashesCoverTheirShare(t *testing.T) {
	line := []point{{0, 0}, {30, 40}, {30, 140}} // 50 and 100 long
	sum := 0.0
	for _, piece := range dashes(line, []float64{3, 2}) {
		for i := 1; i < len(piece); i++ {
			sum += math.Hypot(piece[i].x-piece[i-1].x, piece[i].y-piece[i-1].y)
		}
	}
	if math.Abs(sum-90) > 1e-6 {
		t.Errorf("dashes of 3 in 5 cover %v of 150, want 90", sum)
	}
}

func TestRowsHaveTheirNamesAtTheirTicks(t *testing.T) {
	a := Axis{Names: []string{"milky", "sour", "fruity"}, Max: 4}
	var got []string
	for _, tk := range a.ticks(0, 4, 1, Words{}) {
		got = append(got, tk.label)
	}
	if want := []string{"milky", "sour", "fruity"}; !slices.Equal(got, want) {
		t.Errorf("ticks %q, want %q", got, want)
	}
	for v, want := range map[float64]string{1: "milky", 3: "fruity", 4: "4", 0: "0"} {
		if got := a.value(v, Words{}); got != want {
			t.Errorf("%g reads %q, want %q", v, got, want)
		}
	}
}
