package crumb

import (
	"strings"
	"testing"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal/crumb"
	"twinloaf/journal/journaltest/race"
)

// A cell is erased, two are joined, one is split and one added, each by one stroke of a tool that
// stays in hand, and each is taken back by itself.
func TestCellsAreMendedByHand(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	found := p.summary.Counted
	var some []crumb.Cell
	for _, c := range p.picture.result.Cells {
		if !c.AtEdge && c.Major < 1.3*c.Minor && c.Diameter > 3 {
			some = append(some, c)
		}
	}
	if len(some) < 5 {
		t.Fatalf("only %d cells to try on", len(some))
	}
	counts := []int{found}
	did := func(words string) {
		t.Helper()
		settle(b, p)
		if n := p.summary.Corrected; n != len(counts) {
			t.Errorf("%s: %d corrections are told, not %d", words, n, len(counts))
		}
		counts = append(counts, p.summary.Counted)
	}
	b.Press("D")
	tapAt(p, some[0].At)
	did("erased by a click")
	tapAt(p, some[1].At)
	did("erased by another")
	if counts[2] != found-2 {
		t.Errorf("two were erased, and of %d cells %d are left", found, counts[2])
	}
	b.Press("J")
	tapAt(p, some[2].At)
	tapAt(p, some[3].At)
	did("joined by two clicks")
	if counts[3] >= counts[2] {
		t.Errorf("joined: %d cells after %d", counts[3], counts[2])
	}
	b.Press("K")
	c, r := some[4].At, some[4].Diameter*p.summary.PxPerMM
	drag(p, crumb.Point{X: c.X - r, Y: c.Y}, c, crumb.Point{X: c.X + r, Y: c.Y})
	did("split by a drag")
	if counts[4] <= counts[3] {
		t.Errorf("split: %d cells after %d", counts[4], counts[3])
	}
	b.Press("P")
	at := some[0].At
	drag(p, crumb.Point{X: at.X - 8, Y: at.Y - 8}, crumb.Point{X: at.X + 8, Y: at.Y - 8}, crumb.Point{X: at.X + 8, Y: at.Y + 8}, crumb.Point{X: at.X - 8, Y: at.Y + 8})
	did("added by a drag")
	if !p.picture.pad.busy() || !strings.Contains(p.figures.taken.String(), "5 corrections by hand") {
		t.Errorf("the tool in hand: %v; %q", p.picture.pad.busy(), p.figures.taken.String())
	}
	b.Press("Esc")
	if p.picture.pad.busy() {
		t.Error("Esc does not put the tool down")
	}
	for i := len(counts) - 2; i >= race.Cases(0, len(counts)-2); i-- {
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
		settle(b, p)
		if p.summary.Counted != counts[i] || p.summary.Corrected != i {
			t.Errorf("undone to %d strokes: %d cells, %d corrections; there were %d", i, p.summary.Counted, p.summary.Corrected, counts[i])
		}
	}
	face := p.summary.FaceArea
	b.Press(".")
	settle(b, p)
	if grown := p.summary.FaceArea / face; !photoOf(t, b, id).Slice.Drawn || grown == 1 {
		t.Errorf("the outline is not wider: the face grew by %g", grown)
	}
}
