package app

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
)

// A row that is washed under the pointer opens something wherever it is pressed, and the
// pointer is a hand all over it: in every list of every page of the demo, and of what is
// found. Only what does something else of its own (a button, a word that goes elsewhere, a
// chart's point) takes a press from the row.
func TestARowIsPressedAnywhereOnIt(t *testing.T) {
	w, j := demoWindow(t)
	places, _ := everyPlace(t, j)
	rows := map[string]int{} // by page
	look := func(where string, root fyne.CanvasObject) {
		wrong := map[string]int{}
		for _, row := range rowsIn(root) {
			rows[where]++
			for _, what := range pressedOn(root, row) {
				wrong[what]++
			}
		}
		for what, n := range wrong {
			t.Errorf("%s: %d times %s", where, n, what)
		}
	}
	for _, p := range places {
		w.Go(p)
		w.env.Wait()
		w.win.Resize(fyne.NewSize(1280, 801)) // laid out with what was read
		w.win.Resize(fyne.NewSize(1280, 800))
		look(p.Name, w.win.Canvas().Content())
	}
	w.find()
	if s := w.win.Canvas().Overlays().Top(); s != nil {
		look("find", s)
	}
	for _, page := range []string{pages.Cultures, pages.Bakes, pages.Formulas, pages.Tastings, pages.Findings, pages.History, pages.Trial, "find"} {
		if rows[page] == 0 {
			t.Errorf("no rows were found on the page %q", page)
		}
	}
	t.Log(rows)
}

// rowsIn lists the rows below an object that are in sight.
func rowsIn(o fyne.CanvasObject) (out []fyne.CanvasObject) {
	eachSeen(o, func(o fyne.CanvasObject, _ fyne.Position, _ area) {
		if name := fmt.Sprintf("%T", o); strings.HasSuffix(name, "Row") && o.Size().Height > 0 {
			if _, ok := o.(desktop.Cursorable); ok {
				out = append(out, o)
			}
		}
	})
	return out
}

// pressedOn presses a row on a grid of places, and says what takes the press, or tells the
// pointer, in the row's place.
func pressedOn(root, row fyne.CanvasObject) (out []string) {
	var at fyne.Position
	var seen area
	eachSeen(root, func(o fyne.CanvasObject, p fyne.Position, in area) {
		if o == row {
			at, seen = p, in
		}
	})
	const n = 9
	for i := range n {
		for k := range n {
			p := at.AddXY(row.Size().Width*(float32(i)+0.5)/n, row.Size().Height*(float32(k)+0.5)/n)
			if !seen.holds(p) {
				continue
			}
			var taps, points fyne.CanvasObject
			within := false // what is seen so far belongs to the row
			eachSeen(root, func(o fyne.CanvasObject, at fyne.Position, in area) {
				if !in.holds(p) {
					return
				}
				if _, ok := o.(fyne.Tappable); ok {
					taps = o
				}
				if _, ok := o.(desktop.Cursorable); ok {
					points = o
				}
				within = within || o == row
			})
			if c, ok := points.(desktop.Cursorable); !ok || c.Cursor() != desktop.PointerCursor && taps == row {
				out = append(out, fmt.Sprintf("over a %T the pointer is that of a %T", row, points))
			}
			if list := fmt.Sprintf("%T", taps); taps != row && list != "*widget.listItem" && !ownBusiness(taps) {
				out = append(out, fmt.Sprintf("a press on a %T goes to a %T", row, taps))
			}
		}
	}
	return out
}

// ownBusiness says that what is pressed within a row is there for something else.
func ownBusiness(o fyne.CanvasObject) bool {
	switch o.(type) {
	case *kit.Button, *kit.Link, *kit.ChartFrame:
		return true
	}
	return false
}

// area is what of an object is in sight.
type area struct{ from, to fyne.Position }

func (a area) holds(p fyne.Position) bool {
	return p.X >= a.from.X && p.Y >= a.from.Y && p.X < a.to.X && p.Y < a.to.Y
}

// eachSeen calls do for everything below an object that is in sight, in the order in which
// it is drawn, with where it is and what of it is seen.
func eachSeen(o fyne.CanvasObject, do func(o fyne.CanvasObject, at fyne.Position, in area)) {
	var walk func(o fyne.CanvasObject, at fyne.Position, clip area)
	walk = func(o fyne.CanvasObject, at fyne.Position, clip area) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		end := at.AddXY(o.Size().Width, o.Size().Height)
		in := area{fyne.NewPos(max(at.X, clip.from.X), max(at.Y, clip.from.Y)), fyne.NewPos(min(end.X, clip.to.X), min(end.Y, clip.to.Y))}
		do(o, at, in)
		var below []fyne.CanvasObject
		switch o := o.(type) {
		case *fyne.Container:
			below = o.Objects
		case fyne.Widget:
			below = test.WidgetRenderer(o).Objects()
		}
		if _, ok := o.(*container.Scroll); ok {
			clip = in
		}
		for _, part := range below {
			walk(part, at, clip)
		}
	}
	walk(o, fyne.Position{}, area{to: fyne.NewPos(1e6, 1e6)})
}
