package today

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/looktest"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// The day band: a culture that rises, one that is overdue, a dough with its steps.
func TestLookOfTheBand(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	at := func(hours float64) time.Time { return now.Add(time.Duration(hours * float64(time.Hour))) }
	rise := lane{name: "Harbour", of: "h", look: charts.SeriesStyle{Hue: 0, Shape: 0}, fed: at(-1), handle: at(8), ripe: span{at(4), at(6)}, words: "ripe 13:00 to 15:00, approximate"}
	for h := -1.0; h < 12; h += 0.5 {
		up := max(0, 1.3-(h-5)*(h-5)/28)
		rise.curve = append(rise.curve, curvePoint{at(h), 0.8 * up, up, 1.2 * up})
	}
	b := band{from: at(-3), to: at(33), now: now, nights: []span{{at(13.5), at(21.5)}}, lanes: []lane{
		rise,
		{name: "Gorse", of: "g", look: charts.SeriesStyle{Hue: 1, Shape: 1}, handle: now, by: at(-2), late: true, words: "no forecast yet: feed it and take readings"},
		{name: "Ferry loaf", bake: "b", ticks: []tick{{at(-1), true}, {at(0.5), false}}, blocks: []block{
			{span: span{at(-2), at(3)}, kind: plan.Bulk, words: "Bulk"}, {span: span{at(3), at(20)}, kind: plan.ColdRest, words: "Cold proof"},
			{span: span{at(20), at(20.8)}, kind: plan.BakeCovered, words: "Bake, lid on"}, {span: span{at(21), at(23)}, kind: plan.Cool, words: "Cool"}}},
	}}
	looktest.Renders(t, "band", fyne.NewSize(900, b.tall()+40), func() fyne.CanvasObject {
		v := newBandView(func(journal.ID, time.Time) {}, func(lane) {})
		v.show(b, measure.Units{})
		return v
	})
}
