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
func (p *program) saveCrumb(home string) (count int, open float64, err error) {
	if err := p.steps(p.keys("2"), p.saying("outline drawn by hand"), p.saying("cells/cm²")); err != nil {
		return 0, 0, err
	}
	if count, err = p.cellCount(); err != nil {
		return 0, 0, err
	}
	saving := func(key, name string) gesture {
		return func() error {
			return p.steps(
				p.keys("x"), p.seeing("What to save?"), p.picture("what-to-save"), p.keys(key),
				p.pressing("ferry-loaf-gorse-crumb"), p.keys("ctrl+a"), p.typing(name), p.picture("save-as"), p.pressingLast("Save"), // the sheet's, not that of the page below

				p.seeing("Saved as "+filepath.Join(home, name)), p.picture("saved"),
			)
		}
	}
	if err := p.steps(saving("2", cellsFile), saving("3", maskFile)); err != nil {
		return 0, 0, err
	}
	things, err := p.things()
	if err != nil {
		return 0, 0, err
	}
	for _, t := range things {
		if share := openShare.FindStringSubmatch(t.Text); share != nil {
			open, err := strconv.ParseFloat(share[1], 64)
			return count, open / 100, err
		}
	}
	return 0, 0, errors.New("the page does not say how open the crumb is")
}

// checkCells looks that a table of cells has a row for each of them.
func checkCells(path string, count int) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return err
	}
	if len(rows) != 1+count || rows[0][3] != "area_mm2" {
		return fmt.Errorf("%d rows for %d cells, under %v", len(rows)-1, count, rows[0])
	}
	return nil
}

// checkMask looks that a mask has the photo's size, is black, grey and white alone, and is
// as open as the page says.
func checkMask(path string, size image.Point, open float64) error {
	mask, err := readPNG(path)
	if err != nil {
		return err
	}
	if mask.Bounds().Size() != size {
		return fmt.Errorf("the mask is %v, the photo %v", mask.Bounds().Size(), size)
	}
	levels := map[uint8]float64{}
	for y := range size.Y {
		for x := range size.X {
			levels[color.GrayModel.Convert(mask.At(x, y)).(color.Gray).Y]++
		}
	}
	if len(levels) != 3 || levels[0] == 0 {
		return fmt.Errorf("the mask has the grey levels %v", levels)
	}
	if got := levels[255] / (levels[255] + levels[96]); math.Abs(got-open) > 0.006 { // whole per cent are shown
		return fmt.Errorf("the mask is %.3f open, the page says %.2f", got, open)
	}
	return nil
}

// crumbAgain looks into the demonstration's journal that the killed program left, and
// opens it in the window from another place, since the next start clears away what a
// killed demonstration left: what was measured is there.
func (p *program) crumbAgain(temp string, count int) error {
	left, err := filepath.Glob(filepath.Join(temp, "twinloaf-demo-*"))
	if err != nil || len(left) != 1 {
		return fmt.Errorf("the demonstration's journal is not in %s: %v, %w", temp, left, err)
	}
	if err := checkMeasures(left[0], count); err != nil {
		return err
	}
	kept := filepath.Join(filepath.Dir(p.clock), "kept")
	if err := os.Rename(left[0], kept); err != nil {
		return err
	}
	again := newProgram(p.screen, p.exe, filepath.Dir(p.clock), kept)
	again.home, again.temp = p.home, p.temp
	if err := again.start(); err != nil {
		return err
	}
	err = again.steps(
		again.keys("ctrl+3"), again.pressing(crumbA), again.seeing("What went in"), again.keys("m"),
		again.saying(fmt.Sprintf("%d cells", count)), again.saying("outline drawn by hand"), again.saying("Sensitivity normal"),
		again.settled("found-again"),
	)
	if err != nil {
		return err
	}
	return again.quit()
}

// checkMeasures looks that a journal keeps what was measured by hand.
func checkMeasures(folder string, count int) error {
	photos, err := records[journal.Photo](folder)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(photos, func(ph *journal.Photo) bool { return ph.Slice != nil && ph.Slice.Drawn })
	if i < 0 {
		return errors.New("no outline was kept")
	}
	return inJournal(folder, func(j *journal.Journal) error {
		s, ok, err := journal.CrumbMeasures(j, photos[i])
		if err != nil || !ok {
			return fmt.Errorf("the measures were not kept: %w", err)
		}
		if s.Counted != count || s.Sensitivity != 0 || s.Relative || s.Method != crumb.MethodVersion {
			return fmt.Errorf("kept were %d cells of %d, at %v", s.Counted, count, s.Sensitivity)
		}
		return nil
	})
}
