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
	r := &fingerprintRenderer{f: f}
	for _, d := range f.digits {
		t := canvas.NewText(string(d), theme.Color(f.color))
		t.FontSource = look.Code()
		r.texts = append(r.texts, t)
	}
	r.Refresh()
	return r
}

type fingerprintRenderer struct {
	f     *fingerprint
	texts []*canvas.Text
}

func (r *fingerprintRenderer) Destroy() {}
func (r *fingerprintRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(r.texts))
	for i, t := range r.texts {
		out[i] = t
	}
	return out
}

func (r *fingerprintRenderer) MinSize() fyne.Size {
	n := len(r.f.digits)
	if n == 0 {
		return fyne.NewSize(0, 0)
	}
	last := r.f.at(min(n, r.f.row) - 1)
	rows := (n + r.f.row - 1) / r.f.row
	return fyne.NewSize(last.X+r.f.cell().Width, r.f.cell().Height*float32(rows))
}

func (r *fingerprintRenderer) Layout(fyne.Size) {
	c := r.f.cell()
	for i, t := range r.texts {
		kit.Put(t, r.f.at(i), c)
	}
}

func (r *fingerprintRenderer) Refresh() {
	for _, t := range r.texts {
		t.Color = theme.Color(r.f.color)
		t.TextSize = r.f.size
		t.Alignment = fyne.TextAlignCenter
		t.Refresh()
	}
	r.Layout(r.f.Size())
}
