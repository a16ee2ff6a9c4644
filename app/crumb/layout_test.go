package crumb

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// The picture has no bands above and below it, its tools stand beneath it as long as it is
// no smaller for that, and their words begin where it does. Where it would be smaller than
// the figures beside it, they go under it and scroll with the page.
func TestThePictureFillsItsBox(t *testing.T) {
	maintest.App(t)
	for _, c := range []struct {
		size  fyne.Size
		under bool
	}{{fyne.NewSize(668, 500), true}, {fyne.NewSize(570, 350), true}, {fyne.NewSize(1052, 680), false}, {fyne.NewSize(1052, 400), false}} {
		var tools []fyne.CanvasObject
		for range 6 {
			tools = append(tools, kit.QuietButton("Outline", nil))
		}
		foot, picture := kit.QuietRow(toolGap, tools...), canvas.NewRectangle(nil)
		long := canvas.NewRectangle(nil)
		long.SetMinSize(fyne.NewSize(100, 900))
		side := newSideScroll(long)
		var page *kit.Page
		box := container.New(&beside{ratio: func() float32 { return 0.75 }, room: func() float32 { return page.Room() }, side: side}, picture, foot, side.box)
		page = kit.NewPage(kit.PageOptions{Fixed: true, Body: box})
		w := test.NewWindow(page)
		w.SetPadded(false)
		margins := fyne.NewSize(2*look.Space(10), look.Space(12))
		w.Resize(c.size.Add(margins))
		got := picture.Size()
		if got.Height > 0.75*got.Width+1 {
			t.Errorf("%v: the picture's box is %v", c.size, got)
		}
		below := foot.Position().Y + foot.Size().Height
		if below > c.size.Height+1 && (!c.under || got.Height > 0.56*c.size.Width) || foot.Position().Y < got.Height-1 {
			t.Errorf("%v: the tools reach from %v to %v", c.size, foot.Position().Y, below)
		}
		if under := side.box.Position().Y >= below; under != c.under {
			t.Errorf("%v: the figures stand at %v, the tools end at %v", c.size, side.box.Position(), below)
		}
		if c.under && (got.Width < 0.7*c.size.Width || side.content.Size().Height < 900 || side.box.Objects[0] == side.scroll) {
			t.Errorf("%v: the picture is %v, of the figures %v are in sight", c.size, got, side.box.Size())
		}
		driver := fyne.CurrentApp().Driver()
		words := test.WidgetRenderer(tools[0].(fyne.Widget)).Objects()[2]
		if x := driver.AbsolutePositionForObject(tools[0]).X + words.Position().X; x != driver.AbsolutePositionForObject(picture).X {
			t.Errorf("%v: the tools begin at %v", c.size, x)
		}
		w.Close()
	}
}

// The large figures keep their place in the narrowest column, free of the bar that scrolls.
func TestTheLargeFiguresFit(t *testing.T) {
	maintest.App(t)
	p := newFigurePanel(pagestest.New(t).Env.NewChart("", chartSize, nil), kit.Small(""))
	s := summary()
	s.Figures[0].Off, s.Figures[1].Off = 0.163, 4.2
	p.sync(s, measure.Units{})
	room := figuresWidth(0) - look.Space(4)
	p.box.Resize(fyne.NewSize(room, 2000))
	for _, id := range great {
		r := p.rows[id]
		if r.MinSize().Width > r.Size().Width || r.Position().X+r.MinSize().Width > room {
			t.Errorf("%s is %v wide at %v, of %v", id, r.MinSize().Width, r.Position().X, room)
		}
		figure := test.WidgetRenderer(r).Objects()[0].(*fyne.Container).Objects[1].(*kit.Text)
		if at := r.Position().X + figure.MinSize().Width; at > room {
			t.Errorf("%s %q reaches %v of %v", id, figure.String(), at, room)
		}
	}
}

// What is withheld is folded into one line until it is asked for; the figures that lead stay.
func TestWithheldFiguresFold(t *testing.T) {
	maintest.App(t)
	p := newFigurePanel(pagestest.New(t).Env.NewChart("", chartSize, nil), kit.Small(""))
	s := summary()
	p.sync(s, measure.Units{})
	if p.rows[crumb.MeanArea].Visible() || !p.rows[crumb.MedianArea].Visible() || !p.rest.Visible() || p.rest.Text() != "1 figures withheld" {
		t.Errorf("mean area is seen: %v, median area: %v; the line says %q", p.rows[crumb.MeanArea].Visible(), p.rows[crumb.MedianArea].Visible(), p.rest.Text())
	}
	p.rest.OnTapped()
	if !p.rows[crumb.MeanArea].Visible() || p.rest.Visible() {
		t.Error("asked for, it stays folded")
	}
	for i := range s.Figures {
		s.Figures[i].Trust = crumb.Withheld
	}
	p.whole = false
	p.sync(s, measure.Units{})
	if !p.rows[crumb.Porosity].Visible() || p.rows[crumb.MedianArea].Visible() {
		t.Error("with everything withheld the figures that lead are folded, or others are not")
	}
}

// A list without photos fits its window: there is nothing to scroll to.
func TestAnEmptyListDoesNotScroll(t *testing.T) {
	b := pagestest.New(t)
	p := b.Show(Routes()[pages.Crumb], pages.Route{Name: pages.Crumb}).(*listPage)
	b.Wait()
	b.Window.Resize(fyne.NewSize(735, 700))
	for _, s := range pagestest.All[*container.Scroll](p.page) {
		if need := s.Content.MinSize().Height; need > s.Size().Height {
			t.Errorf("%v high it needs %v", s.Size().Height, need)
		}
	}
}

// Two photos side by side have no bands above and below them, however narrow they stand.
func TestTwoPhotosFillTheirBoxes(t *testing.T) {
	maintest.App(t)
	for _, width := range []float32{420, 700, 1052} {
		photo := &journal.Photo{Width: 1120, Height: 840}
		pair := &twins{sides: [2]*side{{photo: photo}, {photo: photo}}, after: func() {}}
		var things []fyne.CanvasObject
		for range 4 {
			things = append(things, container.NewStack())
		}
		pair.Layout(things, fyne.NewSize(width, 400))
		if got := things[1].Size(); math.Abs(float64(got.Height-got.Width*0.75)) > 1 {
			t.Errorf("%v wide a photo four wide and three high has a box of %v", width, got)
		}
	}
}
