package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// foundRow is one answer: its picture, what it is called and what it is, and at the right
// end when it was or will be. The one that is lit says what Enter does.
type foundRow struct {
	widget.BaseWidget
	answer  found
	take    func()
	lit     bool
	hovered bool
	content fyne.CanvasObject
	right   *kit.Text
}

func newFoundRow(thumbs *kit.Loader, a found, take func()) *foundRow {
	r := &foundRow{answer: a, take: take, right: kit.NewLine()}
	title := kit.Span{Text: a.title, Bold: true}
	if a.title == "" {
		title = kit.Span{Text: a.words}
	}
	if a.link {
		title.Color = look.ColorCrust
	}
	words := kit.Stack(0, kit.NewElided(title))
	if a.under != "" {
		words.Add(kit.NewElided(kit.Span{Text: a.under, Size: look.TextSmall, Color: look.ColorFaint}))
	}
	if a.pictured() {
		r.content = kit.RowGrow(4, 1, r.picture(thumbs), words, r.right)
	} else {
		r.content = kit.RowGrow(4, 0, words, r.right)
	}
	r.say()
	r.ExtendBaseWidget(r)
	return r
}

// picture is the photo of an answer, or the mark of a culture in its place.
func (r *foundRow) picture(thumbs *kit.Loader) fyne.CanvasObject {
	if r.answer.mark != nil {
		return container.NewGridWrap(findPicture, container.NewCenter(kit.NewMark(*r.answer.mark, 16)))
	}
	cell := kit.NewPhotoCell(thumbs, findPicture, 0)
	cell.Set(kit.PhotoItem{Key: r.answer.photo, Loaf: r.answer.loaf}, false)
	return container.NewGridWrap(findPicture, cell)
}

// light shows whether Enter opens this one.
func (r *foundRow) light(yes bool) {
	r.lit = yes
	r.say()
	r.Refresh()
}

func (r *foundRow) say() {
	span := kit.Span{Text: r.answer.right, Color: look.ColorFaint}
	if r.lit {
		enter := lang.L("Enter opens it")
		if r.answer.do != nil {
			enter = lang.L("Enter does it")
		}
		if span.Text != "" {
			enter += " · " + span.Text
		}
		span = kit.Span{Text: enter, Size: look.TextSmall, Color: look.ColorCrust}
	}
	r.right.SetSpans(span)
}

func (r *foundRow) Tapped(*fyne.PointEvent) { r.take() }

func (r *foundRow) MouseIn(*desktop.MouseEvent) { r.hovered = true; r.Refresh() }

func (r *foundRow) MouseMoved(*desktop.MouseEvent) {}

func (r *foundRow) MouseOut() { r.hovered = false; r.Refresh() }

func (r *foundRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (r *foundRow) CreateRenderer() fyne.WidgetRenderer {
	wash := canvas.NewRectangle(color.Transparent)
	wash.CornerRadius = look.Radius
	d := &kit.Drawing{Of: r, Things: []fyne.CanvasObject{wash, r.content}}
	d.Least = func() fyne.Size {
		h := look.Space(8)
		if r.answer.pictured() {
			h = findRowHeight
		}
		return fyne.NewSize(look.Space(40), max(h, r.content.MinSize().Height))
	}
	d.Lay = func(size fyne.Size) {
		wash.Resize(size)
		kit.Put(r.content, fyne.NewPos(look.Space(2), 0), size.Subtract(fyne.NewSize(look.Space(4), 0)))
	}
	d.Paint = func() {
		wash.FillColor = color.Transparent
		if r.lit || r.hovered {
			wash.FillColor = theme.Color(look.ColorWash)
		}
		wash.StrokeWidth = 0
		if r.lit { // a wash alone is too faint to be seen as the keyboard's place
			wash.StrokeColor, wash.StrokeWidth = theme.Color(look.ColorCrust), 2
		}
		r.content.Refresh()
	}
	return d.Painted()
}
