package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// fingerprint shows the hexadecimal digits of a seal in fours, each digit in a
// cell of one width, so that two of them can be compared by eye and that no
// other thing on the screen moves with it.
type fingerprint struct {
	widget.BaseWidget
	digits string
	size   float32
	color  fyne.ThemeColorName
	// row is how many digits stand in a line.
	row int
}

func newFingerprint(digits string, size float32, row int) *fingerprint {
	f := &fingerprint{digits: digits, size: size, color: look.ColorFaint, row: row}
	f.ExtendBaseWidget(f)
	return f
}

func (f *fingerprint) cell() fyne.Size { return fyne.NewSize(f.size*0.61, f.size*1.5) }

// at is the place of a digit.
func (f *fingerprint) at(i int) fyne.Position {
	c := f.cell()
	return fyne.NewPos(c.Width*(float32(i%f.row)+float32(i%f.row/4)*0.6), c.Height*float32(i/f.row))
}

func (f *fingerprint) CreateRenderer() fyne.WidgetRenderer {
	d := &kit.Drawing{Of: f}
	var texts []*canvas.Text
	for _, digit := range f.digits {
		t := canvas.NewText(string(digit), theme.Color(f.color))
		t.FontSource = look.Code()
		texts, d.Things = append(texts, t), append(d.Things, t)
	}
	d.Least = func() fyne.Size {
		n := len(f.digits)
		if n == 0 {
			return fyne.NewSize(0, 0)
		}
		last := f.at(min(n, f.row) - 1)
		rows := (n + f.row - 1) / f.row
		return fyne.NewSize(last.X+f.cell().Width, f.cell().Height*float32(rows))
	}
	d.Lay = func(fyne.Size) {
		c := f.cell()
		for i, t := range texts {
			kit.Put(t, f.at(i), c)
		}
	}
	d.Paint = func() {
		for _, t := range texts {
			t.Color = theme.Color(f.color)
			t.TextSize = f.size
			t.Alignment = fyne.TextAlignCenter
		}
	}
	return d.Painted()
}
