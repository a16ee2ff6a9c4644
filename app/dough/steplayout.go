package dough

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
)

// stepLayout sets what is said of a step in columns on one line: its name first, its figures,
// and last the signs that move it. Where there is no room for the name beside the others it stands
// over the figures, with the signs. It remembers its width, from which its height follows.
type stepLayout struct{ width float32 }

// The widths of the columns of steps, in points.
var stepFigures = shrinkingColumns{96, 96, 96, 56, 80}

const (
	stepName      = 200
	leastStepName = 116
	stepSigns     = 52
	stepGap       = 8
)

// beside is how wide the name is beside the figures, and whether that is enough.
func (l *stepLayout) beside() (name float32, enough bool) {
	name = l.width - stepGap - stepFigures.width() - stepSigns
	return min(stepName, name), l.width == 0 || name >= leastStepName
}

func (l *stepLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	name, line := things[0].MinSize().Height, float32(0)
	for _, o := range things[1:] {
		line = max(line, o.MinSize().Height)
	}
	if _, enough := l.beside(); enough {
		name, line = 0, max(name, line)
	}
	return fyne.NewSize(2*leastStepName+stepSigns, name+line)
}

func (l *stepLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	name, enough := l.beside()
	x, y, part, signs := name+stepGap, float32(0), float32(1), name+stepGap+stepFigures.width()
	if !enough {
		signs = size.Width - stepSigns
		name = signs - stepGap
		x, y, part = 0, things[0].MinSize().Height, min(1, size.Width/stepFigures.width())
	}
	put := func(o fyne.CanvasObject, x, y, width float32) { // signs in the middle of the fields' line
		h := o.MinSize().Height
		kit.Put(o, fyne.NewPos(x, y+max(0, (min(size.Height, kit.LineHeight())-h)/2)), fyne.NewSize(width, h))
	}
	put(things[0], 0, 0, name)
	for i, w := range stepFigures {
		put(things[1+i], x, y, w*part)
		x += (w + stepGap) * part
	}
	put(things[len(things)-1], signs, 0, stepSigns)
}
