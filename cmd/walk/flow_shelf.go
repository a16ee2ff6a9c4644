package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
)

// leastSpelt is the share that is asked for on the shelf, in percent. Some bakes have
// just that much, and count.
const leastSpelt = 20

// browseByFlour looks for loaves by their flour in a winter of bakes, keeps that view
// over a power cut, lays two loaves side by side, and asks what the record shows.
func browseByFlour(w *walk) {
	p, folder := w.program()
	fillShelf(folder)
	want := countSpelt(folder, leastSpelt)
	p.home = filepath.Join(w.dir, "home") // where the dialogue for saving begins
	least := strconv.Itoa(leastSpelt)
	found := fmt.Sprintf("%d of %d bakes", want, shelfBakes)
	p.steps(
		func() { check(os.Mkdir(p.home, 0o755)) }, p.startingAt(shelfNow),
		p.keys("ctrl+5"),
		p.seeing(fmt.Sprintf("%d bakes on the shelf", shelfBakes)),
		p.picture("shelf"),
		p.pressing("Spelt"),
		p.seeing("Bakes with spelt"),
		p.pressing("any"), p.typing(least),
		p.seeing("Bakes with spelt, at least "+least),
		p.seeing(found),
		p.keys("Tab"),
		p.picture("by-spelt"),
		p.pressing("save this view"), p.seeing("Save this view"),
		p.typing("Much spelt"), p.picture("keeping"), p.keys("Return"),
		p.seeing("forget this view"),
		p.kill, // the view was kept before it was said to be
		p.start,
		p.keys("ctrl+5"),
		p.seeing("all bakes"),
		p.pressing("saved views"), p.picture("kept-views"), p.pressing("Much spelt"),
		p.seeing("Bakes with spelt, at least "+least),
		p.seeing(found),
		p.picture("view-again"),
		p.pressing("spelt, at least"), // the words of the filter take it off
		p.seeing("all bakes"),
		p.compareTwo, p.askTheRecord, p.takeTheChart,
		p.quit,
	)
}

// compareTwo sorts the shelf, opens a loaf and comes back, and lays two side by side.
func (p *program) compareTwo() {
	p.steps(
		p.pressing("by date"), p.picture("orders"), p.pressing("by overall score"),
		p.seeing("highest first"),
		p.picture("sorted"),
		p.keys("g", "Right", "Return"),
		p.seeing("What went in"),
		p.picture("opened"),
		p.keys("alt+Left"),
		p.seeing("highest first"), // as it was left
		p.keys("c"),
		p.seeing("Select two to four bakes first"),
		p.keys("g", "Home", "Right", "space", "Right", "Right", "space"),
		p.seeing("Compare 2"),
		p.picture("two-chosen"),
		p.keys("c"),
		p.seeing("differ between these two"), p.seeing("What differs"), p.seeing("hydration"),
		p.missing("Select two to four bakes first"), // said no longer than it is read
		p.settling(), p.picture("side-by-side"),
		func() { p.wheel(760, 640, 20) },
		p.picture("differences"),
		p.keys("alt+Left"),
		p.seeing("Compare 2"),
	)
}

// askTheRecord looks at what the record shows of wetter doughs, and goes to a bake
// from its point.
func (p *program) askTheRecord() {
	p.steps(
		p.keys("ctrl+6"),
		p.seeing("Wetter doughs went with higher scores"),
		p.seeing("Rank correlation"), p.seeing("the middle of the slopes"),
		p.seeing("What this cannot say"),
		p.settling(), p.picture("trend"),
		p.keys("g", "Right", "Right"),
		p.picture("a-point"),
		p.keys("Return"),
		p.seeing("What went in"),
		p.picture("bake-of-the-point"),
		p.keys("alt+Left"),
		p.seeing("Wetter doughs went with higher scores"),
		p.pressing("hydration"), p.picture("factors"), p.pressing("Flours"), p.pressing("share of spelt"),
		p.seeing("No trend of overall score with share of spelt"),
		p.settling(), p.picture("no-trend"),
		p.keys("ctrl+k"), p.typing("loaf 12"), p.seeing("Loaf 12"), p.picture("find"),
		p.keys("Return"),
		p.seeing("What went in"),
		p.keys("c"), p.seeing("Compare with which bake?"), p.settling(), p.picture("compare-with-which"),
		p.keys("g", "Return"), p.seeing("between these two"), p.picture("compared-with-the-likeliest"),
	)
}
