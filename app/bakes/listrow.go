package bakes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
)

// listRow shows one bake; it is used again for another as the list is scrolled.
type listRow struct {
	widget.BaseWidget
	photo         *kit.PhotoCell
	mark          *kit.Mark
	title, flours *kit.Elided
	figures       *kit.Elided
	when, score   *kit.Text
	of            *kit.Text // beside the score
	acts          bool      // it says what opening it does, and is of nothing that has a score
}

var rowPicture = fyne.NewSize(96, 72)

func newListRow(thumbs *kit.Loader) *listRow {
	r := &listRow{
		photo:   kit.NewPhotoCell(thumbs, rowPicture, 0),
		mark:    kit.NewMark(charts.SeriesStyle{}, kit.MarkSide),
		title:   kit.NewElided(kit.Span{Size: look.TextLarge, Serif: true}),
		flours:  kit.NewElided(kit.Span{}),
		figures: kit.NewElided(kit.Span{Size: look.TextSmall, Color: look.ColorFaint}),
		when:    kit.NewLine(),
		score:   kit.NewLine(kit.Span{Size: look.TextTitle, Bold: true}),
		of:      kit.NewLine(kit.Span{Text: lang.L("of 9"), Size: look.TextSmall, Color: look.ColorFaint}),
	}
	r.ExtendBaseWidget(r)
	return r
}

// set shows a bake.
func (r *listRow) set(v rowView) {
	r.photo.Set(kit.PhotoItem{Key: v.cover, Loaf: v.loaf}, false)
	if r.mark.Hidden = v.mark == nil; v.mark != nil {
		r.mark.SetLook(*v.mark)
	}
	r.title.SetText(v.title)
	r.flours.SetText(v.flours)
	r.figures.SetText(v.figures)
	r.when.SetSpans(kit.Span{Text: v.when, Color: look.ColorFaint})
	if r.acts = v.do != ""; r.acts {
		r.when.SetSpans(kit.Span{Text: v.do, Color: look.ColorCrust}) // as what is pressed looks elsewhere
	}
	r.score.SetText(v.score)
	kit.SetVisible(r.of, v.score != "")
	r.Refresh()
}

func (r *listRow) CreateRenderer() fyne.WidgetRenderer {
	return &kit.Drawing{Of: r, Things: []fyne.CanvasObject{r.photo, r.mark, r.title, r.flours, r.figures, r.when, r.score, r.of},
		Least: func() fyne.Size { return fyne.NewSize(look.Space(60), rowPicture.Height) }, Lay: r.lay}
}

func (r *listRow) lay(size fyne.Size) {
	kit.Put(r.photo, fyne.NewPos(0, 0), rowPicture)
	left := rowPicture.Width + look.Space(5)
	right := size.Width - look.Space(14)
	if r.acts {
		right = size.Width
	}
	score, of := r.score.MinSize(), r.of.MinSize()
	kit.Put(r.score, fyne.NewPos(right+look.Space(2), (size.Height-score.Height)/2), score)
	kit.Put(r.of, fyne.NewPos(right+look.Space(3)+score.Width, (size.Height+score.Height)/2-of.Height-look.Space(1)), of)
	when := r.when.MinSize()
	// In a narrow list the words over and under the score go on to the edge, and those over what
	// is done as well.
	narrow := size.Width < look.Space(130)
	at, ends := fyne.NewPos(right-when.Width-look.Space(3), look.Space(1)), [3]float32{right - when.Width - look.Space(7), right, right}
	switch {
	case narrow && r.acts:
		at, ends = fyne.NewPos(size.Width-when.Width, (size.Height-when.Height)/2), [3]float32{size.Width, size.Width - when.Width - look.Space(4), size.Width}
	case narrow:
		at.X, ends = size.Width-when.Width, [3]float32{size.Width - when.Width - look.Space(4), right, size.Width}
	}
	kit.Put(r.when, at, when)
	y, name := float32(0), left
	if title := r.title.MinSize().Height; r.mark.Visible() {
		kit.Put(r.mark, fyne.NewPos(left, (title-kit.MarkSide)/2), r.mark.MinSize())
		name += kit.MarkSide + look.Space(2)
	}
	for i, line := range []*kit.Elided{r.title, r.flours, r.figures} {
		h := line.MinSize().Height
		kit.Put(line, fyne.NewPos(name, y), fyne.NewSize(max(0, ends[i]-name), h))
		name, y = left, y+h+look.Space(0.5)
	}
}
