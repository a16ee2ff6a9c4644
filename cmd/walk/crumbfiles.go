package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"

	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// The names under which the walk saves what it measured.
const (
	cellsFile = "gorse cells.csv"
	maskFile  = "gorse mask.png"
)

// openShare is how the page's heading begins.
var openShare = regexp.MustCompile(`^(?:Perhaps )?(\d+)(?: ± \d+)? % open`)

// saveCrumb goes to the page of the photo that was measured by hand, and saves its cells
// and its mask in the home folder. It gives the count of cells and the open share that
// the page shows.
func (p *program) saveCrumb(home string) (count int, open float64) {
	p.steps(p.keys("2"), p.saying("outline drawn by hand"), p.saying("cells/cm²"))
	count = p.cellCount()
	saving := func(key, name string) gesture {
		return func() {
			p.steps(
				p.keys("x"), p.seeing("What to save?"), p.picture("what-to-save"), p.keys(key),
				p.pressing("ferry-loaf-gorse-crumb"), p.keys("ctrl+a"), p.typing(name), p.picture("save-as"), p.pressingLast("Save"), // the sheet's, not that of the page below
				p.seeing("Saved as "+filepath.Join(home, name)), p.picture("saved"),
			)
		}
	}
	p.steps(saving("2", cellsFile), saving("3", maskFile))
	for _, t := range p.things() {
		if share := openShare.FindStringSubmatch(t.Text); share != nil {
			return count, must(strconv.ParseFloat(share[1], 64)) / 100
		}
	}
	panic(errors.New("the page does not say how open the crumb is"))
}

// checkCells looks that a table of cells has a row for each of them.
func checkCells(path string, count int) {
	f := must(os.Open(path))
	defer f.Close()
	rows := must(csv.NewReader(f).ReadAll())
	failIf(len(rows) != 1+count || rows[0][3] != "area_mm2", "%d rows for %d cells, under %v", len(rows)-1, count, rows[0])
}

// checkMask looks that a mask has the photo's size, is black, grey and white alone, and is
// as open as the page says.
func checkMask(path string, size image.Point, open float64) {
	mask := readPNG(path)
	failIf(mask.Bounds().Size() != size, "the mask is %v, the photo %v", mask.Bounds().Size(), size)
	levels := map[uint8]float64{}
	for y := range size.Y {
		for x := range size.X {
			levels[color.GrayModel.Convert(mask.At(x, y)).(color.Gray).Y]++
		}
	}
	failIf(len(levels) != 3 || levels[0] == 0, "the mask has the grey levels %v", levels)
	got := levels[255] / (levels[255] + levels[96]) // whole per cent are shown
	failIf(math.Abs(got-open) > 0.006, "the mask is %.3f open, the page says %.2f", got, open)
}

// crumbAgain looks into the demonstration's journal that the killed program left, and
// opens it in the window from another place, since the next start clears away what a
// killed demonstration left: what was measured is there.
func (p *program) crumbAgain(temp string, count int) {
	left, err := filepath.Glob(filepath.Join(temp, "twinloaf-demo-*"))
	failIf(err != nil || len(left) != 1, "the demonstration's journal is not in %s: %v, %w", temp, left, err)
	checkMeasures(left[0], count)
	kept := filepath.Join(filepath.Dir(p.clock), "kept")
	check(os.Rename(left[0], kept))
	again := newProgram(p.screen, p.exe, filepath.Dir(p.clock), kept)
	again.home, again.temp = p.home, p.temp
	again.start()
	again.steps(
		again.keys("ctrl+3"), again.pressing(crumbA), again.seeing("What went in"), again.keys("m"),
		again.saying(fmt.Sprintf("%d cells", count)), again.saying("outline drawn by hand"), again.saying("Sensitivity normal"),
		again.settled("found-again"),
	)
	again.quit()
}

// checkMeasures looks that a journal keeps what was measured by hand.
func checkMeasures(folder string, count int) {
	photos := records[journal.Photo](folder)
	i := slices.IndexFunc(photos, func(ph *journal.Photo) bool { return ph.Slice != nil && ph.Slice.Drawn })
	failIf(i < 0, "no outline was kept")
	inJournal(folder, func(j *journal.Journal) {
		s, ok, err := journal.CrumbMeasures(j, photos[i])
		failIf(err != nil || !ok, "the measures were not kept: %w", err)
		failIf(s.Counted != count || s.Sensitivity != 0 || s.Relative || s.Method != crumb.MethodVersion, "kept were %d cells of %d, at %v", s.Counted, count, s.Sensitivity)
	})
}
