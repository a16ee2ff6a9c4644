package kit_test

import (
	"fmt"
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// pixel is what is drawn at a place of a window.
func pixel(img image.Image, x, y int) color.NRGBA {
	return color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
}

// What goes on beyond the edge of a scroller is cut off there, and no bar is drawn over it.
func TestNothingIsDrawnAlongTheEdgeOfAScroller(t *testing.T) {
	long := canvas.NewRectangle(look.Light().Paper)
	long.SetMinSize(fyne.NewSize(200, 900))
	scroll := container.NewVScroll(long)
	win := window(t, scroll, 200, 200)
	scroll.ScrollToOffset(fyne.NewPos(0, 300))
	img := win.Canvas().Capture()
	for _, y := range []int{0, 1, 4, 195, 198, 199} {
		if got := pixel(img, 60, y); got != look.Light().Paper {
			t.Errorf("row %d is %v, paper is %v", y, got, look.Light().Paper)
		}
	}
}

// A menu is told from the page by its edge, and so is a menu within it once that is open.
func TestAMenuHasAnEdge(t *testing.T) {
	c := kit.NewChoiceField("Outcome", "which", []string{"Score", "Height", "Open area"}, nil)
	c.SetGroups([]string{"", "Crumb", "Crumb"})
	win := window(t, container.NewStack(canvas.NewRectangle(look.Light().Paper), container.NewWithoutLayout(c)), 500, 400)
	c.Resize(c.MinSize())
	c.Move(fyne.NewPos(40, 40))
	// From either side of the window the first that is not paper is dark: an edge, and not
	// the paper of the menu itself.
	edged := func(what string, y int) (right int) {
		t.Helper()
		img := win.Canvas().Capture()
		other := func(x int) bool { return pixel(img, x, y) != look.Light().Paper && pixel(img, x, y).A > 0 }
		left := 0
		for right = 499; right > 0 && !other(right); right-- {
		}
		for left < right && !other(left) {
			left++
		}
		for _, x := range []int{left, right} {
			if got := pixel(img, x, y); got.R > 0xD0 {
				t.Errorf("%s: at %d the first that is seen of it is %v", what, x, got)
			}
		}
		return right
	}
	c.Open()
	menu := win.Canvas().Focused()
	if menu == nil {
		t.Fatal("the menu has not the keyboard")
	}
	y := 40 + int(c.Size().Height) + 60
	alone := edged("the menu", y)
	for _, name := range []fyne.KeyName{fyne.KeyDown, fyne.KeyDown, fyne.KeyRight} {
		menu.TypedKey(key(name))
	}
	if both := edged("with the menu within it", y); both <= alone {
		t.Fatalf("the menu within it is not open: it ends at %d, as before", both)
	}
	menu.TypedKey(key(fyne.KeyDown))
	menu.TypedKey(key(fyne.KeyReturn))
	if c.Word() != "Open area" {
		t.Errorf("the keys chose %q", c.Word())
	}
	c.Open()
	win.Canvas().Focused().TypedKey(key(fyne.KeyEscape))
	if win.Canvas().Overlays().Top() != nil {
		t.Error("Esc does not close the menu")
	}
}

// A page that fits but for the room beneath its last line is not scrolled.
func TestAPageThatFitsIsNotScrolled(t *testing.T) {
	for _, tt := range []struct {
		spare  float32 // between the body and the lower end of the page
		scroll bool
	}{{40, false}, {28, false}, {12, false}, {-6, true}} {
		body := canvas.NewRectangle(color.White)
		p := kit.NewPage(kit.PageOptions{Heading: "A page", Body: body})
		win := window(t, p, 600, 500)
		body.SetMinSize(fyne.NewSize(10, 10))
		win.Canvas().Refresh(p)
		p.Resize(fyne.NewSize(600, 499))
		top := fyne.CurrentApp().Driver().AbsolutePositionForObject(body).Y
		body.SetMinSize(fyne.NewSize(10, 500-top-tt.spare))
		p.Resize(fyne.NewSize(600, 500))
		p.ScrollTo(1000)
		if got := p.Offset() > 0; got != tt.scroll {
			t.Errorf("with %v to spare it is scrolled by %v", tt.spare, p.Offset())
		}
	}
}

// A menu that is higher than the window stays within it, and its last line can be chosen.
func TestAHighMenuScrolls(t *testing.T) {
	var options []string
	for i := range 60 {
		options = append(options, fmt.Sprint("option ", i+1))
	}
	chosen := -1
	c := kit.NewChoiceField("Which", "which", options, func(i int) { chosen = i })
	win := window(t, container.NewWithoutLayout(c), 500, 400)
	c.Resize(c.MinSize())
	c.Open()
	p := win.Canvas().Overlays().Top()
	for _, o := range test.WidgetRenderer(p.(fyne.Widget)).Objects() {
		if bottom := o.Position().Y + o.Size().Height; bottom > 400 {
			t.Errorf("in a window 400 high the menu ends at %v", bottom)
		}
	}
	for range options {
		p.(fyne.Focusable).TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	p.(fyne.Focusable).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if chosen != 59 {
		t.Errorf("the last line chooses %d", chosen)
	}
}
