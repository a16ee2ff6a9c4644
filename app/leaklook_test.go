package app

import (
	"crypto/sha256"
	"fmt"
	"image"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
)

// A sight is what one screen tells: what is drawn on it, and all its words.
type sight struct {
	name  string
	drawn [sha256.Size]byte
	words []string
}

// perPoint is how many pixels are drawn for a point, for the sake of time. Every
// colour and every line is in the picture; where things are, to the point, is
// among the words.
const perPoint = 0.5

// show puts the journal into a window.
func (lw *leakWorld) show(a fyne.App) {
	lw.loop = maintest.New()
	lw.w = compose(a, lw.j, lw.loop.Do)
	lw.w.win.Canvas().(test.WindowlessCanvas).SetScale(perPoint)
	lw.resize(800)
	lw.w.env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(filepath.Join(lw.saved, o.Name)) }
}

// look goes to a place and keeps what is to be seen there.
func (lw *leakWorld) look(name string, p pages.Route) {
	lw.t.Helper()
	lw.w.Go(p)
	lw.keep(name)
}

// keep keeps what the window shows now: what keepWords does, and what is drawn of
// the page from its top to its end.
func (lw *leakWorld) keep(name string) {
	lw.t.Helper()
	lw.keepWords(name)
	lw.unfold()
	lw.seen[len(lw.seen)-1].drawn = lw.drawn()
}

// keepWords keeps every widget and text in the window with its place, in sight
// or not; the title, the keys, what undo would tell and what can be found.
func (lw *leakWorld) keepWords(name string) {
	lw.t.Helper()
	hideSeals(lw.w.win.Canvas())
	lw.settle()
	if lw.height != 800 { // the test driver lays out on a change of size alone
		lw.resize(800)
	} else {
		lw.resize(801)
	}
	s := sight{name: name}
	for _, thing := range outline.Of(lw.w.win) {
		s.words = append(s.words, fmt.Sprintf("%+v", thing))
	}
	undo, redo := lw.j.Steps()
	s.words = append(s.words, "title: "+lw.w.win.Title(), "undo: "+undo, "redo: "+redo)
	for _, g := range lw.w.keys.Groups() {
		for _, k := range g.Keys {
			s.words = append(s.words, fmt.Sprintf("key: %s %s %s", g.Name, k.Name, k.Doc))
		}
	}
	for _, f := range lw.w.everything() {
		s.words = append(s.words, fmt.Sprintf("found: %s %+v", f.words, f.place))
	}
	lw.note(s)
}

// note adds a sight, with the seal masked.
func (lw *leakWorld) note(s sight) {
	for i, words := range s.words {
		s.words[i] = strings.ReplaceAll(words, lw.seal, "SEAL")
	}
	lw.seen = append(lw.seen, s)
}

// settle waits for all that a page does in the background.
func (lw *leakWorld) settle() {
	lw.loop.Settle(lw.w.env.Wait, lw.w.env.Thumbs.Wait)
	everyObject(lw.w.win.Canvas(), func(o fyne.CanvasObject) {
		if v, ok := o.(*kit.PhotoView); ok {
			v.Wait()
		}
	})
}

// unfold makes the window as tall as its page, so that nothing of it is out of
// the picture.
func (lw *leakWorld) unfold() {
	more := float32(0)
	everyObject(lw.w.win.Canvas(), func(o fyne.CanvasObject) {
		if s, ok := o.(*container.Scroll); ok && s.Content != nil {
			more = max(more, s.Content.MinSize().Height-s.Size().Height)
		}
	})
	if more > 0 {
		lw.resize(lw.height + int(more) + 1)
	}
}

// resize gives the window another height.
func (lw *leakWorld) resize(height int) {
	lw.height = height
	lw.w.win.Resize(fyne.NewSize(1280, float32(height)))
}

// drawn is the fingerprint of what is drawn in the window, with its charts: of the pixels
// where they are painted, else of everything that they are painted from, which is sooner
// written down than painted and leaves nothing out that the pixels show.
func (lw *leakWorld) drawn() (sum [sha256.Size]byte) {
	lw.t.Helper()
	c := lw.w.win.Canvas()
	drawCharts(c)
	hideSeals(c)
	if lw.paints {
		return sha256.Sum256(pixelsOf(c.Capture()))
	}
	forget()
	h := sha256.New()
	for _, o := range append([]fyne.CanvasObject{c.Content()}, c.Overlays().List()...) {
		lw.write(h, o, fyne.Position{}, c.Scale())
	}
	h.Sum(sum[:0])
	return sum
}

// write writes down all that is drawn of an object and where, in the order in which it is drawn.
func (lw *leakWorld) write(out io.Writer, o fyne.CanvasObject, at fyne.Position, scale float32) {
	lw.t.Helper()
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	switch o := o.(type) {
	case *canvas.Text, *canvas.Rectangle, *canvas.Circle, *canvas.Line, *canvas.LinearGradient:
		fmt.Fprintf(out, "%T %v %+v\n", o, at, o)
	case *canvas.Image:
		fmt.Fprintf(out, "image %v %v %v %v %v %v %v\n", at, o.Size(), o.Translucency, o.FillMode, o.ScaleMode, o.CornerRadius, o.File)
		if o.Resource != nil {
			fmt.Fprintf(out, "%s %x\n", o.Resource.Name(), sha256.Sum256(o.Resource.Content()))
		}
		if o.Image != nil {
			fmt.Fprintf(out, "%v %x\n", o.Image.Bounds(), sha256.Sum256(pixelsOf(o.Image)))
		}
	case *canvas.Raster:
		pixels := func(points float32) int { return int(math.Ceil(float64(points * scale))) } // as the painter does
		fmt.Fprintf(out, "raster %v %v %v %v ", at, o.Size(), o.Translucency, o.ScaleMode)
		if w, h := pixels(o.Size().Width), pixels(o.Size().Height); w > 0 && h > 0 {
			fmt.Fprintf(out, "%x\n", sha256.Sum256(pixelsOf(o.Generator(w, h))))
		}
	case *fyne.Container:
		for _, child := range o.Objects {
			lw.write(out, child, at, scale)
		}
	case fyne.Widget:
		_, scrolls := o.(*container.Scroll)
		fmt.Fprintf(out, "%v %v %v\n", at, o.Size(), scrolls)
		for _, child := range test.WidgetRenderer(o).Objects() {
			lw.write(out, child, at, scale)
		}
	case layout.SpacerObject:
	default:
		lw.t.Fatalf("nobody knows how a %T is drawn", o)
	}
}

func pixelsOf(img image.Image) []byte {
	switch img := img.(type) {
	case *image.NRGBA:
		return img.Pix
	case *image.RGBA:
		return img.Pix
	}
	b := img.Bounds()
	out := image.NewNRGBA(b)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			out.Set(x, y, img.At(x, y))
		}
	}
	return out.Pix
}

// everyObject calls fn for every object of a canvas.
func everyObject(c fyne.Canvas, fn func(fyne.CanvasObject)) {
	everyUnder(c.Content(), fn)
	for _, o := range c.Overlays().List() {
		everyUnder(o, fn)
	}
}

// everyUnder calls fn for an object and all that it is made of.
func everyUnder(o fyne.CanvasObject, fn func(fyne.CanvasObject)) {
	if o == nil {
		return
	}
	fn(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			everyUnder(child, fn)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			everyUnder(child, fn)
		}
	}
}

func hideSeals(c fyne.Canvas) {
	everyObject(c, func(o fyne.CanvasObject) {
		if fmt.Sprintf("%T", o) == "*tastings.fingerprint" {
			o.Hide()
		}
	})
}

// drawCharts has the charts drawn as large as the picture will show them: by
// themselves they are asked for only when the window is drawn.
func drawCharts(c fyne.Canvas) {
	everyObject(c, func(o fyne.CanvasObject) {
		f, ok := o.(*kit.ChartFrame)
		if !ok {
			return
		}
		everyUnder(f, func(o fyne.CanvasObject) {
			if r, ok := o.(*canvas.Raster); ok {
				pixels := func(points float32) int { return int(math.Ceil(float64(points * c.Scale()))) } // as the painter does
				r.Generator(pixels(r.Size().Width), pixels(r.Size().Height))
			}
		})
		f.Wait()
	})
}

// without gives the words that are not among others.
func without(words, others []string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(s string) bool { return slices.Contains(others, s) })
}

// tells lists how the second of two walks differs from the first.
func tells(one, other []sight) []string {
	if len(one) != len(other) {
		return []string{fmt.Sprintf("%d screens, and %d", len(one), len(other))}
	}
	var out []string
	for i, s := range one {
		if s.name != other[i].name {
			out = append(out, fmt.Sprintf("%s comes in the place of %s", other[i].name, s.name))
		}
		if !slices.Equal(s.words, other[i].words) {
			out = append(out, fmt.Sprintf("%s tells by words:\n%q\n%q", s.name, without(s.words, other[i].words), without(other[i].words, s.words)))
		}
		if s.drawn != other[i].drawn {
			out = append(out, s.name+" tells by what is drawn")
		}
	}
	return out
}
