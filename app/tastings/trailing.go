package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// newTrailing puts a word, a seal and spans on one line that ends at the
// right. Where the spans are too long for that, they go on beneath.
func newTrailing(word *kit.Text, seal *fingerprint, spans []kit.Span) *fyne.Container {
	wrapped := kit.NewText(spans...)
	wrapped.SetAlign(fyne.TextAlignTrailing)
	return container.New(&trailing{}, word, seal, kit.NewLine(spans...), wrapped)
}

// trailing remembers its width, from which its height follows.
type trailing struct{ width float32 }

const trailingGap = 6

func (l *trailing) head(things []fyne.CanvasObject) fyne.Size {
	word, seal := things[0].MinSize(), things[1].MinSize()
	return fyne.NewSize(word.Width+trailingGap+seal.Width, max(word.Height, seal.Height))
}

// fits reports whether all of it stands on one line.
func (l *trailing) fits(things []fyne.CanvasObject, width float32) bool {
	return l.head(things).Width+trailingGap+things[2].MinSize().Width <= width
}

func (l *trailing) MinSize(things []fyne.CanvasObject) fyne.Size {
	s := l.head(things)
	if l.width > 0 && !l.fits(things, l.width) {
		s.Height += things[3].MinSize().Height
	}
	return s
}

func (l *trailing) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	head := l.head(things)
	x := size.Width - head.Width
	line, wrapped := things[2], things[3]
	if l.fits(things, size.Width) {
		m := line.MinSize()
		line.Show()
		wrapped.Hide()
		kit.Put(line, fyne.NewPos(size.Width-m.Width, (head.Height-m.Height)/2), m)
		x -= m.Width + trailingGap
	} else {
		line.Hide()
		wrapped.Show()
		kit.FitHeight(wrapped, size.Width)
		wrapped.Move(fyne.NewPos(0, head.Height+look.Space(0.5)))
	}
	for _, o := range things[:2] {
		m := o.MinSize()
		kit.Put(o, fyne.NewPos(x, (head.Height-m.Height)/2), m)
		x += m.Width + trailingGap
	}
}
