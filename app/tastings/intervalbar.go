package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// intervalBar draws the share of those who can tell against guessing: a line from
// guessing alone to telling every time, the interval as a bar on it, the estimate as a
// tick. What the words state stands in the picture and no more.
type intervalBar struct {
	widget.BaseWidget
	low, share, high float64
}

func newIntervalBar(low, share, high float64) fyne.CanvasObject {
	b := &intervalBar{low: low, share: share, high: high}
	b.ExtendBaseWidget(b)
	small := func(s string) fyne.CanvasObject {
		return kit.NewLine(kit.Span{Text: s, Size: look.TextSmall, Color: look.ColorFaint})
	}
	return kit.Stack(1, b, kit.RowGrow(0, 1, small(lang.L("guessing alone")), kit.Gap(0), small(lang.L("told every time"))))
}

func (b *intervalBar) CreateRenderer() fyne.WidgetRenderer {
	d := &kit.Drawing{Of: b}
	var parts [barParts]*canvas.Rectangle
	for i := range parts {
		parts[i] = canvas.NewRectangle(nil)
		d.Things = append(d.Things, parts[i])
	}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(60), barTall) }
	d.Lay = func(size fyne.Size) {
		x := func(share float64) float32 { return 1 + (size.Width-2)*float32(share) }
		put := func(i int, from, to, tall float32) {
			kit.Put(parts[i], fyne.NewPos(from, (barTall-tall)/2), fyne.NewSize(max(2, to-from), tall))
		}
		put(barLine, 0, size.Width, 2)
		put(barGuess, 0, 2, barTall)
		put(barInterval, x(b.low), x(b.high), 10)
		put(barShare, x(b.share)-1.5, x(b.share)+1.5, barTall)
	}
	d.Paint = func() {
		for i, c := range [barParts]fyne.ThemeColorName{look.ColorEdge, look.ColorEmber, look.ColorDough, look.ColorInk} {
			parts[i].FillColor = theme.Color(c)
		}
	}
	return d.Painted()
}

// The parts of the bar, as they are drawn over one another.
const (
	barLine = iota
	barGuess
	barInterval
	barShare
	barParts
)

const barTall = 20
