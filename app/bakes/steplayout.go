package bakes

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// stepLayout sets a step in columns; what comes after them, a fact and a note,
// stands beneath: the fact below the first column, the note below the others.
type stepLayout struct{}

// stepShares are the widths of the columns against each other.
var stepShares = []float32{2.2, 1.5, 1.5, 0.9, 0.9, 1, 0.3}

func newStepRow(things ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: stepLayout{}, Objects: things}
}

// widths gives the left edge and the width of each column.
func (stepLayout) widths(width float32) (left, wide []float32) {
	gap := look.Space(4)
	sum := float32(0)
	for _, s := range stepShares {
		sum += s
	}
	each := (width - gap*float32(len(stepShares)-1)) / sum
	x := float32(0)
	for _, s := range stepShares {
		left, wide = append(left, x), append(wide, s*each)
		x += s*each + gap
	}
	return left, wide
}

// heights gives the height of the columns, and of what stands beneath them.
func (stepLayout) heights(things []fyne.CanvasObject) (columns, beneath float32) {
	for i, o := range things {
		if h := o.MinSize().Height; i < len(stepShares) {
			columns = max(columns, h)
		} else {
			beneath = max(beneath, h)
		}
	}
	return columns, beneath
}

func (l stepLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	columns, beneath := l.heights(things)
	return fyne.NewSize(look.Space(160), columns+beneath)
}

func (l stepLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	left, wide := l.widths(size.Width)
	columns, _ := l.heights(things)
	first := things[0].MinSize().Height
	for i, o := range things {
		h := o.MinSize().Height
		switch {
		case i < len(stepShares):
			kit.Put(o, fyne.NewPos(left[i], max(0, (first-h)/2)), fyne.NewSize(wide[i], h))
		case i == len(stepShares):
			kit.Put(o, fyne.NewPos(0, columns), fyne.NewSize(wide[0], h))
		default:
			kit.Put(o, fyne.NewPos(left[1], columns-look.Space(1.5)), fyne.NewSize(size.Width-left[1], h))
		}
	}
}
