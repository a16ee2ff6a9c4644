package main

import (
	"os"
	"strconv"
	"time"

	"twinloaf/journal"
)

// fortnight is the greatest rise after each day's feeding of a culture that
// begins as many do: an early burst, a pause, then doubling.
var fortnight = []float64{1.05, 1.6, 1.9, 1.1, 1.05, 1.15, 1.4, 1.6, 1.8, 1.95, 2.1, 2.2, 2.3, 2.4}

// chartACulture begins a culture and follows it through fourteen days by a clock
// that the walk moves, until it is ready.
func chartACulture(w *walk) {
	p, folder := w.program()
	begin := time.Date(2026, 3, 2, 8, 0, 0, 0, time.Local)
	p.steps(
		p.startingAt(begin),
		p.keys("ctrl+2"),
		p.seeing("A culture is flour and water kept alive"),
		p.picture("no-culture"),
		p.keys("n"), p.seeing("what you call it"),
		p.typing("Gorse"),
		p.picture("begin"),
		p.keys("ctrl+Return"),
		p.seeing("Gorse, day 1"),
	)
	for i, peak := range fortnight {
		p.aDay(begin.AddDate(0, 0, i), i, peak)
	}
	p.steps(
		p.seeing("Ready to bake with"),
		p.seeing("is usual after an early burst"), // what the lull meant is told afterwards, too
	)
	p.kill()
	checkCulture(folder)
	p.start()
	p.steps(p.keys("ctrl+2"), p.seeing("Gorse"), p.picture("again"))
	p.quit()
}

// aDay feeds in the morning as the day before, and reads the height twice.
func (p *program) aDay(morning time.Time, i int, peak float64) {
	p.setClock(morning)
	if i > 0 {
		p.steps(p.keys("g"), p.seeing("Fed Gorse"))
	}
	for _, r := range []struct {
		after time.Duration
		rise  float64
	}{{3 * time.Hour, 1 + (peak-1)/2}, {6 * time.Hour, peak}} {
		p.setClock(morning.Add(r.after))
		p.steps(
			p.keys("r"), p.seeing("Never taste a culture"),
			p.keys("s", "h"), // sour, and the height
			p.typing(strconv.FormatFloat(r.rise, 'f', 2, 64)+"x"), p.keys("ctrl+Return"),
			p.missing("Never taste a culture"),
		)
	}
	switch i + 1 {
	case 3:
		p.steps(p.seeing("The early burst"), p.picture("burst"))
	case 5:
		p.steps(p.seeing("The usual lull"), p.picture("pause"))
	case 14:
		p.picture("fortnight")()
	}
}

// checkCulture looks into the journal that the killed program left.
func checkCulture(folder string) {
	must(os.Stat(folder))
	only[journal.Culture](folder)
	feedings, readings := records[journal.Feeding](folder), records[journal.Reading](folder)
	failIf(len(feedings) != len(fortnight) || len(readings) != 2*len(fortnight), "the journal holds %d feedings and %d readings", len(feedings), len(readings))
}
