package series

import (
	"cmp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/jar"
)

// The handles of the lines of a jar, in the order in which they are dragged.
const (
	atBottom = iota
	atLevel
	atTop
	atLeft
	atRight
	atKnown // only where a height is known
	handles
)

// lines draws a jar's sides and lines over a picture, to be dragged, or the surface alone.
type lines struct {
	// changed is told where the lines were dragged to; drawn, where the surface was.
	changed func(m jar.Marks, known float64)
	drawn   func(rise float64)

	view   *kit.PhotoView
	points *kit.DragPoints
	marks  jar.Marks
	known  float64 // the line of the known height; 0 where there is none
	move   jar.Move
	rise   float64 // of the surface; 0 where it is not known
	ask    bool    // the lines are shown, not the surface
	held   bool    // something is being dragged: nothing else moves it
	amiss  bool    // as they were dragged they are no jar yet: they stay until they are
	strip  []*canvas.Line
	names  []*canvas.Text
}

func newLines(v *kit.PhotoView) *lines {
	l := &lines{view: v}
	for range handles {
		line := canvas.NewLine(theme.Color(look.ColorCrust))
		line.StrokeWidth = 2
		l.strip = append(l.strip, line)
	}
	for _, word := range []string{lang.L("bottom"), lang.L("level at the start"), lang.L("as high as can be seen"), lang.L("known height")} {
		name := canvas.NewText(word, theme.Color(look.ColorCrust))
		name.TextSize = look.TextSmall
		name.TextStyle.Bold = true
		l.names = append(l.names, name)
	}
	v.AddOverlay(l)
	l.points = kit.NewDragPoints(v)
	l.points.Loose, l.points.Bound = true, l.bound
	l.points.OnChanged = l.dragged
	return l
}

// place is where a place in the first picture is in this one, in its pixels.
func (l *lines) place(x, y float64) kit.PicturePoint {
	size := l.view.PictureSize()
	zoom := cmp.Or(l.move.Zoom, 1)
	return kit.PicturePoint{
		X: (0.5 + (x-0.5)*zoom + l.move.DX) * float64(size.X),
		Y: (0.5 + (y-0.5)*zoom + l.move.DY) * float64(size.Y),
	}
}

// first is the place in the first picture of one in this.
func (l *lines) first(p kit.PicturePoint) (x, y float64) {
	size := l.view.PictureSize()
	if size.X == 0 || size.Y == 0 {
		return 0, 0
	}
	zoom := cmp.Or(l.move.Zoom, 1)
	return 0.5 + (p.X/float64(size.X)-0.5-l.move.DX)/zoom, 0.5 + (p.Y/float64(size.Y)-0.5-l.move.DY)/zoom
}

// show draws the lines to be dragged, or, without ask, the surface at a rise; 0 is none.
// What is being dragged stays in the hand.
func (l *lines) show(m jar.Marks, mv jar.Move, rise float64, ask bool) {
	if l.held {
		return
	}
	l.marks, l.move, l.rise, l.ask = m, mv, rise, ask
	mid := (m.Left + m.Right) / 2
	switch {
	case ask:
		y := (m.Level + m.Top) / 2
		points := []kit.PicturePoint{
			l.place(mid, m.Bottom), l.place(mid, m.Level), l.place(mid, m.Top), l.place(m.Left, y), l.place(m.Right, y)}
		if l.known > 0 {
			points = append(points, l.place(m.Right-0.2*(m.Right-m.Left), l.known)) // not upon another
		}
		l.points.SetPoints(points)
	case m.Check() != nil:
		l.points.SetPoints(nil)
	default:
		at := cmp.Or(rise, 1)
		l.points.SetPoints([]kit.PicturePoint{l.place(mid, m.Height(at))})
	}
	l.view.RefreshOverlays()
}

// bound keeps a line level and a side upright.
func (l *lines) bound(i int, to kit.PicturePoint) kit.PicturePoint {
	was := l.points.Points()[i]
	if l.ask && (i == atLeft || i == atRight) {
		return kit.PicturePoint{X: to.X, Y: was.Y}
	}
	return kit.PicturePoint{X: was.X, Y: to.Y}
}

func (l *lines) dragged(p []kit.PicturePoint, done bool) {
	l.held = !done
	if !l.ask {
		_, y := l.first(p[0])
		l.rise = max(0.01, l.marks.Rise(y))
		l.view.RefreshOverlays()
		if done {
			l.drawn(l.rise)
		}
		return
	}
	m := l.marks
	_, m.Bottom = l.first(p[atBottom])
	_, m.Level = l.first(p[atLevel])
	_, m.Top = l.first(p[atTop])
	m.Left, _ = l.first(p[atLeft])
	m.Right, _ = l.first(p[atRight])
	l.marks = m
	if len(p) > atKnown {
		_, l.known = l.first(p[atKnown])
	}
	l.view.RefreshOverlays()
	if done {
		l.changed(m, l.known)
	}
}

func (l *lines) Objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	switch {
	case l.ask:
		for i, line := range l.strip {
			if i != atKnown || l.known > 0 {
				out = append(out, line)
			}
		}
		for i, name := range l.names {
			if i != len(l.names)-1 || l.known > 0 {
				out = append(out, name)
			}
		}
	case l.rise > 0:
		out = append(out, l.strip[0])
	}
	return out
}

func (l *lines) Arrange(at func(x, y float64) fyne.Position, _ float32) {
	m := l.marks
	set := func(i int, x0, y0, x1, y1 float64) {
		a, b := l.place(x0, y0), l.place(x1, y1)
		l.strip[i].StrokeColor = theme.Color(look.ColorCrust)
		l.strip[i].Position1, l.strip[i].Position2 = at(a.X, a.Y), at(b.X, b.Y)
		l.strip[i].Refresh()
	}
	if !l.ask {
		y := m.Height(l.rise)
		set(0, m.Left, y, m.Right, y)
		return
	}
	out := 0.25 * (m.Right - m.Left)
	level := func(line, i int, y, from, to float64) {
		set(line, from, y, to, y)
		p := l.place(from, y)
		l.names[i].Color = theme.Color(look.ColorCrust)
		l.names[i].Move(at(p.X, p.Y).SubtractXY(0, l.names[i].MinSize().Height))
		l.names[i].Refresh()
	}
	for i, y := range []float64{m.Bottom, m.Level, m.Top} {
		level(i, i, y, m.Left-out, m.Right+out)
	}
	level(atKnown, len(l.names)-1, l.known, (m.Left+m.Right)/2, m.Right+out)
	set(atLeft, m.Left, m.Top, m.Left, m.Bottom)
	set(atRight, m.Right, m.Top, m.Right, m.Bottom)
}
