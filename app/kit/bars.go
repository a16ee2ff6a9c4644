package kit

import (
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

// A Share is one part of a whole, by its name.
type Share struct {
	Name string
	Part float64 // 0 to 1
	Text string  // the part in figures
}

// ScoreBar reads a score of nine as a line of ink as long as the score is high.
func ScoreBar(name string, score int) fyne.CanvasObject {
	const thick = 3
	track, line := canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	line.CornerRadius = 2
	title, text := NewElided(Span{Text: name, Color: look.ColorFaint}), NewLine(Span{Text: strconv.Itoa(score), Bold: true})
	d := &Drawing{Things: []fyne.CanvasObject{track, line, title, text}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(50), look.Space(6)) }
	d.Lay = func(size fyne.Size) {
		left := min(look.Space(24), size.Width*0.45)
		h := title.MinSize().Height
		Put(title, fyne.NewPos(0, (size.Height-h)/2), fyne.NewSize(left-look.Space(2), h))
		room := max(0, size.Width-left-look.Space(5))
		at := fyne.NewPos(left, (size.Height-thick)/2)
		Put(track, at, fyne.NewSize(room, thick))
		Put(line, at, fyne.NewSize(room*float32(score)/9, thick))
		m := text.MinSize()
		Put(text, fyne.NewPos(size.Width-m.Width, (size.Height-m.Height)/2), m)
	}
	d.Paint = func() {
		track.FillColor, line.FillColor = theme.Color(look.ColorRule), theme.Color(look.ColorInk)
		title.Refresh()
		text.Refresh()
	}
	return show(d)
}

// ShareList reads the parts of a whole as stretches of one bar in one hue; beneath it, below
// one another, stand their names, which may be long, and figures, each behind a patch of its shade.
func ShareList(shares []Share) fyne.CanvasObject {
	names := Stack(0.5)
	for i, s := range shares {
		names.Add(RowGrow(1.5, 1, patch(i, len(shares)), NewElided(Span{Text: s.Name, Size: look.TextSmall, Color: look.ColorFaint}),
			NewLine(Span{Text: s.Text, Size: look.TextSmall, Color: look.ColorFaint})))
	}
	return Stack(2, ShareLine(shares), names)
}

// ShareLine is the bar alone, without names: lighter flours first, each a shade darker.
func ShareLine(shares []Share) fyne.CanvasObject {
	d := &Drawing{}
	parts := make([]*canvas.Rectangle, len(shares))
	for i := range parts {
		parts[i] = canvas.NewRectangle(color.Transparent)
		parts[i].CornerRadius = 2
		d.Things = append(d.Things, parts[i])
	}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(40), look.Space(4)) }
	d.Lay = func(size fyne.Size) {
		x := float32(0)
		for i, s := range shares {
			w := size.Width * float32(s.Part)
			Put(parts[i], fyne.NewPos(x, 0), fyne.NewSize(max(1, w-2), look.Space(4)))
			x += w
		}
	}
	d.Paint = func() {
		for i, p := range parts {
			p.FillColor = shade(i, len(parts))
		}
	}
	return show(d)
}

// shade is the hue of the i-th of n shares: each a little darker than the one before.
func shade(i, n int) color.Color {
	return mix(theme.Color(look.ColorDough), theme.Color(look.ColorInk), 0.75*float64(i)/float64(max(2, n)))
}

// patch is a small square of a share's shade.
func patch(i, n int) fyne.CanvasObject {
	square := canvas.NewRectangle(color.Transparent)
	d := &Drawing{Things: []fyne.CanvasObject{square}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(2.5), look.Space(4)) }
	d.Lay = func(size fyne.Size) {
		Put(square, fyne.NewPos(0, (size.Height-look.Space(2.5))/2), fyne.NewSquareSize(look.Space(2.5)))
	}
	d.Paint = func() { square.FillColor = shade(i, n) }
	return show(d)
}
