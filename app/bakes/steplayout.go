package bakes

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// stepLayout sets a step in columns, on more than one line where the times would have no room on
// one; what comes after them, a fact and a note, stands beneath: the fact at the left, the note
// beside it. It remembers its width, from which its height follows.
type stepLayout struct{ width float32 }

// stepShares are the widths of the columns against each other.
var stepShares = []float32{2.2, 1.5, 1.5, 0.9, 0.9, 1, 0.3}

// stepLines are the columns on each line, the fewest lines first. The second column is a time.
var stepLines = [][][]int{{{0, 1, 2, 3, 4, 5, 6}}, {{0, 6}, {1, 2, 3, 4, 5}}, {{0, 6}, {1, 2}, {3, 4, 5}}}

// leastTime is the room for a day, an hour and the sign of a calendar.
const leastTime = 136

func newStepRow(things ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: &stepLayout{}, Objects: things}
}

// column gives the left edge and the width of a column of a line.
func (l *stepLayout) column(line []int, column int) (left, wide float32) {
	gap, sum := look.Space(4), float32(0)
	for _, i := range line {
		sum += stepShares[i]
	}
	each := (l.width - gap*float32(len(line)-1)) / sum
	for _, i := range line {
		if i == column {
			return left, stepShares[i] * each
		}
		left += stepShares[i]*each + gap
	}
	return 0, 0
}

// lines gives the columns on each line.
func (l *stepLayout) lines() [][]int {
	for _, lines := range stepLines[:len(stepLines)-1] {
		if _, wide := l.column(lines[len(lines)-1], 1); l.width == 0 || wide >= leastTime {
			return lines
		}
	}
	return stepLines[len(stepLines)-1]
}

// run walks the things, placing them if asked to, and gives the height.
func (l *stepLayout) run(things []fyne.CanvasObject, place bool) float32 {
	y := float32(0)
	put := func(o fyne.CanvasObject, x, y, width float32) {
		if place {
			kit.Put(o, fyne.NewPos(x, y), fyne.NewSize(width, o.MinSize().Height))
		}
	}
	lines := l.lines()
	for _, line := range lines {
		high, first := float32(0), things[line[0]].MinSize().Height
		for _, i := range line {
			h := things[i].MinSize().Height
			left, wide := l.column(line, i)
			put(things[i], left, y+max(0, (first-h)/2), wide)
			high = max(high, h)
		}
		y += high
	}
	fact, beneath := l.width*0.4, float32(0)
	if len(lines) == 1 {
		_, fact = l.column(lines[0], 0)
	}
	for i, o := range things[len(stepShares):] {
		if i == 0 {
			put(o, 0, y, fact)
		} else {
			put(o, fact+look.Space(4), y-look.Space(1.5), l.width-fact-look.Space(4))
		}
		beneath = max(beneath, o.MinSize().Height)
	}
	return y + beneath
}

func (l *stepLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(80), l.run(things, false))
}

func (l *stepLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.run(things, true)
}
