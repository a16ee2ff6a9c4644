package bakes

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// Whoever writes down the bake of another day types hours alone: they are of that day, and
// past midnight of the next.
func TestHoursOfABakeAreThoseOfItsDays(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: time.Date(2026, 3, 2, 16, 54, 0, 0, time.UTC)} // it is the 4th
	put(b, bake)
	open(b, bake.ID)
	for _, step := range [][]string{{"mix", "16:30", "16:50"}, {"bulk", "20:00", "0:40"}, {"cold proof", "1:00", "9 pm"}, {"cool", "4 Mar 7:00", "8:30"}} {
		b.Press("S")
		for _, words := range step {
			write(b, words)
			press(b, fyne.KeyTab)
		}
		b.Window.Canvas().Unfocus()
	}
	got := pagestest.Stored[journal.Bake](b, bake.ID).Steps
	if len(got) != 4 {
		t.Fatalf("steps: %+v", got)
	}
	for i, want := range [][2]string{{"2 16:30", "2 16:50"}, {"2 20:00", "3 00:40"}, {"3 01:00", "3 21:00"}, {"4 07:00", "4 08:30"}} {
		if at, end := got[i].At.Format("2 15:04"), got[i].End.Format("2 15:04"); at != want[0] || end != want[1] {
			t.Errorf("step %d went from %s to %s, want %v", i+1, at, end, want)
		}
	}
}
