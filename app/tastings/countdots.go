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
// where as many would be right as guessing gives on average, if that is told.
type countDots struct {
	widget.BaseWidget
	right, all int
	chance     float64
}

// mostDots is how many answers still stand on one line.
const mostDots = 36

func newCountDots(right, all int, chance float64) *countDots {
	d := &countDots{right: right, all: all, chance: chance}
	d.ExtendBaseWidget(d)
	return d
}

// counted shows what was counted with its dots; nil where answers are not right or wrong,
// or where there are too many for dots.
func counted(m blind.Method, t verdict.Tally, u measure.Units) fyne.CanvasObject {
	if !m.Discriminates() || t.Counted == 0 || t.Counted > mostDots {
		return nil
	}
	d := newCountDots(t.Agreeing, t.Counted, m.Chance())
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

// dotsWide is the width of so many dots.
func dotsWide(n int) float32 { return float32(n)*(dotWide+dotGap) - dotGap }

func (d *countDots) CreateRenderer() fyne.WidgetRenderer {
	line := canvas.NewRectangle(nil)
	line.Hidden = d.chance == 0
	var dots []*canvas.Circle
	r := &kit.Drawing{Of: d}
	for range d.all {
		c := canvas.NewCircle(nil)
		dots, r.Things = append(dots, c), append(r.Things, c)
	}
	r.Things = append(r.Things, line)
	r.Least = func() fyne.Size { return fyne.NewSize(dotsWide(d.all), dotTall) }
	r.Lay = func(fyne.Size) {
		for i, c := range dots {
			kit.Put(c, fyne.NewPos(float32(i)*(dotWide+dotGap), (dotTall-dotWide)/2), fyne.NewSize(dotWide, dotWide))
		}
		// Between the dots where the number by guessing is a whole one.
		x := float32(d.chance)*float32(d.all)*(dotWide+dotGap) - dotGap/2
		kit.Put(line, fyne.NewPos(x-1, 0), fyne.NewSize(2, dotTall))
	}
	r.Paint = func() {
		ink := theme.Color(look.ColorInk)
		for i, c := range dots {
			c.StrokeWidth, c.StrokeColor, c.FillColor = 1.5, theme.Color(look.ColorEdge), theme.Color(look.ColorPaper)
			if i < d.right {
				c.StrokeColor, c.FillColor = ink, ink
			}
		}
		line.FillColor = theme.Color(look.ColorEmber)
	}
	return r.Painted()
}
