package bakeday

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// Beside a day that is over stand its other photos, the bakes of its name before it and, where
// there is something to draw, what was measured of the dough.
func TestADayThatIsOverShowsWhatIsKnownOfIt(t *testing.T) {
	const measured, before = "What was measured of the dough", "This bake and those before it"
	b := pagestest.New(t)
	b.Window.Resize(fyne.NewSize(2560, 1440))
	first := putDough(b, "Ferry loaf", journal.Finished, b.Clock.AddDate(0, 0, -9))
	second := putDough(b, "Ferry loaf", journal.Finished, b.Clock.AddDate(0, 0, -2))
	putDough(b, "Ferry loaf", journal.Planned, b.Clock.AddDate(0, 0, -5))
	putDough(b, "Deck rye", journal.Finished, b.Clock.AddDate(0, 0, -5))
	b.Put(func(tx *journal.Tx) error {
		for i, role := range []journal.Role{journal.RoleCrumb, journal.RoleCrust} {
			if err := journal.Put(tx, &journal.Photo{Owner: journal.RefOf(second), Hash: strings.Repeat("ab"[i:i+1], 64), Role: role, Added: b.Clock}); err != nil {
				return err
			}
		}
		return journal.Change(tx, second.ID, func(x *journal.Bake) {
			x.Steps[0].At, x.Steps[0].End = x.At, x.At.Add(3*time.Hour)
			x.Steps[0].Dough, x.Steps[0].Rise = new(formula.Celsius(25)), new(1.5)
		})
	})
	says := func(id journal.ID) string {
		b.Show(open, pages.At(pages.BakeDay, id))
		b.Wait()
		return b.Texts()
	}
	if said := says(first.ID); strings.Contains(said, measured) || strings.Contains(said, before) {
		t.Errorf("the first bake, of which nothing was measured, says\n%s", said)
	}
	said := says(second.ID)
	if !strings.Contains(said, measured) || !strings.Contains(said, before) || !strings.Contains(said, "crust") || strings.Contains(said, "Deck rye") {
		t.Errorf("the second says\n%s", said)
	}
	if n := strings.Count(said, "Ferry loaf\n"); n != 3 { // above its heading, and in two rows
		t.Errorf("Ferry loaf is named %d times", n)
	}
	if tiles := pagestest.All[*kit.PhotoTile](b.Page().(*page).box); len(tiles) != 2 {
		t.Errorf("%d photos are shown, want 2", len(tiles))
	}
	b.Put(func(tx *journal.Tx) error { // what was measured within half an hour makes no chart
		return journal.Change(tx, second.ID, func(x *journal.Bake) { x.Steps[0].End = x.At.Add(30 * time.Minute) })
	})
	if said := says(second.ID); strings.Contains(said, measured) {
		t.Errorf("measured for half an hour it says\n%s", said)
	}
}

// In a very wide window the bakes before it stand beside what is read of a day under way, and nowhere
// over the time that runs down.
func TestAVeryWideDayShowsTheBakesBeforeIt(t *testing.T) {
	b := pagestest.New(t)
	putDough(b, "Ferry loaf", journal.Finished, b.Clock.AddDate(0, 0, -9))
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, putDough(b, "Ferry loaf", journal.Running, b.Clock).ID)))
	for width, seen := range map[float32]bool{1280: false, 1772: false, 2412: true} {
		b.Window.Resize(fyne.NewSize(width, 1200))
		b.Wait()
		if f.earlier.Visible() != seen || strings.Contains(b.Texts(), "This bake and those before it") != seen {
			t.Errorf("%v wide, it is seen: %v, want %v", width, f.earlier.Visible(), seen)
		}
		at := b.App.Driver().AbsolutePositionForObject
		if seen && at(f.earlier).X < at(f.count).X+f.count.MinSize().Width {
			t.Errorf("%v wide, they begin at %v and the time ends at %v", width, at(f.earlier).X, at(f.count).X+f.count.MinSize().Width)
		}
	}
}
