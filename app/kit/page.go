package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// PageOptions says what a page begins with. All of it may be changed later.
type PageOptions struct {
	Eyebrow string // small and faint, above the heading
	Heading string // the state of things in words
	// Actions stand at the right of the heading, the main one first.
	Actions []fyne.CanvasObject
	// Hint stands under the actions: what the main one will do.
	Hint fyne.CanvasObject
	Body fyne.CanvasObject
	// Measure is the widest that the body of a page of text grows. Zero: as wide as the
	// window, as every page's head and foot are.
	Measure float32
	// Fixed gives the body the height that is left instead of scrolling it: for
	// lists and grids, which scroll themselves. A body whose least height is more than
	// that scrolls even so.
	Fixed bool
}

// Page is the frame of a screen: an eyebrow, a heading that says the state of
// things, actions at the right, and a body that scrolls.
type Page struct {
	widget.BaseWidget
	eyebrow, heading *Text
	actions          *fyne.Container
	hint, body, foot *fyne.Container
	head             *fyne.Container
	column           *fyne.Container
	held             *fyne.Container // the body, which may be held back
	scroll           *container.Scroll
	fixed            bool
	room             float32 // how high the part is that scrolls
}

// NewPage makes a page.
func NewPage(o PageOptions) *Page {
	p := &Page{
		eyebrow: Eyebrow(""), heading: Heading(""),
		actions: container.New(&flowLayout{gap: look.Space(2), whole: true, begin: true, even: true}), hint: container.NewStack(), body: container.NewStack(), foot: container.NewStack(),
		fixed: o.Fixed,
	}
	p.head = container.New(headLayout{}, Stack(0, p.eyebrow, p.heading), Stack(2, p.actions, p.hint))
	p.held = container.New(measured(o.Measure), p.body)
	if p.fixed {
		p.column = container.NewBorder(container.New(layout.NewCustomPaddedLayout(0, look.Space(5), 0, 0), p.head), nil, nil, nil, p.held)
	} else {
		p.column = Stack(5, p.head, p.held)
	}
	p.scroll = container.NewVScroll(container.New(pageMargin{p}, p.column))
	p.scroll.OnScrolled = func(fyne.Position) { scrolled(p) }
	p.SetEyebrow(o.Eyebrow)
	p.SetHeading(o.Heading)
	p.SetActions(o.Hint, o.Actions...)
	p.SetBody(o.Body)
	p.SetFoot(nil)
	p.ExtendBaseWidget(p)
	return p
}

// SetEyebrow changes the line above the heading; empty hides it.
func (p *Page) SetEyebrow(s string) {
	p.eyebrow.SetText(s)
	SetVisible(p.eyebrow, s != "")
}

// SetHeading changes the heading.
func (p *Page) SetHeading(s string) {
	p.heading.SetText(s)
	SetVisible(p.heading, s != "")
}

// SetActions replaces the buttons at the right and the hint under them (may be nil).
func (p *Page) SetActions(hint fyne.CanvasObject, buttons ...fyne.CanvasObject) {
	keepFocus(p.actions, func() {
		p.actions.Objects = buttons
		SetVisible(p.actions, len(buttons) > 0)
		p.actions.Refresh()
	})
	SetOnly(p.hint, hint)
}

// SetBody replaces the body and keeps the scroll position where it can.
func (p *Page) SetBody(o fyne.CanvasObject) {
	SetOnly(p.body, o)
	p.head.Refresh() // the toolkit knows no window of a body that was never drawn, and draws nothing for it
}

// Hold keeps the body out of sight until Release: a page that has not read yet what it
// shows says nothing of it.
func (p *Page) Hold() { p.held.Hide() }

// Release shows the body again.
func (p *Page) Release() {
	if !p.held.Visible() {
		p.held.Show()
		p.Refresh()
	}
}

// Start is the main button of the page, where there is one that works: at its head or its
// foot, or else in an invitation in its body.
func (p *Page) Start() fyne.Focusable {
	for _, part := range []fyne.CanvasObject{p.actions, p.foot, p.held} {
		for _, b := range within[*Button](part) {
			if b.Main() && !b.Disabled() {
				return b
			}
		}
	}
	return nil
}

// SetFoot replaces what stays at the bottom (may be nil).
func (p *Page) SetFoot(o fyne.CanvasObject) { SetOnly(p.foot, o) }

// Height is how high a part of the page is in sight, its head and what is below it.
func (p *Page) Height() float32 { return p.room }

// Room says how much height of the body is in sight before it is scrolled.
func (p *Page) Room() float32 { return p.room - look.Space(7) - p.held.Position().Y }

// Stack is the function Stack for a part of a page of few words: what it holds stands further apart
// in a high window, from least steps of the grid in one of 800 points to most in one of 1440.
func (p *Page) Stack(least, most float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(airyStack{p, look.Space(least), look.Space(most)}, things...)
}

type airyStack struct {
	p           *Page
	least, most float32
}

func (l airyStack) stack() stackLayout {
	high := max(0, min((l.p.room-800)/(1440-800), 1))
	return stackLayout{gap: l.least + high*(l.most-l.least)}
}

func (l airyStack) MinSize(things []fyne.CanvasObject) fyne.Size { return l.stack().MinSize(things) }

func (l airyStack) Layout(things []fyne.CanvasObject, size fyne.Size) { l.stack().Layout(things, size) }

// Offset says how far the page is scrolled, to come back to later.
func (p *Page) Offset() float32 { return p.scroll.Offset.Y }

// ScrollTo goes to an offset that Offset gave.
func (p *Page) ScrollTo(y float32) { p.scroll.ScrollToOffset(fyne.NewPos(0, y)) }

// ScrollToPart brings the beginning of a part of the body to the top, as far as it goes.
func (p *Page) ScrollToPart(part fyne.CanvasObject) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	most := p.scroll.Content.Size().Height - p.scroll.Size().Height
	p.ScrollTo(min(max(0, p.scroll.Offset.Y+at(part).Y-at(p.scroll).Y-look.Space(6)), max(0, most)))
}

func (p *Page) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: p, Things: []fyne.CanvasObject{p.scroll, p.foot}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(80), look.Space(60)) }
	d.Lay = func(size fyne.Size) {
		rest := size.Height
		if p.foot.Visible() {
			left, width := p.span(size.Width)
			h := FitHeight(p.foot, width)
			rest -= h + look.Space(6)
			p.foot.Move(fyne.NewPos(left, rest+look.Space(1)))
		}
		p.room = max(0, rest)
		// The height of the column follows from its width, so that it is told first.
		if !p.fixed {
			FitHeight(p.scroll.Content, size.Width)
		}
		p.scroll.Resize(fyne.NewSize(size.Width, p.room))
		p.scroll.Refresh()
	}
	d.Paint = func() {
		p.head.Refresh()
		p.scroll.Refresh()
	}
	return d
}

// span gives where the column begins and how wide it is.
func (p *Page) span(width float32) (left, w float32) {
	left = look.Space(10)
	if width < 640 {
		left = look.Space(4)
	}
	return left, width - 2*left
}

// measured keeps a thing from growing wider than a measure, if that is not zero.
type measured float32

func (m measured) MinSize(things []fyne.CanvasObject) fyne.Size { return things[0].MinSize() }

func (m measured) Layout(things []fyne.CanvasObject, size fyne.Size) {
	if m > 0 {
		size.Width = min(size.Width, float32(m))
	}
	Put(things[0], fyne.NewPos(0, 0), size)
}

// pageMargin gives the column of a page its place.
type pageMargin struct{ p *Page }

func (m pageMargin) MinSize(things []fyne.CanvasObject) fyne.Size {
	// The room beneath the column gives way before a page scrolls for its sake.
	high := look.Space(7) + things[0].MinSize().Height
	if high+look.Space(1) <= m.p.room {
		return fyne.NewSize(0, min(high+look.Space(8), m.p.room))
	}
	return fyne.NewSize(0, high+look.Space(8))
}

func (m pageMargin) Layout(things []fyne.CanvasObject, size fyne.Size) {
	left, w := m.p.span(size.Width)
	things[0].Move(fyne.NewPos(left, look.Space(7)))
	if m.p.fixed {
		FitHeight(m.p.head, w)
		high := size.Height - look.Space(7)
		if size.Height > m.p.room {
			high -= look.Space(8)
		}
		things[0].Resize(fyne.NewSize(w, high))
		return
	}
	FitHeight(things[0], w)
}

// headLayout gives the actions their width and the heading the rest. Without the room for
// that the actions go under it, on as many lines as they need, and in a narrow window as well where the heading would
// take more lines beside them.
type headLayout struct{}

// roomyHead is how wide a head is from which on the actions stay beside the heading: that of
// a window of about 1000 points.
const roomyHead = 772

func (headLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	words, actions := things[0].MinSize(), things[1].MinSize()
	if things[1].Position().Y > 0 {
		return fyne.NewSize(max(words.Width, actions.Width), words.Height+look.Space(2)+actions.Height)
	}
	return fyne.NewSize(max(words.Width, actions.Width), max(words.Height, actions.Height))
}

func (headLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	words, actions := things[0], things[1]
	want := actions.MinSize()
	gap := look.Space(6)
	h := FitHeight(words, size.Width)
	if want.Width == 0 || size.Width-want.Width-gap >= look.Space(80) {
		beside := FitHeight(words, size.Width-want.Width-gap)
		if want.Width == 0 || size.Width >= roomyHead || beside <= h {
			FitHeight(actions, want.Width)
			actions.Move(fyne.NewPos(size.Width-want.Width, 0))
			return
		}
		h = FitHeight(words, size.Width)
	}
	FitHeight(actions, size.Width)
	actions.Move(fyne.NewPos(0, h+look.Space(2)))
}

// SetOnly makes o the one thing in a box and hides the box without it. If the keyboard was
// on something in the box, what stands in its place has it from then on.
func SetOnly(box *fyne.Container, o fyne.CanvasObject) {
	keepFocus(box, func() {
		if o == nil {
			box.Objects = nil
		} else {
			box.Objects = []fyne.CanvasObject{o}
		}
		SetVisible(box, o != nil)
		box.Refresh()
	})
}

// SetVisible shows a thing, or takes it away with its room.
func SetVisible(o fyne.CanvasObject, yes bool) {
	switch {
	case yes == o.Visible():
	case yes:
		o.Show()
	default:
		o.Hide()
	}
}

// SetEnabled lets a thing be worked, or not.
func SetEnabled(w fyne.Disableable, yes bool) {
	if yes {
		w.Enable()
	} else {
		w.Disable()
	}
}
