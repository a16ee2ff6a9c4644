package kit_test

import (
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"math"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// thumbs is a source that counts, and that may be held back: what it makes is handed
// over on whatever goroutine made it, so that a test lets it go on only while it
// waits.
type thumbs struct {
	fails bool

	mu    sync.Mutex
	asked []string
	open  chan struct{} // closed while it may go on
}

// held makes a source that stands still until settle.
func held() *thumbs { return &thumbs{open: make(chan struct{})} }

// settle lets the source make what was asked for, and holds it again.
func (s *thumbs) settle(l *kit.Loader) {
	s.mu.Lock()
	open := s.open
	s.mu.Unlock()
	close(open)
	l.Wait()
	s.mu.Lock()
	s.open = make(chan struct{})
	s.mu.Unlock()
}

func (s *thumbs) Thumb(ctx context.Context, key string, size int) (image.Image, error) {
	s.mu.Lock()
	s.asked = append(s.asked, key)
	open := s.open
	s.mu.Unlock()
	if open != nil {
		select {
		case <-open:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
	if s.fails {
		return nil, errors.New("no picture")
	}
	return plainPicture(size, size, color.White), nil
}

func (s *thumbs) count() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.asked)
}

func newLoader(t *testing.T, s *thumbs, bytes int64) *kit.Loader {
	t.Helper()
	l := kit.NewLoader(maintest.New().Do, s, 1, bytes)
	t.Cleanup(l.Close)
	return l
}

func TestLoaderKeepsWhatWasUsedLast(t *testing.T) {
	s := &thumbs{}
	l := newLoader(t, s, 3*4*100*100) // three pictures
	load := func(key string) {
		l.Load(key, 100, func(image.Image, error) {})
		l.Wait()
	}
	for _, key := range []string{"a", "b", "c", "a", "d"} {
		load(key)
	}
	if s.count() != 4 {
		t.Errorf("asked %v; the second a should come from the cache", s.asked)
	}
	if _, ok := l.Cached("b", 100); ok {
		t.Error("b was used longest ago and is still kept")
	}
	if _, ok := l.Cached("a", 100); !ok {
		t.Error("a was used again and is gone")
	}
}

func TestLoaderDropsWhatWasCancelled(t *testing.T) {
	s := held()
	l := newLoader(t, s, 1<<20)
	var mu sync.Mutex
	var got []string
	load := func(key string) func() {
		return l.Load(key, 10, func(image.Image, error) {
			mu.Lock()
			got = append(got, key)
			mu.Unlock()
		})
	}
	load("first")
	cancel := load("second")
	load("third")
	cancel()
	s.settle(l)
	mu.Lock()
	defer mu.Unlock()
	for _, key := range got {
		if key == "second" {
			t.Errorf("a cancelled picture was handed over: %v", got)
		}
	}
	if len(got) != 2 {
		t.Errorf("got %v, want the other two", got)
	}
}

func TestLoaderCloseEndsAWaitingSource(t *testing.T) {
	l := kit.NewLoader(maintest.New().Do, held(), 2, 1<<20)
	l.Load("never", 10, func(image.Image, error) { t.Error("a closed loader handed something over") })
	l.Close()
}

func TestCellIgnoresTheAnswerForItsLastItem(t *testing.T) {
	s := held()
	l := newLoader(t, s, 1<<20)
	c := kit.NewPhotoCell(l, fyne.NewSize(100, 80), 1)
	c.Set(kit.PhotoItem{Key: "old", Title: "Old"}, false)
	c.Set(kit.PhotoItem{Title: "No picture"}, false)
	s.settle(l)
	if c.HasPicture() {
		t.Error("a cell without a key shows the picture of the item before")
	}
	c.Set(kit.PhotoItem{Key: "new"}, false)
	s.settle(l)
	if !c.HasPicture() {
		t.Error("the picture of the new item did not come")
	}
}

func TestCellWithoutALoadablePictureStaysEmpty(t *testing.T) {
	s := held()
	s.fails = true
	l := newLoader(t, s, 1<<20)
	c := kit.NewPhotoCell(l, fyne.NewSize(100, 80), 0)
	c.Set(kit.PhotoItem{Key: "broken"}, false)
	s.settle(l)
	if c.HasPicture() {
		t.Error("a broken picture is shown")
	}
}

func TestGridOfManyMakesFewCells(t *testing.T) {
	s := held()
	l := newLoader(t, s, 64<<20)
	const n = 40_000
	g := kit.NewPhotoGrid(l, fyne.NewSize(200, 150), 2, func() int { return n }, func(i int) kit.PhotoItem {
		return kit.PhotoItem{Key: fmt.Sprint(i), Title: fmt.Sprint("Loaf ", i)}
	})
	var opened, chosen []int
	g.OnOpen = func(i int) { opened = append(opened, i) }
	g.OnChoose = func(i int) { chosen = append(chosen, i) }
	win := window(t, g, 900, 600)
	s.settle(l)
	if s.count() > 60 {
		t.Errorf("%d thumbnails were asked for to show one screen", s.count())
	}
	win.Canvas().Focus(g)
	g.TypedKey(key(fyne.KeyEnd))
	g.TypedKey(key(fyne.KeyReturn))
	g.TypedKey(key(fyne.KeyHome))
	g.TypedKey(key(fyne.KeyRight))
	g.TypedKey(key(fyne.KeySpace))
	s.settle(l)
	if len(opened) != 1 || opened[0] != n-1 || len(chosen) != 1 || chosen[0] != 1 {
		t.Errorf("opened %v, chosen %v", opened, chosen)
	}
	if s.count() > 400 {
		t.Errorf("%d thumbnails were asked for by going to the end and back", s.count())
	}
}

func TestStripUsesItsTilesAgain(t *testing.T) {
	source := held()
	l := newLoader(t, source, 1<<20)
	opened := -1
	s := kit.NewPhotoStrip(l, fyne.NewSize(120, 90), 1, nil)
	s.OnOpen = func(i int) { opened = i }
	window(t, s, 500, 200)
	s.SetItems([]kit.PhotoItem{{Key: "a"}, {Key: "b"}})
	first := s.Tiles()[0]
	s.SetItems([]kit.PhotoItem{{Key: "b"}, {Key: "c"}, {Key: "d"}})
	source.settle(l)
	if s.Tiles()[0] != first || first.Item().Key != "b" || len(s.Tiles()) != 3 {
		t.Error("the tiles were not used again")
	}
	test.Tap(s.Tiles()[2])
	if opened != 2 {
		t.Errorf("opened %d", opened)
	}
}

func bigView(t *testing.T) *kit.PhotoView {
	t.Helper()
	v := kit.NewPhotoView(maintest.New().Do)
	window(t, v, 400, 300)
	v.SetPicture(plainPicture(1600, 1200, color.White))
	v.Wait()
	return v
}

// What is drawn over a picture is not there before it.
func TestPhotoViewShowsNoOverlayWithoutAPicture(t *testing.T) {
	v := kit.NewPhotoView(maintest.New().Do)
	mark := &markOver{canvas.NewRectangle(color.Black)}
	v.AddOverlay(mark)
	win := window(t, v, 400, 300)
	drawn := func() bool {
		r, g, b, _ := win.Canvas().Capture().At(200, 150).RGBA()
		return r+g+b == 0
	}
	v.SetPicture(plainPicture(1600, 1200, color.White))
	if drawn() {
		t.Error("the mark is drawn where no picture is")
	}
	v.Wait()
	if !drawn() {
		t.Error("the mark is not drawn over the picture")
	}
}

type markOver struct{ *canvas.Rectangle }

func (m *markOver) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{m.Rectangle} }

func (m *markOver) Arrange(at func(x, y float64) fyne.Position, scale float32) {
	kit.Put(m.Rectangle, at(400, 300), fyne.NewSize(800*scale, 600*scale))
}

// A picture that fills a large cell is not a small thumbnail blown up, and the small one stays
// until the large one has come.
func TestAFillingCellAsksForALargerThumbnail(t *testing.T) {
	s := held()
	l := newLoader(t, s, 64<<20)
	c := kit.NewPhotoCell(l, fyne.NewSize(200, 150), 0).Filling()
	c.Set(kit.PhotoItem{Key: "a"}, false)
	s.settle(l)
	window(t, c, 800, 600)
	if !c.HasPicture() {
		t.Error("the small thumbnail went before the large one came")
	}
	s.settle(l)
	if s.count() != 2 {
		t.Errorf("%d thumbnails were asked for, want a small and a large one", s.count())
	}
}

func TestPhotoViewZoomsAtThePointer(t *testing.T) {
	v := bigView(t)
	at := fyne.NewPos(300, 75)
	x0, y0 := v.PictureAt(at)
	if x0 != 1200 || y0 != 300 {
		t.Fatalf("before zooming the pointer is at %v, %v", x0, y0)
	}
	v.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(0, 100)})
	x1, y1 := v.PictureAt(at)
	if v.View().Zoom <= 1.5 || math.Abs(x1-x0) > 0.5 || math.Abs(y1-y0) > 0.5 {
		t.Errorf("zoom %v, the pointer went to %v, %v", v.View().Zoom, x1, y1)
	}
}

func TestPhotoViewStaysWithinThePicture(t *testing.T) {
	v := bigView(t)
	v.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(500, 500)})
	if v.View() != kit.WholePicture {
		t.Errorf("a picture seen whole was moved to %+v", v.View())
	}
	v.ZoomAt(fyne.NewPos(200, 150), 2)
	v.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(5000, 5000)})
	if x, y := v.PictureAt(fyne.NewPos(0, 0)); math.Abs(x) > 0.5 || math.Abs(y) > 0.5 {
		t.Errorf("dragged to the end, the corner of the view is at %v, %v", x, y)
	}
	v.ZoomAt(fyne.NewPos(0, 0), 1e9)
	if v.View().Zoom > 40 {
		t.Errorf("zoom goes to %v", v.View().Zoom)
	}
	v.TypedRune('0')
	if v.View() != kit.WholePicture {
		t.Errorf("0 shows %+v", v.View())
	}
}

func TestPairMovesTogetherWhileTied(t *testing.T) {
	p := kit.NewPhotoPair(maintest.New().Do)
	window(t, p, 800, 400)
	p.Left.SetPicture(plainPicture(1600, 1200, color.White))
	p.Right.SetPicture(plainPicture(800, 600, color.Black))
	p.Left.Wait()
	p.Right.Wait()
	p.Left.ZoomAt(fyne.NewPos(100, 100), 3)
	if p.Left.View() != p.Right.View() || p.Right.View().Zoom == 1 {
		t.Errorf("left %+v, right %+v", p.Left.View(), p.Right.View())
	}
	p.SetTied(false)
	p.Right.TypedRune('0')
	if p.Left.View() == p.Right.View() {
		t.Error("let go, they still move together")
	}
}

func TestDragPoints(t *testing.T) {
	v := bigView(t)
	d := kit.NewDragPoints(v)
	d.Closed, d.CanRemove, d.Least = true, true, 3
	var last []kit.PicturePoint
	var done bool
	d.OnChanged = func(p []kit.PicturePoint, over bool) { last, done = p, over }
	d.SetPoints([]kit.PicturePoint{{X: 400, Y: 400}, {X: 1200, Y: 400}, {X: 1000, Y: 700}, {X: 800, Y: 1000}})
	if last != nil {
		t.Fatal("setting points told OnChanged")
	}
	h := d.Handle(0).(fyne.Draggable)
	h.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(10, -5)})
	if done || last[0] != (kit.PicturePoint{X: 440, Y: 380}) {
		t.Errorf("dragged by (10, -5) points at a quarter scale: %v, done %v", last[0], done)
	}
	h.DragEnd()
	if !done {
		t.Error("the end of the drag was not told")
	}
	h.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(-9000, 0)})
	if last[0].X != 0 {
		t.Errorf("a point left the picture: %v", last[0])
	}
	d.Handle(2).TypedKey(key(fyne.KeyRight))
	if last[2].X != 1001 {
		t.Errorf("an arrow moved the point to %v", last[2])
	}
	d.Handle(2).TypedKey(key(fyne.KeyDelete))
	d.Handle(2).TypedKey(key(fyne.KeyDelete))
	if len(d.Points()) != 3 {
		t.Errorf("%d points are left, want the least of 3", len(d.Points()))
	}
}

// noPicture is a source that gives a pointer to no picture with its error.
type noPicture struct{}

func (noPicture) Thumb(context.Context, string, int) (image.Image, error) {
	var none *image.RGBA
	return none, errors.New("the disk is gone")
}

func TestAPictureThatFailsIsNone(t *testing.T) {
	l := kit.NewLoader(func(fn func()) { fn() }, noPicture{}, 1, 1<<20)
	defer l.Close()
	got := make(chan image.Image, 1)
	l.Load("loaf", 128, func(img image.Image, err error) { got <- img })
	if img := <-got; img != nil {
		t.Errorf("it gives %T", img)
	}
}
