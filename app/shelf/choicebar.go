package shelf

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
)

// choiceBar is one choice of a facet: its name, how many bakes are left with it, and
// a bar as long as their share of what is seen. A tap, Enter or Space chooses it.
type choiceBar struct {
	widget.BaseWidget
	kit.Pressable
	// came is told when the bar has the keyboard, so that it is brought into sight.
	came func()
	// step moves the keyboard by so many of the facet's bars.
	step func(by int)

	name, count string
	mark        *charts.SeriesStyle // before the name; nil for none
	part        float32             // of the greatest, 0 to 1
	chosen      bool
}

func newChoiceBar(tapped func()) *choiceBar {
	c := &choiceBar{}
	c.Pressable = kit.NewPressable(c, tapped)
	c.ExtendBaseWidget(c)
	return c
}

// set shows another choice. It is cheap when nothing changed.
func (c *choiceBar) set(name, count string, part float32, chosen bool) {
	if c.name == name && c.count == count && c.part == part && c.chosen == chosen {
		return
	}
	c.name, c.count, c.part, c.chosen = name, count, part, chosen
	c.Refresh()
}

// setMark puts a mark before the name, if it is one.
func (c *choiceBar) setMark(l charts.SeriesStyle, is bool) {
	switch {
	case !is:
		c.mark = nil
	case c.mark == nil || *c.mark != l:
		c.mark = &l
	default:
		return
	}
	c.Refresh()
}

// Tapped chooses. The keyboard stays where it was.
func (c *choiceBar) Tapped(*fyne.PointEvent) { c.Press() }

func (c *choiceBar) FocusGained() {
	c.Pressable.FocusGained()
	if c.came != nil {
		c.came()
	}
}

// TypedKey moves to another bar with the arrows.
func (c *choiceBar) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyDown:
		c.step(1)
	case fyne.KeyUp:
		c.step(-1)
	default:
		c.Pressable.TypedKey(ev)
	}
}

const barHeight = 4

func (c *choiceBar) CreateRenderer() fyne.WidgetRenderer {
	name, mark, count := kit.NewElided(kit.Span{}), kit.NewMark(charts.SeriesStyle{}, kit.MarkSide), kit.NewLine()
	back, bar, ring := canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	back.CornerRadius, bar.CornerRadius, ring.CornerRadius = barHeight/2, barHeight/2, look.Radius
	d := &kit.Drawing{Of: c, Things: []fyne.CanvasObject{ring, mark, name, count, back, bar}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(30), look.Space(8)) }
	d.Lay = func(size fyne.Size) {
		m := count.MinSize()
		kit.Put(count, fyne.NewPos(size.Width-m.Width, 0), m)
		left := float32(0)
		if c.mark != nil {
			left = kit.MarkSide + look.Space(2)
			kit.Put(mark, fyne.NewPos(0, (m.Height-kit.MarkSide)/2), mark.MinSize())
		}
		kit.Put(name, fyne.NewPos(left, 0), fyne.NewSize(max(0, size.Width-left-m.Width-look.Space(2)), m.Height))
		at := fyne.NewPos(0, m.Height+look.Space(0.75))
		kit.Put(back, at, fyne.NewSize(size.Width, barHeight))
		w := size.Width * c.part
		if c.part > 0 {
			w = max(w, barHeight)
		}
		kit.Put(bar, at, fyne.NewSize(w, barHeight))
		kit.Put(ring, fyne.NewPos(-5, -2), size.Add(fyne.NewSize(10, 2)))
	}
	d.Paint = func() {
		if mark.Hidden = c.mark == nil; c.mark != nil {
			mark.SetLook(*c.mark)
		}
		name.SetSpan(kit.Span{Text: c.name, Bold: c.chosen})
		count.SetSpans(kit.Span{Text: c.count, Color: look.ColorFaint})
		back.FillColor = theme.Color(look.ColorRule)
		bar.FillColor = theme.Color(look.ColorEdge)
		if c.chosen {
			bar.FillColor = theme.Color(look.ColorCrust)
		}
		ring.FillColor, ring.StrokeColor, ring.StrokeWidth = color.Transparent, color.Transparent, 0
		if c.Hovered() {
			ring.FillColor = theme.Color(look.ColorWash)
		}
		if c.Focused() {
			ring.StrokeColor, ring.StrokeWidth = theme.Color(look.ColorCrust), 2
		}
		name.Refresh()
	}
	return d.Painted()
}
