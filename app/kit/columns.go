package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/look"
)

// Columns lays things side by side in equal columns, six steps apart, and stacks
// them when a column would be narrower than least points.
func Columns(least float32, things ...fyne.CanvasObject) *fyne.Container {
	return WeightedColumns(least, nil, things...)
}

// WeightedColumns is Columns over so many columns of a grid each as its weight says, the
// gutters between those included; a missing weight is 1. They stack when the narrowest would
// be less than least.
func WeightedColumns(least float32, weights []float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(&columnsLayout{least: least, weights: weights, gap: look.Space(6)}, things...)
}

// Beside sets a second column at the right of a page's first where there is room for both,
// in windows from 1600 points on, and else below it. Of the page's twelve columns the first
// takes eight.
func Beside(first, second fyne.CanvasObject) *fyne.Container {
	return WeightedColumns(besideLeast, []float32{8, 4}, first, second)
}

// besideLeast is the least width of a second column beside a page's first.
var besideLeast = look.Space(108)

// BesideList is Beside for a list as high as the page: the second column scrolls by itself,
// and is left out where there is no room for both.
func BesideList(list, second fyne.CanvasObject) *fyne.Container {
	room := container.New(layout.NewCustomPaddedLayout(ringRoom, ringRoom, ringRoom, barRoom), second)
	return container.New(&besideList{columnsLayout{least: besideLeast, weights: []float32{8, 4}, gap: look.Space(6)}}, list, container.NewVScroll(room))
}

// ringRoom is that of the ring around what has the keyboard, and barRoom that of the bar of
// what scrolls: both stand out beyond the column.
const (
	ringRoom = 4
	barRoom  = 16
)

type besideList struct{ columnsLayout }

func (l *besideList) Layout(things []fyne.CanvasObject, size fyne.Size) {
	list, second := things[0], things[1]
	second.Show()
	if l.stacked(things, size.Width) {
		second.Hide()
		Put(list, fyne.NewPos(0, 0), size)
		return
	}
	widths := l.widths(things, size.Width)
	Put(list, fyne.NewPos(0, 0), fyne.NewSize(widths[0], size.Height))
	Put(second, fyne.NewPos(widths[0]+l.gap-ringRoom, -ringRoom), fyne.NewSize(widths[1]+ringRoom+barRoom, size.Height+ringRoom))
}

// BesideBoth sets the middle of three parts of a page at the right of the other two where
// there is room, as [Beside] does, and else between them.
func BesideBoth(above, middle, below fyne.CanvasObject) *fyne.Container {
	return BesideBothFrom(besideLeast, 2, above, middle, below)
}

// BesideBothFrom is BesideBoth where neither column would be narrower than least; the first
// is so many times as wide as the second.
func BesideBothFrom(least, times float32, above, middle, below fyne.CanvasObject) *fyne.Container {
	return container.New(&besideBoth{columns: columnsLayout{least: least, weights: []float32{times, 1}, gap: look.Space(6)}}, above, middle, below)
}

// besideBoth remembers its width, from which its height follows.
type besideBoth struct {
	columns columnsLayout
	width   float32
}

func (l *besideBoth) MinSize(things []fyne.CanvasObject) fyne.Size {
	stack := stackLayout{gap: l.columns.gap}
	if l.columns.stacked(things[:2], l.width) {
		return stack.MinSize(things)
	}
	first, second := stack.MinSize([]fyne.CanvasObject{things[0], things[2]}), things[1].MinSize()
	return fyne.NewSize(max(first.Width, second.Width), max(first.Height, second.Height))
}

func (l *besideBoth) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	stack := stackLayout{gap: l.columns.gap}
	if l.columns.stacked(things[:2], size.Width) {
		stack.Layout(things, size)
		return
	}
	widths := l.columns.widths(things[:2], size.Width)
	stack.Layout([]fyne.CanvasObject{things[0], things[2]}, fyne.NewSize(widths[0], size.Height))
	FitHeight(things[1], widths[1])
	things[1].Move(fyne.NewPos(widths[0]+l.columns.gap, 0))
}

// Grown gives a thing a height that grows with its width, as part of it, between a least
// and a most; it takes none while that is hidden.
func Grown(part, least, most float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(&grown{part: part, least: least, most: most}, o)
}

type grown struct{ part, least, most, width float32 }

func (l *grown) MinSize(things []fyne.CanvasObject) fyne.Size {
	if !things[0].Visible() {
		return fyne.Size{}
	}
	return fyne.NewSize(things[0].MinSize().Width, max(l.least, min(l.most, l.part*l.width)))
}

func (l *grown) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	Put(things[0], fyne.NewPos(0, 0), fyne.NewSize(size.Width, l.MinSize(things).Height))
}

// columnsLayout remembers its width, from which its height follows.
type columnsLayout struct {
	least, gap float32
	weights    []float32
	width      float32
}

func (l *columnsLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	seen := visible(things)
	width := float32(0)
	for _, o := range seen {
		width = max(width, o.MinSize().Width)
	}
	if l.stacked(things, l.width) {
		return fyne.NewSize(width, stackLayout{gap: l.gap}.MinSize(seen).Height)
	}
	height := float32(0)
	for i, by := range lowered(seen) {
		height = max(height, by+seen[i].MinSize().Height)
	}
	return fyne.NewSize(width, height)
}

func (l *columnsLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	if l.stacked(things, size.Width) {
		stackLayout{gap: l.gap}.Layout(visible(things), size)
		return
	}
	widths := l.widths(things, size.Width)
	for i, o := range things {
		if o.Visible() {
			FitHeight(o, widths[i])
		}
	}
	x := float32(0)
	down := lowered(things)
	for i, w := range widths {
		o := things[i]
		if !o.Visible() {
			continue
		}
		Put(o, fyne.NewPos(x, down[i]), fyne.NewSize(w, max(size.Height-down[i], o.MinSize().Height)))
		x += w + l.gap
	}
}

func (l *columnsLayout) stacked(things []fyne.CanvasObject, width float32) bool {
	if width <= 0 {
		return false
	}
	for i, w := range l.widths(things, width) {
		if things[i].Visible() && w < l.least {
			return true
		}
	}
	return false
}

// widths shares the width, and a gutter at its end, by weight: so edges above each other are in
// line where the weights come to the same sum. A hidden thing has width 0.
func (l *columnsLayout) widths(things []fyne.CanvasObject, width float32) []float32 {
	sum := float32(0)
	out := make([]float32, len(things))
	for i, o := range things {
		if !o.Visible() {
			continue
		}
		out[i] = 1
		if i < len(l.weights) {
			out[i] = l.weights[i]
		}
		sum += out[i]
	}
	for i, o := range things {
		if o.Visible() {
			out[i] = out[i]*(width+l.gap)/sum - l.gap
		}
	}
	return out
}

// labelled is a field or a figure with its label over it.
type labelled interface{ labelHeight() float32 }

func heightOfLabel(label *Text) float32 {
	if !label.Visible() {
		return 0
	}
	return label.MinSize().Height
}

// lowered is how far each of a row is set lower, so that what they hold stands on one line where
// the label of another takes more lines.
func lowered(row []fyne.CanvasObject) []float32 {
	out := make([]float32, len(row))
	deepest := float32(0)
	for _, o := range row {
		if l, ok := o.(labelled); ok && o.Visible() {
			deepest = max(deepest, l.labelHeight())
		}
	}
	for i, o := range row {
		if l, ok := o.(labelled); ok && l.labelHeight() > 0 {
			out[i] = deepest - l.labelHeight()
		}
	}
	return out
}

// visible are those things that are shown: mostly all of them, which then are not copied.
func visible(things []fyne.CanvasObject) []fyne.CanvasObject {
	hidden := func(o fyne.CanvasObject) bool { return !o.Visible() }
	if !slices.ContainsFunc(things, hidden) {
		return things
	}
	return slices.DeleteFunc(slices.Clone(things), hidden)
}
