package main

import (
	"fmt"
	"strings"
	"time"

	"twinloaf/app/outline"
)

// mendCrumb straightens a crumb photo of the demonstration by the four corners of a sheet
// and takes that back; then it erases, joins and splits cells by hand, and takes that back
// stroke by stroke. At the end it looks at the crumb over the weeks.
func mendCrumb(w *walk) {
	p := newProgram(w.screen, w.exe, w.dir, "", "-demo")
	p.steps(
		p.startingAt(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)),
		p.straighten, p.mendCells, p.overTheWeeks,
	)
}

// overTheWeeks measures every crumb photo there is, reads how fit one is, and finds the course on a
// culture's page.
func (p *program) overTheWeeks() {
	p.steps(
		p.keys("Escape"), p.keys("ctrl+3"), p.keys("c"), p.seeing("For a good crumb photo"), p.settled("list"),
		p.keys("m"), p.allMeasured, p.settled("all-measured"),
		p.keys("ctrl+3"), p.pressing(crumbB), p.seeing("What went in"), p.settled("bake"),
		p.keys("ctrl+2"), p.pressing("Harbour"), p.reaching("Crumb over the weeks"),
		func() { p.wheel(760, 640, 10) }, p.settled("over-the-weeks"),
	)
}

// allMeasured waits until the list says so, which takes minutes.
func (p *program) allMeasured() {
	seen := p.seeing("All of them are measured.")
	for range 2 {
		if attempt(seen) == nil {
			return
		}
	}
	seen()
}

// reaching scrolls the page until a text is in sight.
func (p *program) reaching(text string) gesture {
	return func() { p.reach(text) }
}

func (p *program) straighten() {
	p.steps(
		p.seeing("On the bench"), p.keys("ctrl+3"), p.pressing(crumbA), p.seeing("What went in"), p.keys("m"),
		p.saying("slice found by itself"), p.settled("as-found"),
		p.keys("t"), p.seeing("Click the four corners"), p.picture("corner-tool"),
		p.tapping([2]float32{0.12, 0.1}, [2]float32{0.85, 0.08}, [2]float32{0.95, 0.93}, [2]float32{0.04, 0.95}),
		p.saying("straightened by four corners"), p.seeing("aslant; the figures are those from straight above"), p.settled("corners-set"),
		p.pressing("a bank card"), p.saying("straightened by four corners"), p.settled("a-card"),
		p.keys("v"), p.settled("straightened"), p.keys("v"), p.settled("as-taken"),
		p.keys("ctrl+z"), p.keys("ctrl+z"), p.saying("slice found by itself"), p.settled("taken-back"),
	)
}

// mendCells mends cells of the slice as it was found.
func (p *program) mendCells() {
	found := p.cellCount()
	one := [2]float32{0.185, 0.57} // the largest cell
	p.steps(
		p.keys("d"), p.seeing("Drag over cells that are none"), p.tapping(one), p.saying("1 correction by hand"), p.settled("erased"),
		p.keys("j"), p.seeing("Drag from one cell to the next"), p.stroking([2]float32{0.464, 0.583}, [2]float32{0.554, 0.592}), p.saying("2 corrections by hand"), p.settled("joined"),
		p.keys("k"), p.seeing("Drag across a cell"), p.stroking([2]float32{0.686, 0.55}, [2]float32{0.686, 0.669}), p.saying("3 corrections by hand"), p.settled("split"),
		p.keys("p"), p.seeing("Drag round a cell that was missed"),
		p.stroking([2]float32{0.155, 0.53}, [2]float32{0.225, 0.53}, [2]float32{0.225, 0.615}, [2]float32{0.155, 0.615}, [2]float32{0.155, 0.54}), p.saying("4 corrections by hand"), p.settled("added"),
		p.keys("Escape"),
		p.keys("ctrl+z"), p.saying("3 corrections by hand"), p.keys("ctrl+z"), p.saying("2 corrections by hand"),
		p.keys("ctrl+z"), p.saying("1 correction by hand"), p.keys("ctrl+z"),
		p.sayingNoMore("correction by hand"),
	)
	now := p.cellCount()
	failIf(now != found, "after all was taken back there are %d cells, not %d", now, found)
	p.steps(p.keys("period"), p.saying("outline drawn by hand"), p.settled("wider"), p.keys("ctrl+z"), p.saying("slice found by itself"))
}

// sayingNoMore waits until a text is gone from the page, in sight or not.
func (p *program) sayingNoMore(text string) gesture {
	return func() {
		p.wait(fmt.Sprintf("%q to go", text), func(things []outline.Thing) bool {
			return !strings.Contains(strings.Join(outline.Texts(things), ""), text)
		})
	}
}

// stroking drags from place to place of the shown photo, each as shares of its width and height.
func (p *program) stroking(places ...[2]float32) gesture {
	return func() {
		at := p.photo(4.0 / 3)
		var path [][2]int
		for k := 1; k < len(places); k++ {
			a, b := places[k-1], places[k]
			for s := range 9 {
				t := float32(s) / 8
				path = append(path, [2]int{int(at.X + (a[0]+t*(b[0]-a[0]))*at.W), int(at.Y + (a[1]+t*(b[1]-a[1]))*at.H)})
			}
		}
		p.drag(path)
	}
}

// tapping clicks places of the shown photo, each as shares of its width and height.
func (p *program) tapping(places ...[2]float32) gesture {
	return func() {
		at := p.photo(4.0 / 3)
		for _, q := range places {
			p.click(at.X+q[0]*at.W, at.Y+q[1]*at.H)
			time.Sleep(400 * time.Millisecond) // else two clicks are one double one
		}
	}
}
