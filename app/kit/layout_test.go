package kit_test

import (
	"runtime"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
)

func block(w, h float32) *canvas.Rectangle {
	r := canvas.NewRectangle(nil)
	r.SetMinSize(fyne.NewSize(w, h))
	return r
}

func TestStackGivesWrappingTextItsHeight(t *testing.T) {
	text := kit.Body("A sentence that does not fit on one line of this narrow stack, nor on two of them.")
	below := block(10, 10)
	s := kit.Stack(2, text, below)
	s.Resize(fyne.NewSize(200, 400))
	if text.Size().Height < 40 {
		t.Fatalf("the text has a height of %v", text.Size().Height)
	}
	if want := text.Size().Height + 8; below.Position().Y != want {
		t.Errorf("what comes below is at %v, want %v", below.Position().Y, want)
	}
	below.Hide()
	if got := s.MinSize().Height; got != text.MinSize().Height {
		t.Errorf("with its second thing hidden the stack is %v high, want %v", got, text.MinSize().Height)
	}
}

func TestColumnsStackWhenNarrow(t *testing.T) {
	a, b := block(50, 30), block(50, 40)
	c := kit.Columns(200, a, b)
	c.Resize(fyne.NewSize(900, 100))
	if a.Position().Y != 0 || b.Position().Y != 0 || b.Position().X <= a.Size().Width {
		t.Errorf("wide: a at %v, b at %v", a.Position(), b.Position())
	}
	if c.MinSize().Height != 40 {
		t.Errorf("wide: height %v, want that of the taller", c.MinSize().Height)
	}
	c.Resize(fyne.NewSize(300, 100))
	if b.Position().X != 0 || b.Position().Y < 30 || a.Size().Width != 300 {
		t.Errorf("narrow: a is %v wide, b at %v", a.Size().Width, b.Position())
	}
	if c.MinSize().Height < 70 {
		t.Errorf("narrow: height %v, want both", c.MinSize().Height)
	}
}

func TestBesideListLeavesOutWhatHasNoRoom(t *testing.T) {
	list, second := block(50, 30), block(50, 900)
	c := kit.BesideList(list, second)
	maintest.App(t)
	test.NewTempWindow(t, container.NewWithoutLayout(c))
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	for _, width := range []float32{1372, 1600} { // 1372 is that of a page in a window of 1600
		c.Resize(fyne.NewSize(width, 400))
		if right := at(second).X - at(c).X + second.Size().Width; !c.Objects[1].Visible() || max(right-width, width-right) > 0.01 || at(second).Y != at(c).Y {
			t.Errorf("%v wide: the second ends at %v, begins at height %v", width, right, at(second).Y-at(c).Y)
		}
		if gap := at(second).X - at(list).X - list.Size().Width; max(gap-24, 24-gap) > 0.01 {
			t.Errorf("%v wide: the gutter is %v", width, gap)
		}
	}
	c.Resize(fyne.NewSize(1200, 400))
	if c.Objects[1].Visible() || list.Size() != fyne.NewSize(1200, 400) {
		t.Errorf("narrow: the second is seen %v, the list is %v", c.Objects[1].Visible(), list.Size())
	}
	if c.MinSize().Height > 100 {
		t.Errorf("it wants a height of %v, that of what scrolls", c.MinSize().Height)
	}
}

// On a page beside the sidebar a second column comes beside the first in windows from 1600
// points on.
func TestBesideFromAWidthOn(t *testing.T) {
	const sidebar = 148
	for window, beside := range map[float32]bool{1366: false, 1536: false, 1600: true, 1920: true, 2560: true} {
		a, b := block(50, 30), block(50, 40)
		p := kit.NewPage(kit.PageOptions{Body: kit.Beside(a, b)})
		kit.NewFrame(maintest.New().Do, p).Resize(fyne.NewSize(window-sidebar, 900))
		if got := b.Position().Y == 0; got != beside {
			t.Errorf("in a window of %v points the second column is at %v", window, b.Position())
		}
	}
}

// Every page ends at one distance from the window's edge, whatever it shows, in a window of
// any width; a line of text ends where the eye still finds back.
func TestEveryPageUsesTheWindow(t *testing.T) {
	button, save := kit.NewButton("Save", nil), kit.NewButton("Save", nil)
	body, sentences := block(50, 30), block(50, 30)
	text := kit.Body(strings.Repeat("flour and water ", 40))
	p := kit.NewPage(kit.PageOptions{Heading: "Shelf", Actions: []fyne.CanvasObject{button}, Body: kit.Stack(1, body, text)})
	read := kit.NewPage(kit.PageOptions{Heading: "Help", Actions: []fyne.CanvasObject{save}, Body: sentences, Measure: 700})
	win := window(t, container.NewStack(p, read), 1000, 600)
	end := func(o fyne.CanvasObject) float32 {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).X + o.Size().Width
	}
	for _, width := range []float32{1000, 1280, 1920, 2560} {
		win.Resize(fyne.NewSize(width, 600))
		if got := width - end(body); got > look.Space(11) || end(button) != end(body) || end(save) != end(body) {
			t.Errorf("in a window of %v the page ends %v before its edge, the heads at %v and %v", width, got, end(button), end(save))
		}
		if got := sentences.Size().Width; got != 700 {
			t.Errorf("in a window of %v the body of a page of text is %v wide", width, got)
		}
		for _, o := range test.WidgetRenderer(text).Objects() {
			if w := o.Size().Width; w > 80*look.TextBody+look.Space(2) { // with the space after it
				t.Errorf("in a window of %v a line of text is %v long", width, w)
			}
		}
	}
}

// Columns lie on one grid with gutters of 24, however its columns are shared: here twelve of 80.
func TestWeightedColumnsAreOnOneGrid(t *testing.T) {
	const page = 12*80 + 11*24
	for _, c := range []struct{ weights, at, widths []float32 }{
		{[]float32{8, 4}, []float32{0, 832}, []float32{808, 392}},
		{[]float32{2, 1}, []float32{0, 832}, []float32{808, 392}},
		{[]float32{7, 5}, []float32{0, 728}, []float32{704, 496}},
		{[]float32{5, 3, 4}, []float32{0, 520, 832}, []float32{496, 288, 392}},
		{[]float32{1, 1, 1}, []float32{0, 416, 832}, []float32{392, 392, 392}},
	} {
		var things []fyne.CanvasObject
		for range c.weights {
			things = append(things, block(1, 1))
		}
		kit.WeightedColumns(10, c.weights, things...).Resize(fyne.NewSize(page, 20))
		for i, o := range things {
			if o.Position().X != c.at[i] || o.Size().Width != c.widths[i] {
				t.Errorf("weights %v: the column %d is %v wide at %v, want %v at %v", c.weights, i, o.Size().Width, o.Position().X, c.widths[i], c.at[i])
			}
		}
	}
}

func TestFlowGoesOnToTheNextLine(t *testing.T) {
	a, b, c := block(100, 20), block(100, 30), block(100, 20)
	f := kit.Flow(2, a, b, c)
	f.Resize(fyne.NewSize(220, 100))
	if b.Position().X != 108 || c.Position().X != 0 || c.Position().Y != 38 {
		t.Errorf("b at %v, c at %v", b.Position(), c.Position())
	}
	if got := f.MinSize().Height; got != 58 {
		t.Errorf("height %v, want 58", got)
	}
}

// Of photos that take two lines none stands alone on the second.
func TestAStripHasEvenLines(t *testing.T) {
	for n, want := range map[int][]int{4: {4}, 5: {3, 2}, 6: {3, 3}, 7: {4, 3}, 9: {3, 3, 3}} {
		s := kit.NewPhotoStrip(nil, fyne.NewSize(100, 80), 0, nil)
		s.SetItems(make([]kit.PhotoItem, n))
		window(t, s, 440, 400)
		var got []int
		y := float32(-1)
		for _, tile := range s.Tiles() {
			if tile.Position().Y != y {
				y, got = tile.Position().Y, append(got, 0)
			}
			got[len(got)-1]++
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d photos stand as %v, want %v", n, got, want)
		}
	}
}

func TestRowGivesTextsTheirWidth(t *testing.T) {
	words := kit.Stack(0, kit.Body("to turn 4 of 6"), kit.Small("dough 24.6 °C at turn 3"))
	r := kit.Row(4, kit.GreatFigure("11:48"), words)
	r.Resize(fyne.NewSize(600, 80))
	if h := words.Size().Height; h > 45 {
		t.Errorf("the words beside the figure are %v high: they were wrapped", h)
	}
	r.Resize(fyne.NewSize(220, 80))
	if h := words.Size().Height; h < 45 {
		t.Errorf("in a narrow row the words are %v high: they were not wrapped", h)
	}
}

func TestPagePutsActionsUnderANarrowHeading(t *testing.T) {
	button := kit.PrimaryButton("Feed", nil)
	p := kit.NewPage(kit.PageOptions{Heading: "Gorse, day 12", Actions: []fyne.CanvasObject{button}, Body: kit.Body("text")})
	win := window(t, p, 1000, 600)
	place := func() fyne.Position { return fyne.CurrentApp().Driver().AbsolutePositionForObject(button) }
	if at := place(); at.X < 700 || at.Y > 60 {
		t.Errorf("in a wide window the button is at %v", at)
	}
	win.Resize(fyne.NewSize(380, 600))
	if at := place(); at.X > 100 || at.Y < 60 {
		t.Errorf("in a narrow window the button is at %v", at)
	}
}

// Actions that are too many for a line go on to the next, and come back to one where there is room.
func TestActionsWrap(t *testing.T) {
	var all []fyne.CanvasObject
	for range 6 {
		all = append(all, kit.NewButton("A button of some length", nil))
	}
	body := kit.Body("text")
	p := kit.NewPage(kit.PageOptions{Heading: "Gorse", Actions: all, Body: body})
	win := window(t, p, 900, 600)
	last := all[len(all)-1]
	for _, c := range []struct {
		width float32
		wraps bool
	}{{900, true}, {2000, false}, {600, true}} {
		win.Resize(fyne.NewSize(c.width, 600))
		for _, o := range all {
			if at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o); at.X+o.Size().Width > c.width {
				t.Errorf("in a window of %v a button ends at %v", c.width, at.X+o.Size().Width)
			}
		}
		if got := last.Position().Y > all[0].Position().Y; got != c.wraps {
			t.Errorf("in a window of %v the last button is at %v, the first at %v", c.width, last.Position(), all[0].Position())
		}
		d := fyne.CurrentApp().Driver()
		if foot := d.AbsolutePositionForObject(last).Y + last.Size().Height; d.AbsolutePositionForObject(body).Y < foot {
			t.Errorf("in a window of %v the body begins at %v, above the foot of the buttons at %v", c.width, d.AbsolutePositionForObject(body).Y, foot)
		}
	}
}

func TestPageKeepsItsScrollForLater(t *testing.T) {
	p := kit.NewPage(kit.PageOptions{Heading: "Long", Body: block(100, 3000)})
	window(t, p, 800, 600)
	p.ScrollTo(700)
	if p.Offset() != 700 {
		t.Errorf("offset %v, want 700", p.Offset())
	}
}

// In a narrow window the actions go under a heading that would take one more line beside
// them, and stay beside one that would not; in a wide window they stay.
func TestActionsLeaveAHeadingItsLine(t *testing.T) {
	maintest.App(t)
	const long, short = "Ferry loaf with seeds, baked 9 times", "Ferry loaf"
	for _, c := range []struct {
		heading string
		width   float32
		under   bool
	}{{long, 752, true}, {short, 752, false}, {long, 1132, false}} {
		button := kit.PrimaryButton("Plan a bake", nil)
		page := kit.NewPage(kit.PageOptions{Heading: c.heading, Actions: []fyne.CanvasObject{button, kit.QuietButton("Save as a recipe…", nil)}})
		w := test.NewTempWindow(t, page)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(c.width, 700))
		top := fyne.CurrentApp().Driver().AbsolutePositionForObject(button).Y
		if under := top > 60; under != c.under {
			t.Errorf("%q at %v: its buttons are %v down", c.heading, c.width, top)
		}
	}
}

// A schedule is measured again and again while a page finds its place, and what is made for that is
// not kept.
func TestMeasuringAScheduleKeepsNothing(t *testing.T) {
	s := kit.NewSchedule(0, kit.ScheduleHeads{Clock: "begun"})
	s.SetRows([]kit.ScheduleRow{{Clock: "16:28", Title: "Folds"}, {Clock: "10:23", Title: "Heat the oven"}})
	window(t, s, 400, 400)
	held := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := held()
	for range 4000 {
		s.MinSize()
	}
	if after := held(); after > before+1<<20 {
		t.Errorf("measured again and again it holds %d kB more", (after-before)>>10)
	}
	runtime.KeepAlive(s)
}

// A rule between the days of a schedule is as long as the table that it divides, which fills a column
// where it has notes, beside the figures or below, and else ends with its figures.
func TestScheduleRuleEndsWithItsTable(t *testing.T) {
	for _, c := range []struct {
		width float32
		note  string
		whole bool
	}{{1000, "folded at 17:00, 17:33, 18:06, 18:37, 19:05", true}, {440, "folded at 17:00, 17:33, 18:06, 18:37, 19:05", false}, {1000, "", false}} {
		s := kit.NewSchedule(0, kit.ScheduleHeads{Clock: "begun", Length: "duration", Planned: "planned"})
		s.SetRows([]kit.ScheduleRow{
			{Day: "Saturday", Clock: "16:28", Title: "Folds", Length: "2 h 37 min", Planned: "16:15", Note: c.note},
			{Day: "Sunday", Clock: "10:23", Title: "Heat the oven", Length: "45 min", Planned: "10:15"},
		})
		window(t, s, c.width, 400)
		rule, figures := float32(0), float32(0)
		for _, o := range test.WidgetRenderer(s).Objects()[0].(*fyne.Container).Objects {
			end := o.Position().X + o.Size().Width
			switch o := o.(type) {
			case *kit.Text:
				if text := o.String(); text == "16:15" || text == "10:15" {
					figures = max(figures, end)
				}
			default:
				if o.Visible() {
					rule = max(rule, end)
				}
			}
		}
		if c.whole && rule != c.width || !c.whole && rule != figures || c.note != "" && rule != c.width {
			t.Errorf("%v wide, with the note %q, the rule ends at %v, the figures at %v", c.width, c.note, rule, figures)
		}
	}
}

// Keys stand in as few rows as their width allows, down one column after another, and none
// reaches out of the list.
func TestKeysInColumns(t *testing.T) {
	var keys []kit.Key
	for _, name := range []string{"Alt+Left", "A", "B", "C", "Ctrl+D", "E", "F"} {
		keys = append(keys, kit.Key{Name: name, Doc: "what " + name + " does"})
	}
	list := kit.KeyList(kit.KeyGroup{Name: "Everywhere", Keys: keys})
	for width, rows := range map[float32]int{200: 7, 400: 4, 600: 3, 1400: 1} {
		list.Resize(fyne.NewSize(width, 400))
		tops := map[float32]bool{}
		last := fyne.NewPos(-1, -1)
		for _, h := range hintsIn(list) {
			at := h.Position()
			tops[at.Y] = true
			if at.X+h.Size().Width > width {
				t.Errorf("%v wide, a key reaches to %v", width, at.X+h.Size().Width)
			}
			if at.X < last.X || at.X == last.X && at.Y <= last.Y {
				t.Errorf("%v wide, a key at %v follows one at %v", width, at, last)
			}
			last = at
		}
		if len(tops) != rows {
			t.Errorf("%v wide, the keys stand in %d rows, want %d", width, len(tops), rows)
		}
	}
}

// What a key does is told whole where it needs more than a line, and no other key stands in it.
func TestLongWordsOfAKeyGoOn(t *testing.T) {
	list := kit.KeyList(kit.KeyGroup{Name: "On this page", Keys: []kit.Key{
		{Name: "F", Doc: "feed the culture at the keyboard's place, or else the hungriest"}, {Name: "N", Doc: "new culture"}}})
	list.Resize(fyne.NewSize(300, 400))
	long, next := hintsIn(list)[0], hintsIn(list)[1]
	if long.Size().Width > 300 || long.Size().Height < 40 || next.Position().Y < long.Position().Y+long.Size().Height {
		t.Errorf("of 300 points it takes %v, and the next is at %v", long.Size(), next.Position())
	}
}

func hintsIn(o fyne.CanvasObject) []*kit.KeyHint {
	switch o := o.(type) {
	case *kit.KeyHint:
		return []*kit.KeyHint{o}
	case *fyne.Container:
		var all []*kit.KeyHint
		for _, c := range o.Objects {
			all = append(all, hintsIn(c)...)
		}
		return all
	}
	return nil
}
