package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// Tiles sets things in rows of equal columns, as many as have at least a width but six at the most,
// so that a row ends where the page does and a wide window has larger pictures rather than more.
func Tiles(least, gap float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(&tilesLayout{least: least, gap: look.Space(gap)}, things...)
}

// tilesLayout remembers its width, from which its height follows.
type tilesLayout struct{ least, gap, width float32 }

const mostTiles = 6

// grownMost is how many times its least width a picture has at most: a single one would else
// fill the page.
const grownMost = 2.5

// columns is how many of n stand side by side in a width: no more than fill as many rows evenly,
// so that none stands alone in the last.
func (l *tilesLayout) columns(n int) int {
	most := max(1, min(n, mostTiles, int((l.width+l.gap)/(l.least+l.gap))))
	rows := max(1, (n+most-1)/most)
	return max(1, (n+rows-1)/rows)
}

func (l *tilesLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	seen := visible(things)
	width := float32(0)
	for _, o := range seen {
		width = max(width, o.MinSize().Width)
	}
	return fyne.NewSize(width, l.run(seen, nil))
}

func (l *tilesLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.run(visible(things), func(o fyne.CanvasObject, at fyne.Position, size fyne.Size) {
		Put(o, at, size)
	})
}

// heightAt is how high a thing is at a width: a picture that may grow keeps its shape.
func heightAt(o fyne.CanvasObject, width float32) float32 {
	h := o.MinSize().Height
	if fills(o) {
		size := o.(*PhotoTile).cell.size
		h += size.Height * max(0, width/size.Width-1)
	}
	return h
}

// fills says that a thing is a picture that may grow.
func fills(o fyne.CanvasObject) bool {
	t, ok := o.(*PhotoTile)
	return ok && t.cell.fills
}

// run walks the rows and gives the height they need; place may be nil.
func (l *tilesLayout) run(seen []fyne.CanvasObject, place func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	n := l.columns(len(seen))
	w := (l.width - float32(n-1)*l.gap) / float32(n)
	if len(seen) > 0 && fills(seen[0]) {
		w = min(w, grownMost*l.least)
	}
	y := float32(0)
	for from := 0; from < len(seen); from += n {
		row := seen[from:min(from+n, len(seen))]
		if place != nil {
			for _, o := range row {
				if _, ok := o.(labelled); ok {
					FitHeight(o, w) // its label may take more lines
				}
			}
		}
		tall, down := float32(0), lowered(row)
		for i, o := range row {
			tall = max(tall, down[i]+heightAt(o, w))
		}
		if place != nil {
			for i, o := range row {
				place(o, fyne.NewPos(float32(i)*(w+l.gap), y+down[i]), fyne.NewSize(w, tall-down[i]))
			}
		}
		y += tall + l.gap
	}
	return max(0, y-l.gap)
}
