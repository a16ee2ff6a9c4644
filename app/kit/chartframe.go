package kit

import (
	"image"
	"image/color"
	"io"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// ChartSave asks the window to save a chart: name is a suggestion with its ending
// (".png", ".svg" or ".csv"), and write makes the file's content; it takes its time and is
// meant for a goroutine.
type ChartSave func(name string, write func(io.Writer) error)

// ChartFrame shows a chart. It is drawn on another goroutine, at the screen's own
// pixels, and again when the size, the theme or the scale changes; until then the
// picture before stays. Pointing at a mark shows its value, a tap on it (or Enter)
// tells OnMark; arrows go from mark to mark. A second button or the Menu key shows a
// menu to save and copy.
type ChartFrame struct {
	widget.BaseWidget
	// OnMark hears of a tap on a mark.
	OnMark func(m charts.Mark)
	// OnSave saves the chart as a file. Without it the menu does not offer that.
	OnSave ChartSave
	// Name is the suggested name of a saved file, without an ending.
	Name string
	// Units gives the faces that the chart writes its own numbers and times in; it
	// is asked whenever the chart is shown. Without it they are those of zero Units.
	Units func() measure.Units

	// Flush says that the figure leaves no room at its sides, as a [charts.Spark] does not.
	Flush bool

	figure charts.Spec
	least  fyne.Size
	draw   chartDrawing
	marked int // index in the marks of the picture shown, or -1
	focus  bool
	raster *canvas.Raster
	// ring and box are around a mark and behind its value.
	ring           *canvas.Circle
	box            *canvas.Rectangle
	value, problem *Text
	rim            FocusRing
}

// NewChartFrame makes a frame with a least size. Give it a figure with SetSpec.
func NewChartFrame(main Main, least fyne.Size) *ChartFrame {
	f := &ChartFrame{least: least, marked: -1, Name: lang.L("chart"), ring: canvas.NewCircle(color.Transparent), box: canvas.NewRectangle(color.Transparent),
		value: NewLine(Span{Size: look.TextSmall}), problem: Faint(""), rim: NewFocusRing(look.Radius)}
	f.ring.StrokeWidth, f.box.StrokeWidth, f.box.CornerRadius = 2, 1, 4
	f.raster = canvas.NewRaster(f.generate)
	f.raster.ScaleMode = canvas.ImageScaleFastest
	f.draw.main, f.draw.ready = main, func() {
		f.marked = -1
		f.Refresh()
	}
	f.ExtendBaseWidget(f)
	return f
}

// SetLeast gives the frame another least size, such as follows from what it shows.
func (f *ChartFrame) SetLeast(least fyne.Size) {
	if f.least != least {
		f.least = least
		f.Refresh()
	}
}

// SetSpec shows another figure, which must not be changed afterwards.
func (f *ChartFrame) SetSpec(figure charts.Spec) {
	f.figure = figure
	f.draw.forget()
	f.Refresh()
}

// Resize gives the frame the width that what is drawn in it takes: the room that a picture
// leaves at its sides stands out, so that titles are in line with the page's.
func (f *ChartFrame) Resize(s fyne.Size) {
	f.BaseWidget.Resize(s.Add(fyne.NewSize(2*f.side(), 0)))
}

// Move puts the frame where what is drawn in it begins.
func (f *ChartFrame) Move(pos fyne.Position) { f.BaseWidget.Move(pos.SubtractXY(f.side(), 0)) }

// side is the room that is left at each side of the figure.
func (f *ChartFrame) side() float32 {
	if f.Flush {
		return 0
	}
	return charts.Edge
}

// Summary tells in words what the picture shows, once it is drawn.
func (f *ChartFrame) Summary() string {
	if f.draw.chart == nil {
		return ""
	}
	return f.draw.chart.Summary()
}

// Wait blocks until the picture last asked for is drawn, for tests.
func (f *ChartFrame) Wait() { f.draw.wait() }

// generate is asked by Fyne for the picture at the screen's size, on the main
// goroutine; it answers with what there is.
func (f *ChartFrame) generate(w, h int) image.Image {
	if f.figure == nil || w < 2 || h < 2 || f.Size().Width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	palette, _ := look.Current()
	wish := chartWish{figure: f.figure, w: w, h: h, scale: float64(w) / float64(f.Size().Width), palette: palette}
	if f.Units != nil {
		wish.units = f.Units()
	}
	f.draw.want(wish)
	if f.draw.shown.Image == nil {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	return f.draw.shown.Image
}

// toPixels gives the factor from points of the frame to pixels of the picture.
func (f *ChartFrame) toPixels() float64 {
	if f.draw.shown.Image == nil || f.Size().Width == 0 {
		return 1
	}
	return float64(f.draw.shown.Image.Rect.Dx()) / float64(f.Size().Width)
}

func (f *ChartFrame) markAt(p fyne.Position) int {
	k := f.toPixels()
	m, ok := f.draw.shown.At(float64(p.X)*k, float64(p.Y)*k)
	if !ok {
		return -1
	}
	return slices.Index(f.draw.shown.Marks, m)
}

func (f *ChartFrame) mark(i int) {
	if i != f.marked {
		f.marked = i
		f.Refresh()
	}
}

// Marked gives the mark that is pointed at.
func (f *ChartFrame) Marked() (charts.Mark, bool) {
	if f.marked < 0 || f.marked >= len(f.draw.shown.Marks) {
		return charts.Mark{}, false
	}
	return f.draw.shown.Marks[f.marked], true
}

func (f *ChartFrame) MouseIn(ev *desktop.MouseEvent) { f.MouseMoved(ev) }

// MouseMoved reads the value under the pointer.
func (f *ChartFrame) MouseMoved(ev *desktop.MouseEvent) {
	f.mark(f.markAt(ev.Position))
	pointed(f, f.MouseOut)
}

func (f *ChartFrame) MouseOut() { f.mark(-1) }

// Tapped tells of the mark that was hit.
func (f *ChartFrame) Tapped(ev *fyne.PointEvent) {
	focusOn(f)
	f.mark(f.markAt(ev.Position))
	f.open()
}

func (f *ChartFrame) open() {
	if m, ok := f.Marked(); ok && f.OnMark != nil {
		f.OnMark(m)
	}
}

// TappedSecondary opens the menu.
func (f *ChartFrame) TappedSecondary(ev *fyne.PointEvent) { f.menuAt(ev.AbsolutePosition) }

func (f *ChartFrame) menuAt(at fyne.Position) {
	c := canvasOf(f)
	if c == nil || f.draw.chart == nil {
		return
	}
	showMenu(c, at, f.Menu()...)
}

// Menu gives what can be done with the chart; nothing until it is drawn.
func (f *ChartFrame) Menu() []*fyne.MenuItem {
	if f.draw.chart == nil {
		return nil
	}
	chart, size := f.draw.chart, f.Size()
	// What is taken elsewhere is ink on paper, whatever the look of the window.
	printed, err := PrintedChart(f.figure, f.draw.has.units)
	if err != nil {
		return nil // a figure that was drawn can be drawn
	}
	w, h := int(size.Width), int(size.Height)
	items := []*fyne.MenuItem{}
	if f.OnSave != nil {
		items = append(items,
			fyne.NewMenuItem(lang.L("Save as a picture (PNG)"), func() {
				f.OnSave(f.Name+".png", func(out io.Writer) error { return printed.PNG(out, 2*w, 2*h, 2) })
			}),
			fyne.NewMenuItem(lang.L("Save as a drawing (SVG)"), func() {
				f.OnSave(f.Name+".svg", func(out io.Writer) error { return printed.SVG(out, w, h) })
			}),
			fyne.NewMenuItem(lang.L("Save the figures (CSV)"), func() { f.OnSave(f.Name+".csv", chart.CSV) }),
		)
	}
	return append(items,
		fyne.NewMenuItem(lang.L("Copy the figures (CSV)"), func() {
			var b strings.Builder
			if err := chart.CSV(&b); err == nil {
				fyne.CurrentApp().Clipboard().SetContent(strings.TrimPrefix(b.String(), "\ufeff"))
			}
		}),
		fyne.NewMenuItem(lang.L("Copy what it shows, in words"), func() {
			fyne.CurrentApp().Clipboard().SetContent(chart.Summary())
		}))
}

func (f *ChartFrame) FocusGained() { f.focus = true; f.Refresh(); reveal(f) }

func (f *ChartFrame) FocusLost() { f.focus = false; f.Refresh() }

func (f *ChartFrame) TypedRune(r rune) { PassRune(f, r) }

// TypedKey goes from mark to mark.
func (f *ChartFrame) TypedKey(ev *fyne.KeyEvent) {
	n := len(f.draw.shown.Marks)
	switch {
	case ev.Name == fyne.KeyRight && n > 0:
		f.mark(min(n-1, f.marked+1))
	case ev.Name == fyne.KeyLeft && n > 0:
		f.mark(max(0, f.marked-1))
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter:
		ByKey(f, f.open)
	case ev.Name == desktop.KeyMenu, ev.Name == fyne.KeySpace:
		f.menuAt(fyne.CurrentApp().Driver().AbsolutePositionForObject(f).Add(fyne.NewPos(look.Space(4), look.Space(4))))
	default:
		PassKey(f, ev)
	}
}

func (f *ChartFrame) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: f, Things: []fyne.CanvasObject{f.raster, f.problem, f.rim.Object(), f.ring, f.box, f.value}, Lay: f.lay, Paint: f.paint}
	d.Least = func() fyne.Size { return f.least }
	return d.Painted()
}

func (f *ChartFrame) lay(size fyne.Size) {
	f.raster.Resize(size)
	// The ring is clear of the words, which reach to where the page's begin.
	side := max(0, f.side()-ringReach)
	f.rim.around(fyne.NewPos(side, 0), size.SubtractWidthHeight(2*side, 0))
	FitHeight(f.problem, size.Width)
	f.placeValue(size)
}

// placeValue writes the value of a mark beside it, within the frame.
func (f *ChartFrame) placeValue(size fyne.Size) {
	m, ok := f.Marked()
	for _, o := range []fyne.CanvasObject{f.ring, f.box, f.value} {
		SetVisible(o, ok)
	}
	if !ok {
		return
	}
	k := float32(f.toPixels())
	x, y := float32(m.X)/k, float32(m.Y)/k
	Put(f.ring, fyne.NewPos(x-8, y-8), fyne.NewSquareSize(16))
	SetVisible(f.ring, m.Area.Empty())
	f.value.SetText(m.Text)
	t := f.value.MinSize()
	box := t.Add(fyne.NewSize(look.Space(4), look.Space(1.5)))
	at := fyne.NewPos(x+look.Space(3), y-box.Height-look.Space(2))
	at.X = max(0, min(at.X, size.Width-box.Width))
	if at.Y < 0 {
		at.Y = y + look.Space(3)
	}
	Put(f.box, at, box)
	Put(f.value, at.Add(fyne.NewPos(look.Space(2), look.Space(0.75))), t)
}

func (f *ChartFrame) paint() {
	f.ring.StrokeColor = theme.Color(look.ColorInk)
	f.box.FillColor = theme.Color(look.ColorRaised)
	f.box.StrokeColor = theme.Color(look.ColorEdge)
	f.rim.Show(f, f.focus)
	problem := ""
	if f.draw.err != nil {
		problem = lang.L("This chart cannot be drawn: {{.Why}}", map[string]any{"Why": f.draw.err.Error()})
	}
	f.problem.SetText(problem)
	SetVisible(f.raster, problem == "")
	f.value.Refresh()
	canvas.Refresh(f)
}
