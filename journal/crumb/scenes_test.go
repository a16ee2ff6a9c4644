package crumb

import (
	"context"
	"errors"
	"image"
	"math"
	"strings"
	"testing"

	"twinloaf/journal/crumb/foam"
	"twinloaf/journal/journaltest/race"
)

// A scene is a slice in a kitchen.
type scene struct {
	name  string
	slice foam.Slice
}

var (
	paleTable = [3]float64{206, 204, 198}
	blueCloth = [3]float64{92, 112, 150}
	darkWood  = [3]float64{86, 62, 44}
)

// kitchen are ordinary pictures of slices: on a board, a plate, a cloth, in a shadow, by
// flash, with another slice beside.
func kitchen() []scene {
	base := func(n uint64, change func(s *foam.Slice)) foam.Slice {
		s := foam.Slice{Seed: 4000 + n, Width: 400, Height: 320, WidthMM: 60, Share: 0.55, MedianMM: 1.5, Grain: 0.02, Light: foam.Light{Direction: 200, Around: 0.5, Bounce: 0.3, Noise: 3, Blur: 0.5}}
		change(&s)
		return s
	}
	return []scene{
		{"dark table", base(0, func(s *foam.Slice) {})},
		{"dark table, near", base(1, func(s *foam.Slice) { s.Share = 0.86 })},
		{"pale table, soft light", base(2, func(s *foam.Slice) { s.Scene.Ground, s.Light.Around = paleTable, 0.9 })},
		{"pale table, low window", base(3, func(s *foam.Slice) { s.Scene.Ground, s.Light.Height, s.Light.Around = paleTable, 24, 0.3 })},
		{"pale table, window from the right", base(4, func(s *foam.Slice) { s.Scene.Ground, s.Light.Direction, s.Light.Around = paleTable, 0, 0.3 })},
		{"blue cloth", base(5, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Cloth = blueCloth, 0.12 })},
		{"striped cloth", base(6, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Cloth = blueCloth, 0.4 })},
		{"dark wood", base(7, func(s *foam.Slice) { s.Scene.Ground = darkWood })},
		{"board on a pale table", base(8, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Under = paleTable, foam.Board })},
		{"board on a dark table", base(9, func(s *foam.Slice) { s.Scene.Under = foam.Board })},
		{"board on blue cloth", base(10, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Under = blueCloth, foam.Board })},
		{"plate on a dark table", base(11, func(s *foam.Slice) { s.Scene.Under = foam.Plate })},
		{"plate on dark wood", base(12, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Under = darkWood, foam.Plate })},
		{"plate on blue cloth", base(13, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Under = blueCloth, foam.Plate })},
		{"somebody's shadow", base(14, func(s *foam.Slice) { s.Scene.Ground, s.Scene.Shadow = paleTable, 0.4 })},
		{"somebody's shadow on dark", base(15, func(s *foam.Slice) { s.Scene.Shadow = 0.4 })},
		{"flash on a dark table", base(16, func(s *foam.Slice) { s.Light.Flash = 0.6 })},
		{"flash on a pale table", base(17, func(s *foam.Slice) { s.Scene.Ground, s.Light.Flash = paleTable, 0.6 })},
		{"two slices", base(18, func(s *foam.Slice) { s.Share, s.Scene.Second = 0.42, true })},
		{"two slices on a pale table", base(19, func(s *foam.Slice) { s.Scene.Ground, s.Share, s.Scene.Second = paleTable, 0.42, true })},
		{"fills the picture", base(20, func(s *foam.Slice) { s.Share = 1.6 })},
	}
}

// overlap is the share that two outlines have in common of what either holds.
func overlap(a, b Outline, w, h int) float64 {
	f := frame{step: 1}
	x, y := a.fill(f, w, h), b.fill(f, w, h)
	both, either := 0, 0
	for i := range x {
		both += b2i(x[i] && y[i])
		either += b2i(x[i] || y[i])
	}
	return float64(both) / float64(max(1, either))
}

// What is wanted of a scene: an outline, one that may lack a crust that is coloured as what it lies
// on, or a reason why there is none.
type wanted struct {
	found, most bool
	width       bool   // the outline is as wide as the slice, which gives the scale
	reason      string // in part
}

func TestKitchenScenes(t *testing.T) {
	found, most := wanted{found: true, width: true}, wanted{most: true}
	want := map[string]wanted{
		"dark table": found, "dark table, near": found, "pale table, soft light": found, "pale table, low window": found, "blue cloth": found, "dark wood": found,
		"plate on a dark table": found, "plate on dark wood": found, "plate on blue cloth": found,
		"somebody's shadow on dark": found, "flash on a dark table": found,
		// Of this the shade is as dark as shade can be.
		"pale table, window from the right": {},
		"board on a pale table":             most, "board on blue cloth": most, "board on a dark table": most,
		"flash on a pale table": {},
		"striped cloth":         {reason: "several things"}, "somebody's shadow": {reason: "several things"},
		"two slices": {reason: "there are two slices"}, "two slices on a pale table": {reason: "there are two slices"},
		"fills the picture": {reason: "the slice may fill the picture"},
	}
	for i, s := range kitchen() {
		if i%race.Cases(3, 100) != 0 && !*showTable {
			continue // a third of them says most; the long set is for who changes the outline
		}
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			p, err := foam.Draw(context.Background(), s.slice)
			if err != nil {
				t.Fatal(err)
			}
			var truth Outline
			for _, q := range p.Truth.Outline {
				truth = append(truth, Point(q))
			}
			in := func(o Outline) float64 { return overlap(o, truth, s.slice.Width, s.slice.Height) }
			// A box round the slice narrows the search, whatever else is in the picture.
			tl, th := truth.bounds()
			if s.name != "fills the picture" {
				box := image.Rect(int(tl.X)-6, int(tl.Y)-6, int(th.X)+6, int(th.Y)+6).Intersect(p.Photo.Rect)
				if near, err := FindOutlines(context.Background(), p.Photo.SubImage(box)); err != nil || in(near[0]) < 0.88 {
					t.Errorf("in a box round it: %v, %v", err, near)
				}
			}
			all, err := findAll(context.Background(), p.Photo)
			w := want[s.name]
			var none *NotFoundError
			if errors.As(err, &none) {
				t.Log(none.Reason)
				if w.reason == "" || !strings.Contains(none.Reason.String(), w.reason) {
					t.Errorf("no outline because %s, want because %q", none.Reason, w.reason)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			found := all[0]
			lo, hi := found.outline.bounds()
			width := (hi.X - lo.X) / (th.X - tl.X)
			t.Logf("overlap %.3f, width %.3f of the true one, of %d; %.3f off in colour beside it", in(found.outline), width, len(all), found.beside)
			if w.reason != "" || w.found && in(found.outline) < 0.89 || w.width && math.Abs(width-1) > 0.02 || w.most && in(found.outline) < 0.84 {
				t.Errorf("wanted %+v", w)
			}
			// What is narrower than the slice runs within a crust that was taken for what it lies on, and only that does.
			if narrow := width < 0.975; narrow != (found.beside > besideDoubt) {
				t.Errorf("width %.3f of the true one, and the colour beside it is %.3f off", width, found.beside)
			}
		})
	}
}
