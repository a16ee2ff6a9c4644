package app

import (
	"slices"
	"strings"
	"testing"

	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// A page says nothing until it knows: opened with all work in the background held back,
// it says no word that is not there, too, once everything was read. What says that it is
// being read is no claim.
func TestNothingUntrueIsSaidWhileReading(t *testing.T) {
	a, j := maintest.App(t), demoJournal(t)
	w, loop := windowOn(t, a, j)
	places, _ := everyPlace(t, j)
	bakes, err := journal.All[journal.Bake](j)
	if err != nil {
		t.Fatal(err)
	}
	places = append(places, pages.Route{Name: pages.Compare, More: string(bakes[0].ID + " " + bakes[1].ID)},
		pages.Route{Name: pages.Compare, More: string(bakes[0].ID)})
	// What is measured and followed once is kept: that it goes on, the first time, is no claim.
	worked := fewer(append(crumbPlaces(t, j), seriesPlace(t, j)))
	for _, p := range worked {
		w.Go(p)
		w.env.Wait()
	}
	places = append(places, worked...)
	// What is said meanwhile: that it is being read, and how that is ended, what was asked, and a state that the
	// record itself has.
	meanwhile := []string{"Working it out…", "Unsealed", "Measuring", "Comparing", "The pictures are being looked at", "Stop", "W"}
	for _, p := range places {
		var before []string
		loop.Do(func() { // what others hand over waits until this has returned
			w.Go(p)
			before = outline.Texts(outline.Of(w.win))
		})
		w.env.Wait()
		after := strings.Join(outline.Texts(outline.Of(w.win)), "\n")
		for _, words := range before {
			if !strings.Contains(after, words) && !slices.Contains(meanwhile, words) && !strings.HasSuffix(words, "?") {
				t.Errorf("%s %s: it says %q before it has read, and no longer then", p.Name, p.More, words)
			}
		}
	}
}
