package kit

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// glideTime is how long something takes to its new place: long enough for the eye to
// follow, too short to be waited for.
const glideTime = 160 * time.Millisecond

// SetStill says whether nothing is to move: what changes its place is there at once.
func (f *Frame) SetStill(yes bool) { f.still = yes }

// Moving says whether something is on its way.
func (f *Frame) Moving() bool { return f.moving > 0 }

// Glide moves something in the window that o is in. It tells tick how much of the way is
// done, up to 1; at once, where nothing is to move or o is in no window. Stop leaves it
// where it is.
func Glide(o fyne.CanvasObject, tick func(done float32)) (stop func()) {
	f := frameOf(o)
	if f == nil || f.still {
		tick(1)
		return func() {}
	}
	f.moving++
	ended := false
	end := func() {
		if !ended {
			ended = true
			f.moving--
		}
	}
	halt := f.Animate(glideTime, func(done float32) {
		if ended {
			return
		}
		if done >= 1 {
			end()
		}
		tick(done)
	})
	return func() {
		end()
		halt()
	}
}

// animate tells tick at each frame, for as long as d, how far it is.
func animate(d time.Duration, tick func(done float32)) (stop func()) {
	a := fyne.NewAnimation(d, tick)
	a.Curve = fyne.AnimationEaseOut
	a.Start()
	return a.Stop
}

// Opening holds rows to which more can come: they come into sight from above, and what is
// beneath gives way, so that the eye sees where they came from. It is [Glide] that moves.
type Opening struct {
	widget.BaseWidget
	content fyne.CanvasObject
	clip    *container.Clip // around the content while it moves
	from    float32         // the height that it opens from
	done    float32         // how much of the way is done
	stop    func()
}

// NewOpening makes one of rows.
func NewOpening(content fyne.CanvasObject) *Opening {
	o := &Opening{content: content, clip: newClip(content), done: 1, stop: func() {}}
	o.ExtendBaseWidget(o)
	return o
}

// Grow changes the rows. If they are higher then, they open; if they are not, they are
// as high at once.
func (o *Opening) Grow(change func()) {
	o.stop()
	o.from, o.done = o.Size().Height, 1
	change()
	if o.from <= 0 || o.content.MinSize().Height <= o.from {
		o.Refresh()
		return
	}
	o.done = 0
	o.stop = Glide(o, func(done float32) {
		o.done = done
		o.Refresh()
	})
}

func (o *Opening) moving() bool { return o.done < 1 }

func (o *Opening) CreateRenderer() fyne.WidgetRenderer { return &openingRenderer{o} }

type openingRenderer struct{ o *Opening }

func (r *openingRenderer) Destroy() {}

func (r *openingRenderer) Objects() []fyne.CanvasObject {
	if r.o.moving() {
		return []fyne.CanvasObject{r.o.clip}
	}
	return []fyne.CanvasObject{r.o.content}
}

func (r *openingRenderer) MinSize() fyne.Size {
	s := r.o.content.MinSize()
	if r.o.moving() {
		s.Height = r.o.from + (s.Height-r.o.from)*r.o.done
	}
	return s
}

// Layout gives the rows the height that they have once they are open.
func (r *openingRenderer) Layout(size fyne.Size) {
	if !r.o.moving() {
		Put(r.o.content, fyne.NewPos(0, 0), size)
		return
	}
	side := look.Space(3) // rings and washes stand out this far
	Put(r.o.clip, fyne.NewPos(-side, -side), size.AddWidthHeight(2*side, side+ringReach))
	r.o.content.Move(fyne.NewPos(side, side))
	FitHeight(r.o.content, size.Width)
}

func (r *openingRenderer) Refresh() {
	r.Layout(r.o.Size())
	r.o.content.Refresh()
}

// newClip cuts off what of a thing reaches beyond it. The toolkit's own is not one of the
// window's widgets before it is drawn: until then nothing in it can be given the keyboard.
func newClip(content fyne.CanvasObject) *container.Clip {
	c := container.NewClip(content)
	c.ExtendBaseWidget(c)
	return c
}
