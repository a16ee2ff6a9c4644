package crumb

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// beside gives the figures at the right their width and the picture the rest, of which it
// takes no more than its own form fills. The tools stand below the picture, or across the
// page where it would be smaller for their lines.
type beside struct{ ratio func() float32 }

// figuresWidth is as wide as the figures need to stand two and two.
func figuresWidth(all float32) float32 { return max(look.Space(84), min(look.Space(104), all*0.36)) }

func (*beside) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(150), look.Space(80))
}

func (b *beside) Layout(things []fyne.CanvasObject, size fyne.Size) {
	picture, tools, figures := things[0], things[1], things[2]
	w, gap := figuresWidth(size.Width), look.Space(7)
	left := size.Width - w - gap
	whole := size.Height // as high as the picture would like to be
	if r := b.ratio(); r > 0 {
		whole = left * r
	}
	under := func(width float32) float32 {
		tools.Resize(fyne.NewSize(width, tools.MinSize().Height))
		tools.Resize(fyne.NewSize(width, tools.MinSize().Height)) // its height follows from its width
		return min(whole, size.Height-tools.Size().Height)
	}
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
	views [2]*kit.PhotoView
	after func()
}

// high is how tall the pictures stand: as a page's width lets them.
func (t *twins) high() float32 { return max(240, min(520, 0.27*t.width)) }

func (t *twins) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(100), t.high()+look.Space(2)+max(things[2].MinSize().Height, things[3].MinSize().Height))
}

func (t *twins) Layout(things []fyne.CanvasObject, size fyne.Size) {
	changed := t.width != size.Width
	t.width = size.Width
	gap := look.Space(4)
	w := (size.Width - gap) / 2
	for i := range 2 {
		x := float32(i) * (w + gap)
		things[i].Move(fyne.NewPos(x, 0))
		wide := w
		if p := t.views[i].PictureSize(); p.Y > 0 {
			wide = min(w, t.high()*float32(p.X)/float32(p.Y))
		}
		things[i].Resize(fyne.NewSize(wide, t.high()))
		kit.Put(things[2+i], fyne.NewPos(x, t.high()+look.Space(2)), fyne.NewSize(w, things[2+i].MinSize().Height))
	}
	if changed {
		t.after()
	}
}
