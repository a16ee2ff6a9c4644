package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
	"twinloaf/charts"
)

// MarkSide is how wide and high a mark stands beside a name.
const MarkSide float32 = 12

// Mark is the colour and shape by which a culture or a loaf is told apart, drawn as in
// the charts.
type Mark struct {
	widget.BaseWidget
	look charts.SeriesStyle
	side float32
}

// NewMark makes a mark side points wide and high.
func NewMark(l charts.SeriesStyle, side float32) *Mark {
	m := &Mark{look: l, side: side}
	m.ExtendBaseWidget(m)
	return m
}

// SetLook shows another mark.
func (m *Mark) SetLook(l charts.SeriesStyle) {
	if m.look != l {
		m.look = l
		m.Refresh()
	}
}

// MarkPicture draws a mark in the palette that is in use.
func MarkPicture(l charts.SeriesStyle, side int) *image.RGBA {
	p, _ := look.Current()
	return charts.MarkPicture(l, chartPalette(p), side)
}

func (m *Mark) CreateRenderer() fyne.WidgetRenderer {
	picture := canvas.NewRaster(func(w, h int) image.Image {
		if img := MarkPicture(m.look, min(w, h)); img != nil {
			return img
		}
		return image.NewRGBA(image.Rect(0, 0, w, h))
	})
	d := &Drawing{Of: m, Things: []fyne.CanvasObject{picture}}
	d.Least = func() fyne.Size { return fyne.NewSquareSize(m.side) }
	d.Lay = func(size fyne.Size) {
		Put(picture, fyne.NewPos((size.Width-m.side)/2, (size.Height-m.side)/2), fyne.NewSquareSize(m.side))
	}
	d.Paint = func() {
	}
	return d
}

// Marked puts a mark before a thing, at the middle of its height.
func Marked(l charts.SeriesStyle, o fyne.CanvasObject) fyne.CanvasObject {
	return RowGrow(2, 1, NewMark(l, MarkSide), o)
}

// MarkField chooses one of several marks, which stand side by side: the chosen one is
// underlined. Each is a stop of the keyboard.
type MarkField struct {
	widget.BaseWidget
	OnChanged func(index int)

	label   *Text
	choices []*markChoice
	row     fyne.CanvasObject
}

// NewMarkField makes a field in which nothing is chosen. words name each mark.
func NewMarkField(label string, words []string, changed func(index int)) *MarkField {
	f := &MarkField{label: NewLine(Span{Text: label, Size: look.TextSmall, Color: look.ColorFaint}), OnChanged: changed}
	var row []fyne.CanvasObject
	for i, w := range words {
		c := &markChoice{words: w, mark: NewMark(charts.SeriesStyle{}, 16)}
		c.Pressable = Pressable{self: c, press: func() { f.choose(i) }}
		c.ExtendBaseWidget(c)
		f.choices = append(f.choices, c)
		row = append(row, c)
	}
	f.row = Stack(0.5, f.label, Row(1, row...))
	f.ExtendBaseWidget(f)
	return f
}

// Set shows the marks, of which the one with index chosen is; OnChanged is not told.
func (f *MarkField) Set(looks []charts.SeriesStyle, chosen int) {
	for i, c := range f.choices {
		c.mark.SetLook(looks[i])
		if c.chosen != (i == chosen) {
			c.chosen = i == chosen
			c.Refresh()
		}
	}
}

func (f *MarkField) choose(i int) {
	if !f.choices[i].chosen && f.OnChanged != nil {
		f.OnChanged(i)
	}
}

func (f *MarkField) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(f.row) }

// markChoice is one mark that can be chosen.
type markChoice struct {
	widget.BaseWidget
	Pressable
	words  string
	mark   *Mark
	chosen bool
}

// Words names the mark, for whoever does not see it.
func (c *markChoice) Words() string { return c.words }

func (c *markChoice) CreateRenderer() fyne.WidgetRenderer {
	wash := canvas.NewRectangle(color.Transparent)
	under := canvas.NewRectangle(color.Transparent)
	ring := NewFocusRing(look.Radius)
	wash.CornerRadius = look.Radius
	d := &Drawing{Of: c, Things: []fyne.CanvasObject{ring.Object(), wash, c.mark, under}}
	d.Least = func() fyne.Size { return fyne.NewSquareSize(look.Space(8)) }
	d.Lay = func(size fyne.Size) {
		wash.Resize(size)
		c.mark.Resize(size)
		Put(under, fyne.NewPos((size.Width-look.Space(5))/2, size.Height-3), fyne.NewSize(look.Space(5), 2))
		ring.around(fyne.NewPos(0, 0), size)
	}
	d.Paint = func() {
		stain := theme.Color(look.ColorWash)
		if wash.FillColor = stain; !c.hovered {
			wash.FillColor = clearOf(stain)
		}
		under.FillColor = theme.Color(look.ColorInk)
		under.Hidden = !c.chosen
		ring.Show(c, c.focused)
		c.mark.Refresh()
	}
	return d.Painted()
}
