package pages

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"image/jpeg"
	"strings"

	"twinloaf/app/kit"
	"twinloaf/assets"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/paper"
)

// Paper is how this baker's pages look.
func (e *Env) Paper() paper.Style {
	return paper.Style{
		Fonts:  paper.Fonts{Text: assets.TextRegular, Bold: assets.TextBold, Heading: assets.Heading},
		Letter: e.Units().Letter,
		Made:   e.Now(),
	}
}

// FileName makes a name for a file out of what the baker calls a thing, or else out
// of another, with its ending.
func FileName(name, other, ending string) string {
	const most = 80 // runes; some systems take no more than 255 bytes
	clean := []rune(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, strings.TrimSpace(name)))
	out := cmp.Or(strings.Trim(string(clean[:min(most, len(clean))]), ". "), other)
	return out + ending
}

// DrawChart puts a chart on a page as lines and words, so many units large.
func DrawChart(page *paper.Document, figure charts.Spec, u measure.Units, width, height int) error {
	chart, err := kit.PrintedChart(figure, u)
	if err != nil {
		return err
	}
	page.Drawing(float64(width), float64(height), func(c *paper.Canvas) error { return chart.Draw(c, width, height) })
	return nil
}

// printSide is the longer side of a photo on paper, in pixels: 300 to the inch for half
// the width of a page.
const printSide = 1100

// printPhoto makes a photo ready for a page. Its pixels are written anew, so that nothing
// its file tells besides, such as the place, gets onto the page.
func printPhoto(ctx context.Context, j *journal.Journal, p *journal.Photo, caption string) (paper.Photo, error) {
	img, err := j.FullSize(ctx, p.Hash, printSide)
	if err != nil {
		return paper.Photo{}, err
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 88}); err != nil {
		return paper.Photo{}, fmt.Errorf("printing %s: %w", p.Name, err)
	}
	return paper.Photo{Data: b.Bytes(), Width: img.Rect.Dx(), Height: img.Rect.Dy(), Caption: caption}, nil
}

// PrintedRow is about how high a heading is with a row of photos, in millimetres.
const PrintedRow = 110

// PrintPhotos puts photos on a page, two in a row, each with its caption. One that cannot
// be read is told in its place, and the others are printed.
func (e *Env) PrintPhotos(page *paper.Document, photos []*journal.Photo, caption func(*journal.Photo) string) {
	var ready []paper.Photo
	flush := func() { page.Photos(ready, 2); ready = nil }
	for _, p := range photos {
		one, err := printPhoto(e.ctx, e.Journal, p, caption(p))
		if err != nil {
			flush()
			page.Small(e.Units().ErrorText(err))
			continue
		}
		if ready = append(ready, one); len(ready) == 2 {
			flush()
		}
	}
	flush()
}
