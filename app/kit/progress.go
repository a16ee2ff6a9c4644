package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Progress shows how far a long piece of work is: a thin bar, "12 of 40", the item
// at hand, and a way to stop. Put it on a page, or over it with ShowProgress.
type Progress struct {
	widget.BaseWidget
	words  *Text
	item   *Text
	bar    *bar
	cancel *Button
	column *fyne.Container
}

// NewProgress makes one that has not begun. Cancel is called once, on a tap.
func NewProgress(what string, cancel func()) *Progress {
	p := &Progress{words: Strong(what), item: Small(" "), bar: newBar()}
	p.cancel = NewButton(lang.L("Stop"), nil)
	p.cancel.OnTapped = func() {
		if p.cancel.Disabled() {
			return
		}
		p.cancel.Disable()
		p.cancel.SetLabel(lang.L("Stopping"))
		call(cancel)
	}
	p.column = Stack(2, p.words, p.bar, RowGrow(3, 0, p.item, p.cancel))
	p.ExtendBaseWidget(p)
	return p
}

// Set shows that done of total items are finished and which one is at hand. Call it
// on the main goroutine.
func (p *Progress) Set(done, total int, item string) {
	part := float32(0)
	if total > 0 {
		part = float32(done) / float32(total)
	}
	p.bar.Show()
	p.bar.set(part)
	p.item.SetText(lang.L("{{.Done}} of {{.Total}}  {{.Item}}", map[string]any{"Done": done, "Total": total, "Item": item}))
}

func (p *Progress) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.column) }

// Working shows how much is done of a work whose whole is not known. Call it on the main
// goroutine.
func (p *Progress) Working(done string) {
	p.bar.Hide()
	p.item.SetText(done)
}

// ShowProgress puts a progress over the window, which Esc stops too. Close the dialog when the
// work has ended: until then nobody can say what came of it.
func ShowProgress(win fyne.Window, what string, cancel func()) (*Progress, *Dialog) {
	p := NewProgress(what, cancel)
	s := ShowDialog(win, DialogOptions{Content: p, OnEscape: p.cancel.OnTapped})
	return p, s
}

// bar is a thin line, part of it in crust.
type bar struct {
	widget.BaseWidget
	part       float32
	back, done *canvas.Rectangle
}

func newBar() *bar {
	b := &bar{back: canvas.NewRectangle(color.Transparent), done: canvas.NewRectangle(color.Transparent)}
	b.back.CornerRadius, b.done.CornerRadius = 2, 2
	b.ExtendBaseWidget(b)
	return b
}

func (b *bar) set(part float32) {
	b.part = max(0, min(1, part))
	b.Refresh()
}

func (b *bar) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: b, Things: []fyne.CanvasObject{b.back, b.done}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(20), look.Space(1)) }
	d.Lay = func(s fyne.Size) {
		b.back.Resize(fyne.NewSize(s.Width, look.Space(1)))
		b.done.Resize(fyne.NewSize(s.Width*b.part, look.Space(1)))
	}
	d.Paint = func() {
		b.back.FillColor = theme.Color(look.ColorRule)
		b.done.FillColor = theme.Color(look.ColorCrust)
	}
	return d.Painted()
}
