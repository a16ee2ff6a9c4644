package cultures

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
	"twinloaf/journal/measure"
)

// Rows of all that was recorded: heads, a feeding, a reading with an alarm.
func TestLookOfEntries(t *testing.T) {
	now := time.Date(2026, 3, 4, 20, 12, 0, 0, time.UTC)
	u := measure.Units{}
	entries := []entry{
		{at: now.Add(-time.Hour), sort: readEntry, what: "Read", figures: entryFigures{riseFigure: "1.80"}, said: "Mould", alarm: true},
		{at: now.Add(-26 * time.Hour), sort: fedEntry, what: "Fed 1:4:4", figures: entryFigures{keptFigure: "10", flourFigure: "40", waterFigure: "40"}, said: "smelled of apples"},
	}
	looktest.Renders(t, "entries", fyne.NewSize(860, 150), func() fyne.CanvasObject {
		columns := columnsOf(entries, now, u)
		head := newEntryRow(&columns)
		head.setHeads()
		rows := kit.Stack(4, head)
		for i, e := range entries {
			row := newEntryRow(&columns)
			row.set(e, entryDay(e.at, now, u), i > 0, u, now)
			rows.Add(row)
		}
		return rows
	})
}
