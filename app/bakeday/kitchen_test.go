package bakeday

import (
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// Two doughs of one day stand on one clock with the oven, the refrigerator and the hands;
// where both need the oven that is said, and what comes next in either is listed. One dough
// alone, or another of next week, needs no such thing.
func TestAllDoughsOnOneClock(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	putDough(b, "Next week's", journal.Planned, b.Clock.AddDate(0, 0, 7))
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	if len(f.kitchen.Objects) > 0 {
		t.Error("one dough alone is put on a clock with others")
	}
	putDough(b, "Deck rye", journal.Planned, b.Clock.Add(20*time.Minute))
	b.Wait()
	f.read(nil)
	lanes := pagestest.All[*kit.DayLanes](f.kitchen)
	if len(lanes) != 1 {
		t.Fatalf("%d timelines", len(lanes))
	}
	var words []string
	for _, text := range pagestest.All[*kit.Text](f.kitchen) {
		words = append(words, text.String())
	}
	all := strings.Join(words, "\n")
	for _, want := range []string{"Ferry loaf and Deck rye both need the oven", "Mix, Ferry loaf", "Mix, Deck rye", "one oven and one pair of hands"} {
		if !strings.Contains(all, want) {
			t.Errorf("it does not say %q:\n%s", want, all)
		}
	}
	if strings.Contains(all, "Next week") {
		t.Errorf("next week's dough is among them:\n%s", all)
	}
}
