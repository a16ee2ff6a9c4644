package cultures

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
	"twinloaf/journal/measure"
)

// Rows of all that was recorded: heads, a feeding, a reading with an alarm.
func TestLookOfEntries(t *testing.T) {
	u := measure.Units{}
	entries := []entry{
		{day: "Wed 4 Mar", clock: "19:12", sort: readEntry, what: "Read", figures: entryFigures{riseFigure: "1.80"}, said: "Mould", alarm: true},
		{day: "Tue 3 Mar", clock: "18:12", sort: fedEntry, what: "Fed 1:4:4", figures: entryFigures{keptFigure: "10", flourFigure: "40", waterFigure: "40"}, said: "smelled of apples"},
	}
	looktest.Renders(t, "entries", fyne.NewSize(860, 150), func() fyne.CanvasObject {
		columns := columnsOf(entries, u)
		head := newEntryRow(&columns)
		head.setHeads()
		rows := kit.Stack(4, head)
		for i, e := range entries {
			row := newEntryRow(&columns)
			row.set(e, e.day, i > 0, u)
			rows.Add(row)
		}
		return rows
	})
}
