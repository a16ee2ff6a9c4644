package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
)

// countDots draws the answers of a tasting as dots, the right ones filled first, and a line
// where as many would be right as guessing gives on average.
type countDots struct {
	widget.BaseWidget
	right, all int
	chance     float64
}

// mostDots is how many answers still stand on one line.
const mostDots = 36

// newCountDots shows what was counted with its dots; nil where answers are not right or wrong,
// or where there are too many for dots.
func newCountDots(m blind.Method, t verdict.Tally, u measure.Units) fyne.CanvasObject {
	if !m.Discriminates() || t.Counted == 0 || t.Counted > mostDots {
		return nil
	}
	d := &countDots{right: t.Agreeing, all: t.Counted, chance: m.Chance()}
	d.ExtendBaseWidget(d)
	return kit.Flow(3, d, kit.NewLine(kit.Span{Text: d.words(u), Size: look.TextSmall, Color: look.ColorFaint}))
}

// words say what the dots show.
func (d *countDots) words(u measure.Units) string {
	return lang.L("{{.N}} of {{.Of}} right; guessing gives {{.Guess}} on average", map[string]any{
		"N": d.right, "Of": d.all, "Guess": u.FormatNumber(d.chance*float64(d.all), 1)})
}

const (
	dotWide = 10
	dotGap  = 4
	dotTall = 18
)

func (d *countDots) CreateRenderer() fyne.WidgetRenderer {
	r := &countDotsRenderer{d: d, line: canvas.NewRectangle(nil)}
	for range d.all {
		r.dots = append(r.dots, canvas.NewCircle(nil))
	}
	r.Refresh()
	return r
}

type countDotsRenderer struct {
	d    *countDots
	dots []*canvas.Circle
	line *canvas.Rectangle
}

func (r *countDotsRenderer) Destroy() {}

func (r *countDotsRenderer) Objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, c := range r.dots {
		out = append(out, c)
	}
	return append(out, r.line)
}

func (r *countDotsRenderer) MinSize() fyne.Size {
	return fyne.NewSize(float32(r.d.all)*(dotWide+dotGap)-dotGap, dotTall)
}

func (r *countDotsRenderer) Layout(fyne.Size) {
	for i, c := range r.dots {
		kit.Put(c, fyne.NewPos(float32(i)*(dotWide+dotGap), (dotTall-dotWide)/2), fyne.NewSize(dotWide, dotWide))
	}
	// Between the dots where the number by guessing is a whole one.
	x := float32(r.d.chance)*float32(r.d.all)*(dotWide+dotGap) - dotGap/2
	kit.Put(r.line, fyne.NewPos(x-1, 0), fyne.NewSize(2, dotTall))
}

func (r *countDotsRenderer) Refresh() {
	ink := theme.Color(look.ColorInk)
	for i, c := range r.dots {
		c.StrokeWidth, c.StrokeColor, c.FillColor = 1.5, theme.Color(look.ColorEdge), theme.Color(look.ColorPaper)
		if i < r.d.right {
			c.StrokeColor, c.FillColor = ink, ink
		}
		c.Refresh()
	}
	r.line.FillColor = theme.Color(look.ColorEmber)
	r.line.Refresh()
	r.Layout(r.d.Size())
}
