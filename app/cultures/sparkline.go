package cultures

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// sparkline shows the latest peaks of a culture as a thin line, without axes; the
// faint rule is the height that is wanted of it.
type sparkline struct {
	widget.BaseWidget
	values []float64
	wanted float64
	color  fyne.ThemeColorName
}

// sparkPoints is how many peaks a sparkline shows.
const sparkPoints = 14

func newSparkline(values []float64, wanted float64, color fyne.ThemeColorName) *sparkline {
	if len(values) > sparkPoints {
		values = values[len(values)-sparkPoints:]
	}
	s := &sparkline{values: values, wanted: wanted, color: color}
	s.ExtendBaseWidget(s)
	return s
}

func (s *sparkline) CreateRenderer() fyne.WidgetRenderer {
	r := &sparkRenderer{s: s, rule: canvas.NewLine(theme.Color(look.ColorRule)), end: canvas.NewCircle(theme.Color(s.color))}
	for range max(0, len(s.values)-1) {
		r.lines = append(r.lines, canvas.NewLine(theme.Color(s.color)))
	}
	r.Refresh()
	return r
}

type sparkRenderer struct {
	s     *sparkline
	rule  *canvas.Line
	lines []*canvas.Line
	end   *canvas.Circle
}

func (r *sparkRenderer) Destroy() {}
func (r *sparkRenderer) MinSize() fyne.Size {
	return fyne.NewSize(look.Space(36), look.Space(10))
}

func (r *sparkRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.rule}
	for _, l := range r.lines {
		out = append(out, l)
	}
	return append(out, r.end)
}

func (r *sparkRenderer) Layout(size fyne.Size) {
	low, high := 1.0, max(2.2, r.s.wanted)
	for _, v := range r.s.values {
		high = max(high, v)
	}
	const dot = 6
	at := func(i int, v float64) fyne.Position {
		x := float32(size.Width - dot)
		if n := len(r.s.values); n > 1 {
			x = (size.Width - dot) * float32(i) / float32(n-1)
		}
		share := float32((max(low, v) - low) / (high - low))
		return fyne.NewPos(x+dot/2, (size.Height-dot)*(1-share)+dot/2)
	}
	r.rule.Position1 = fyne.NewPos(0, at(0, r.s.wanted).Y)
	r.rule.Position2 = fyne.NewPos(size.Width, at(0, r.s.wanted).Y)
	for i, l := range r.lines {
		l.Position1, l.Position2 = at(i, r.s.values[i]), at(i+1, r.s.values[i+1])
	}
	if n := len(r.s.values); n > 0 {
		r.end.Resize(fyne.NewSquareSize(dot))
		r.end.Move(at(n-1, r.s.values[n-1]).Subtract(fyne.NewSquareOffsetPos(dot / 2)))
	}
}

func (r *sparkRenderer) Refresh() {
	r.rule.StrokeColor = theme.Color(look.ColorRule)
	r.rule.StrokeWidth = 1
	for _, l := range r.lines {
		l.StrokeColor, l.StrokeWidth = theme.Color(r.s.color), 2
	}
	r.end.FillColor = theme.Color(r.s.color)
	r.end.Hidden = len(r.s.values) == 0
	r.rule.Hidden = len(r.s.values) == 0
	r.Layout(r.s.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
