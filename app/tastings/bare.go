package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// bare is the frame of the pages of a sealed tasting: ink on paper, a line of
// words at the top, a line at the foot, and what matters between them.
type bare struct {
	widget.BaseWidget
	left, right *fyne.Container // of the top line
	body        *fyne.Container
	hint, act   *fyne.Container // of the foot
	scroll      *container.Scroll
}

// bareSize is how large it grows, in the middle of a window that is larger: what is read and
// what is pressed then stay together. Only for what would scroll it grows higher.
var bareSize = fyne.NewSize(1160, 820)

func newBare() *bare {
	b := &bare{left: container.NewStack(), right: container.NewStack(), body: container.NewStack(), hint: container.NewStack(), act: container.NewStack()}
	b.scroll = container.NewVScroll(b.body)
	b.ExtendBaseWidget(b)
	return b
}

// show fills the frame; parts may be nil.
func (b *bare) show(left, right, body, hint, act fyne.CanvasObject) {
	for box, o := range map[*fyne.Container]fyne.CanvasObject{b.left: left, b.right: right, b.body: body, b.hint: hint, b.act: act} {
		box.Objects = nil
		if o != nil {
			box.Objects = []fyne.CanvasObject{o}
		}
		box.Refresh()
	}
	b.scroll.ScrollToTop()
	b.Refresh()
}

func (b *bare) CreateRenderer() fyne.WidgetRenderer {
	d := &kit.Drawing{Of: b, Things: []fyne.CanvasObject{b.left, b.right, b.scroll, b.hint, b.act}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(80), look.Space(80)) }
	d.Lay = func(size fyne.Size) {
		side := look.Space(20)
		if size.Width < 900 {
			side = look.Space(6)
		}
		width := min(size.Width-2*side, bareSize.Width)
		side = (size.Width - width) / 2
		rightWidth := float32(0)
		if b.right.MinSize().Width > 0 {
			rightWidth = width * 0.62
		}
		h := max(kit.FitHeight(b.left, width-rightWidth), kit.FitHeight(b.right, rightWidth))
		act := b.act.MinSize()
		b.act.Resize(act)
		kit.FitHeight(b.hint, width-act.Width-look.Space(6))
		foot := max(act.Height, b.hint.MinSize().Height)
		// The wider room lets rings and bars around what has the focus be seen.
		pad := look.Space(4)
		body := kit.FitHeight(b.scroll.Content, width+2*pad)
		most := max(bareSize.Height, look.Space(32)+h+body+foot)
		top := look.Space(9) + max(0, size.Height-most)/2
		b.left.Move(fyne.NewPos(side, top))
		b.right.Move(fyne.NewPos(side+width-rightWidth, top))
		from := top + h + look.Space(9)
		mid := size.Height - max(0, size.Height-most)/2 - look.Space(10) - foot/2
		b.act.Move(fyne.NewPos(side+width-act.Width, mid-act.Height/2))
		b.hint.Move(fyne.NewPos(side, mid-b.hint.MinSize().Height/2))
		till := mid - foot/2 - look.Space(4)
		if foot == 0 {
			till = size.Height - look.Space(6)
		}
		kit.Put(b.scroll, fyne.NewPos(side-pad, from), fyne.NewSize(width+2*pad, max(0, till-from)))
	}
	d.Paint = b.scroll.Refresh
	return d
}

// inset leaves the room at each side that the frame adds to its body.
func inset(o fyne.CanvasObject) fyne.CanvasObject {
	pad := look.Space(4)
	return container.New(layout.NewCustomPaddedLayout(pad, pad, pad, pad), o)
}

// inkLink is a link without a colour, as everything is while a tasting is sealed.
func inkLink(words string, tapped func()) *kit.Link {
	return kit.NewLinkSpan(kit.Span{Text: words, Color: look.ColorFaint}, tapped)
}

// guideText is a title with its words, as a step that is done by hand.
func guideText(title, words string) fyne.CanvasObject {
	return kit.Stack(2, kit.Heading(title), kit.Lead(kit.Span{Text: words}))
}

// widthOf keeps a thing from growing wider than most points.
func widthOf(most float32, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(narrow{most}, o)
}

type narrow struct{ most float32 }

func (n narrow) MinSize(things []fyne.CanvasObject) fyne.Size { return things[0].MinSize() }
func (n narrow) Layout(things []fyne.CanvasObject, size fyne.Size) {
	things[0].Move(fyne.NewPos(0, 0))
	kit.FitHeight(things[0], min(n.most, size.Width))
}

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
