package crumb

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal/crumb"
)

// tapAt taps a place of the picture while a tool is in hand.
func tapAt(p *measurePage, at crumb.Point) {
	x0, y0 := p.picture.view.PictureAt(fyne.NewPos(0, 0))
	x1, _ := p.picture.view.PictureAt(fyne.NewPos(100, 0))
	k := 100 / (x1 - x0)
	p.picture.pad.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32((at.X-x0)*k), float32((at.Y-y0)*k))})
}

func TestFourCornersStraighten(t *testing.T) {
	b := pagestest.New(t)
	id, pic := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	k := pic.Truth.PxPerMM / 2 // a card twice as large would not lie on the photo
	// A card that lies under the slice as it were, from its lower left on.
	card := []crumb.Point{{X: 30, Y: 30 + crumb.CardShortMM*k}, {X: 30 + crumb.CardLongMM*k, Y: 30}, {X: 30, Y: 30}, {X: 30 + crumb.CardLongMM*k, Y: 30 + crumb.CardShortMM*k}}
	b.Press("T")
	for _, at := range card {
		tapAt(p, at)
	}
	settle(b, p)
	s := photoOf(t, b, id).Slice
	if s == nil || len(s.Corners) != 4 || s.Corners[0].X > 31 || s.Corners[0].Y > 31 || s.WideMM != crumb.A4LongMM {
		t.Fatalf("the corners in the journal are %+v", s)
	}
	p.setting.sheet.of.OnChanged(1)
	settle(b, p)
	if p.summary == nil || !p.summary.Straightened || p.summary.Relative || math.Abs(p.summary.PxPerMM/k-1) > 0.01 {
		t.Fatalf("by a card: %+v", p.summary)
	}
	if len(p.picture.corners.Points()) != 4 || !strings.Contains(p.figures.taken.String(), "straightened by four corners") {
		t.Errorf("%d corners, %q", len(p.picture.corners.Points()), p.figures.taken.String())
	}
	size := p.picture.view.PictureSize()
	b.Press("V")
	if p.picture.view.PictureSize() == size || len(p.picture.corners.Points()) != 0 || len(p.picture.outline.Points()) != 0 {
		t.Error("V does not show the straightened picture by itself")
	}
	b.Press("O")
	if p.picture.view.PictureSize() != size {
		t.Error("a tool draws on the straightened picture")
	}
	b.Press("Esc")
	// Crossed corners are refused in words, and nothing moves.
	was := photoOf(t, b, id).Slice.Corners
	crossed := p.picture.corners.Points()
	crossed[0], crossed[1] = crossed[1], crossed[0]
	p.picture.corners.SetPoints(crossed)
	p.picture.corners.OnChanged(crossed, true)
	settle(b, p)
	if now := photoOf(t, b, id).Slice.Corners; now[0] != was[0] || !strings.Contains(p.told.String(), "corner") {
		t.Errorf("crossed corners: %v, told %q", now, p.told.String())
	}
	if got := p.picture.corners.Points(); got[0].X != was[0].X {
		t.Error("the corners do not go back to where they were")
	}
	for range 2 {
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
		settle(b, p)
	}
	if s := photoOf(t, b, id).Slice; s != nil && len(s.Corners) != 0 || p.summary.Straightened {
		t.Errorf("after undo: %+v", s)
	}
}
