package crumb

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// beside gives the figures at the right their width and the picture the rest, of which it
// takes no more than its own form fills. The tools stand below the picture, or across the
// page where it would be smaller for their lines. Where the picture would not be the larger
// of the two, the figures go under it, and the page scrolls.
type beside struct {
	ratio func() float32
	room  func() float32 // how much height is in sight before it is scrolled
	side  *sideScroll
	width float32
}

// figuresWidth is as wide as the figures need to stand two and two.
func figuresWidth(all float32) float32 { return max(look.Space(84), min(look.Space(104), all*0.36)) }

// besideGap parts the picture from what stands beside or below it.
var besideGap = look.Space(7)

func (b *beside) under() bool {
	w := figuresWidth(b.width)
	return b.width > 0 && b.width-w-besideGap < 1.25*w
}

// high is how high the picture stands over the figures: as the width lets it, and so that its
// tools are in sight with it, unless it would be much narrower than the page for that.
func (b *beside) high(tools fyne.CanvasObject) float32 {
	most := max(0.55*b.width, b.room()-tools.MinSize().Height-look.Space(2))
	if r := b.ratio(); r > 0 {
		return min(b.width*r, most)
	}
	return most
}

func (b *beside) MinSize(things []fyne.CanvasObject) fyne.Size {
	least := fyne.NewSize(look.Space(100), look.Space(80))
	if b.under() {
		least.Height = b.high(things[1]) + things[1].MinSize().Height + besideGap + things[2].MinSize().Height
	}
	return least
}

func (b *beside) Layout(things []fyne.CanvasObject, size fyne.Size) {
	picture, tools, figures := things[0], things[1], things[2]
	b.width = size.Width
	b.side.turn(!b.under())
	if b.under() {
		foot := kit.FitHeight(tools, size.Width)
		high, wide := b.high(tools), size.Width
		if r := b.ratio(); r > 0 {
			wide = min(wide, high/r)
		}
		kit.Put(picture, fyne.NewPos(0, 0), fyne.NewSize(wide, high))
		tools.Move(fyne.NewPos(0, high))
		kit.FitHeight(figures, size.Width)
		figures.Move(fyne.NewPos(0, high+foot+besideGap))
		return
	}
	w := figuresWidth(size.Width)
	left := size.Width - w - besideGap
	whole := size.Height // as high as the picture would like to be
	if r := b.ratio(); r > 0 {
		whole = left * r
	}
	under := func(width float32) float32 { return min(whole, size.Height-kit.FitHeight(tools, width)) }
	beside := size.Height
	high := under(left)
	if across := under(size.Width); across > high {
		high, beside = across, size.Height-tools.Size().Height
		tools.Move(fyne.NewPos(0, beside))
	} else {
		under(left)
		tools.Move(fyne.NewPos(0, high))
	}
	kit.Put(picture, fyne.NewPos(0, 0), fyne.NewSize(left, high))
	kit.Put(figures, fyne.NewPos(size.Width-w, 0), fyne.NewSize(w, beside))
}

// sideScroll holds what may scroll by itself, or else with the page.
type sideScroll struct {
	box, content *fyne.Container
	scroll       *container.Scroll
}

func newSideScroll(content fyne.CanvasObject) *sideScroll {
	s := &sideScroll{content: container.New(&margin{right: look.Space(4)}, content)}
	s.scroll = container.NewVScroll(s.content)
	s.box = container.NewStack(s.scroll)
	return s
}

// turn lets it scroll by itself, or not.
func (s *sideScroll) turn(scrolls bool) {
	switch is := s.box.Objects[0] == s.scroll; {
	case scrolls == is:
	case scrolls:
		s.scroll.Content = s.content
		s.box.Objects = []fyne.CanvasObject{s.scroll}
	default:
		s.scroll.Content = kit.Gap(0)
		s.box.Objects = []fyne.CanvasObject{s.content}
	}
}

// toolGap parts one tool from the next.
const toolGap = 0.5

// margin keeps what scrolls away from the bar that scrolls it.
type margin struct{ right float32 }

func (m *margin) MinSize(things []fyne.CanvasObject) fyne.Size {
	s := things[0].MinSize()
	return fyne.NewSize(look.Space(60), s.Height+look.Space(6))
}

func (m *margin) Layout(things []fyne.CanvasObject, size fyne.Size) {
	w := size.Width - m.right
	things[0].Resize(fyne.NewSize(w, things[0].MinSize().Height))
	things[0].Resize(fyne.NewSize(w, max(things[0].MinSize().Height, size.Height-look.Space(6))))
}

// twins lays two views side by side, each as wide as its picture fills, with a caption
// beneath each, and tells when they have got their size.
type twins struct {
	width float32
	sides [2]*side
	after func()
}

// twinsGap parts one of them from the other.
var twinsGap = look.Space(6)

func (t *twins) half() float32 { return (t.width - twinsGap) / 2 }

// high is how tall the pictures stand: so that the higher of them fills its half, unless it
// is upright.
func (t *twins) high() float32 {
	high := float32(0)
	for _, s := range t.sides {
		high = max(high, t.half()*s.ratio())
	}
	return max(0, min(high, 0.8*t.half()))
}

func (t *twins) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(100), t.high()+look.Space(2)+max(things[2].MinSize().Height, things[3].MinSize().Height))
}

func (t *twins) Layout(things []fyne.CanvasObject, size fyne.Size) {
	changed := t.width != size.Width
	t.width = size.Width
	w := t.half()
	for i, s := range t.sides {
		x := float32(i) * (w + twinsGap)
		kit.Put(things[i], fyne.NewPos(x, 0), fyne.NewSize(min(w, t.high()/s.ratio()), t.high()))
		kit.Put(things[2+i], fyne.NewPos(x, t.high()+look.Space(2)), fyne.NewSize(w, things[2+i].MinSize().Height))
	}
	if changed {
		t.after()
	}
}
