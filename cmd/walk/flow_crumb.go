package main

import (
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"twinloaf/app/outline"
)

// The two loaves of the demonstration whose crumb is measured, and how wide the first
// one's slice is.
const (
	crumbA     = "Ferry loaf, Gorse"
	crumbB     = "Ferry loaf, Harbour"
	crumbAWide = "126"
)

// measureTwo measures two crumb photos of the demonstration, the first drawn round
// by hand and the second as it is found, lays them side by side, saves cells and mask,
// pulls the plug, and finds what was measured.
func measureTwo(w *walk) {
	home, temp := filepath.Join(w.dir, "home"), filepath.Join(w.dir, "temp")
	check(os.Mkdir(home, 0o755))
	check(os.Mkdir(temp, 0o755))
	p := newProgram(w.screen, w.exe, w.dir, "", "-demo")
	p.home, p.temp = home, temp
	p.steps(
		p.startingAt(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)),
		p.measureByHand, p.measureAsFound, p.compareCrumbs,
	)
	count, open := p.saveCrumb(home)
	checkCells(filepath.Join(home, cellsFile), count)
	checkMask(filepath.Join(home, maskFile), image.Pt(1120, 840), open)
	p.kill()
	p.crumbAgain(temp, count)
}

// measureByHand draws round the slice, says how long it is, nudges the sensitivity
// and takes the cells off the picture and back.
func (p *program) measureByHand() {
	p.steps(
		p.seeing("On the bench"), p.keys("ctrl+3"), p.pressing(crumbA), p.seeing("What went in"), p.keys("m"),
		p.saying("slice found by itself"), p.settled("as-found"),
		p.keys("o"), p.seeing("Drag round the slice"), p.drawRound, p.saying("outline drawn by hand"),
		p.pressing("the slice's width"), // no line, until one is drawn
		p.keys("r"), p.seeing("Drag along a length that you know"), p.drawAcross,
		p.keys("ctrl+a"), p.typing(crumbAWide), p.keys("Tab"),
		p.saying("7.5 pixels to the mm"), p.picture("by-hand"),
		p.pressing("Sensitivity"), p.keys("plus"), p.saying("At +0.1 rather than 0: open area"),
		p.keys("plus"), p.saying("At +0.2 rather than +0.1: open area"), p.picture("nudged"),
		p.keys("minus"), p.saying("At +0.1 rather than +0.2"), p.keys("minus"), p.saying("At 0 rather than +0.1"),
		p.cellsGoAndCome,
	)
}

// measureAsFound opens the second loaf's photo, whose slice is found by itself.
func (p *program) measureAsFound() {
	p.steps(
		p.keys("ctrl+3"), p.pressing(crumbB), p.seeing("What went in"), p.keys("m"),
		p.saying("slice found by itself"), p.saying("cells/cm²"), p.settled("second"),
	)
}

// compareCrumbs lays the second beside the first as it was measured by hand: the
// older of the two photos of that slice.
func (p *program) compareCrumbs() {
	p.steps(
		p.keys("s"), p.seeing("Compare with which photo?"), p.settled("which"),
		p.pressingSecond(crumbA),
		p.seeing("No difference is sure"), p.saying("Judged by 2 slices that were photographed again"),
		p.saying("outline drawn by hand"), p.settled("side-by-side"),
		func() { p.wheel(760, 640, 8) }, p.saying("larger than retaking would give"), p.settled("figures-of-both"),
		func() { p.wheel(760, 640, 30) }, p.seeing("No sizes can be shown: they are withheld."), p.settled("sizes-of-both"),
	)
}

// photo gives the place of the shown photo in the window, which fills its view one
// way or the other: aspect is its width over its height.
func (p *program) photo(aspect float32) outline.Thing {
	for _, t := range p.things() {
		if t.Kind != "kit.PhotoView" {
			continue
		}
		w, h := t.W, t.W/aspect
		if h > t.H {
			w, h = t.H*aspect, t.H
		}
		return outline.Thing{X: t.X + (t.W-w)/2, Y: t.Y + (t.H-h)/2, W: w, H: h}
	}
	panic(errors.New("no photo is shown"))
}

// drawRound drags round the slice: a dome over a flatter floor.
func (p *program) drawRound() {
	at := p.photo(4.0 / 3)
	var path [][2]int
	for k := range 49 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 48)
		up, flat := 0.65, 1.0
		if sin > 0 {
			up, flat = 0.085, 0.5
		}
		x := 0.5 + 0.417*math.Copysign(math.Pow(math.Abs(cos), 0.6), cos)
		y := 0.775 + up*math.Copysign(math.Pow(math.Abs(sin), flat), sin)
		path = append(path, [2]int{int(float64(at.X) + x*float64(at.W)), int(float64(at.Y) + y*float64(at.H))})
	}
	p.drag(path)
}

// drawAcross drags a line from one end of the slice to the other.
func (p *program) drawAcross() {
	at := p.photo(4.0 / 3)
	y := int(at.Y + 0.775*at.H)
	from, to := int(at.X+0.08*at.W), int(at.X+0.92*at.W)
	p.drag([][2]int{{from, y}, {(from + to) / 2, y}, {to - 4, y}, {to, y}})
}

// cellsGoAndCome takes the cells off the picture and lays them over it again.
func (p *program) cellsGoAndCome() {
	at := p.photo(4.0 / 3)
	at.X, at.Y, at.W, at.H = float32(p.scale)*at.X, float32(p.scale)*at.Y, float32(p.scale)*at.W, float32(p.scale)*at.H // in pixels
	time.Sleep(400 * time.Millisecond)
	with := p.shot("cells-on")
	n := p.afterC("cells-off", with, at, func(n float64) bool { return n >= 0.05 })
	failIf(n < 0.05, "without the cells only %.1f %% of the picture looks different", 100*n)
	n = p.afterC("cells-on-again", with, at, func(n float64) bool { return n <= 0.01 })
	failIf(n > 0.01, "the cells came back unlike in %.1f %% of the picture", 100*n)
}

// afterC presses C and gives how much of the photo then looks otherwise than before: as soon
// as it is as wanted, or what it is after a while.
func (p *program) afterC(name string, before image.Image, at outline.Thing, wanted func(part float64) bool) float64 {
	p.key("c")
	for deadline := time.Now().Add(10 * time.Second); ; {
		time.Sleep(400 * time.Millisecond)
		now := p.shot(name)
		if n := unlike(before, now, at); wanted(n) || time.Now().After(deadline) {
			return n
		}
	}
}

var countOfCells = regexp.MustCompile(`(\d+) cells ·`)

// cellCount reads how many cells the page says were measured.
func (p *program) cellCount() int {
	texts := p.texts()
	if m := countOfCells.FindStringSubmatch(strings.Join(texts, "")); m != nil {
		return must(strconv.Atoi(m[1]))
	}
	panic(fmt.Errorf("no count of cells is shown: %q", texts))
}
