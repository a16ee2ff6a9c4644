package app

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/journaltest/race"
)

// A lying is where an object lies within what holds it, and how large it is.
type lying struct {
	pos  fyne.Position
	size fyne.Size
	in   fyne.CanvasObject // what holds it
}

// Nothing jumps: on every page, and in every sheet that a key of a page opens, whatever
// takes the keyboard, is pointed at or pressed leaves everything else where it is and as
// large as it is, a long note too. What changes within the thing itself, such as the cursor
// in a field, is its own.
func TestNothingJumps(t *testing.T) {
	lw := newLeakWorld(t, filepath.Join(t.TempDir(), "journal"), planOf(blind.Paired, blind.WithHelper), false)
	lw.writeNotes()
	lw.show(maintest.App(t))
	t.Cleanup(lw.w.Close)
	tried, visited := 0, map[string]bool{}
	for _, place := range fewer(lw.everyPlace()) {
		lw.goTo(place)
		tried += lw.sweep(place.Name, lw.w.win.Canvas().Content())
		for i, key := range lw.w.Page().Keys() {
			if key.Do == nil || visited[place.Name+" "+key.Name] {
				continue
			}
			lw.goTo(place)
			keys := lw.w.Page().Keys()
			if i >= len(keys) || keys[i].Do == nil || visited[place.Name+" "+keys[i].Name] {
				continue
			}
			visited[place.Name+" "+keys[i].Name] = true
			keys[i].Do()
			lw.settle()
			if s, ok := lw.top(); ok {
				tried += lw.sweep(place.Name+", key "+keys[i].Name, s)
			}
			lw.closeSheets()
			lw.settle()
		}
		visited[place.Name] = true
	}
	for name := range lw.w.openers {
		if !visited[name] && !race.Enabled { // few pages are gone to there
			t.Errorf("the page %q was not looked at", name)
		}
	}
	if tried < race.Cases(1000, 50) {
		t.Errorf("only %d things were tried", tried)
	}
}

// goTo shows a page anew, all of it in sight.
func (lw *leakWorld) goTo(place pages.Route) {
	lw.w.Go(place)
	lw.settle()
	lw.unfold()
	forget()
}

// writeNotes gives the first bake and the cultures notes, of which one is longer than is
// shown at a time.
func (lw *leakWorld) writeNotes() {
	lw.t.Helper()
	long := strings.Repeat("It sprang more at the left, where the stone is hotter, and opened along the second cut.\n", 70)
	bakes, err := journal.All[journal.Bake](lw.j)
	if err != nil {
		lw.t.Fatal(err)
	}
	cultures, err := journal.All[journal.Culture](lw.j)
	if err != nil {
		lw.t.Fatal(err)
	}
	err = lw.j.Do("notes", func(tx *journal.Tx) error {
		for _, b := range bakes {
			b.Notes, b.Outcome.Notes = long, long[:400]
			if err := journal.Put(tx, b); err != nil {
				return err
			}
		}
		for _, c := range cultures {
			c.Notes = long[:1500]
			if err := journal.Put(tx, c); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		lw.t.Fatal(err)
	}
}

// sweep tries everything that is seen in root; it gives how many things that were.
func (lw *leakWorld) sweep(where string, root fyne.CanvasObject) int {
	lw.t.Helper()
	c := lw.w.win.Canvas()
	c.Unfocus()
	lw.relaid()
	lw.settle()
	var all []fyne.Focusable
	for o := range layOf(root, nil) {
		f, ok := o.(fyne.Focusable)
		if d, can := o.(fyne.Disableable); ok && !(can && d.Disabled()) {
			all = append(all, f)
		}
	}
	told, before := map[string]bool{}, layOf(root, nil)
	for i, f := range all {
		if race.Enabled && i%8 > 0 {
			continue
		}
		o := f.(fyne.CanvasObject)
		mine := ownOf(c, o)
		calm := func(what string, do, undo func()) {
			try := func() []string {
				do()
				lw.settle()
				lw.relaid()
				moved := jumps(before, layOf(root, mine))
				undo()
				lw.settle()
				return moved
			}
			moved := try()
			if len(moved) > 0 { // what was tried before may have left something elsewhere
				lw.relaid()
				before = layOf(root, nil)
				moved = try()
			}
			for _, m := range moved {
				if words := fmt.Sprintf("%s: %T %s: %s", where, o, what, m); !told[words] {
					told[words] = true
					lw.t.Error(words)
				}
			}
		}
		calm("takes the keyboard", func() { c.Focus(f) }, c.Unfocus)
		if h, ok := o.(desktop.Hoverable); ok {
			calm("is pointed at", func() { h.MouseIn(new(desktop.MouseEvent)) }, h.MouseOut)
		}
		if m, ok := o.(desktop.Mouseable); ok {
			calm("is pressed", func() { m.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary}) },
				func() { m.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary}); c.Unfocus() })
		}
	}
	return len(all)
}

// relaid has everything find its place, as the real window does when something wants
// another size: the test driver does so on a change of size alone.
func (lw *leakWorld) relaid() {
	height := lw.height
	lw.resize(height + 1)
	lw.resize(height)
}

// ownOf is the widget that a focusable thing is of: the field around its entry, or itself.
func ownOf(c fyne.Canvas, o fyne.CanvasObject) fyne.CanvasObject {
	own := o
	everyObject(c, func(outer fyne.CanvasObject) {
		if f, ok := outer.(interface{ Entry() fyne.Focusable }); ok && f.Entry().(fyne.CanvasObject) == o {
			own = outer
		}
	})
	return own
}

// layOf gives the place of every object in root that is seen, but for what is within own.
func layOf(root, own fyne.CanvasObject) map[fyne.CanvasObject]lying {
	out := map[fyne.CanvasObject]lying{}
	var walk func(o, in fyne.CanvasObject, scrolled bool)
	walk = func(o, in fyne.CanvasObject, scrolled bool) {
		if o == nil || !o.Visible() {
			return
		}
		s := lying{size: o.Size(), in: in}
		if !scrolled {
			s.pos = o.Position()
		}
		out[o] = s
		if o == own {
			return
		}
		switch o := o.(type) {
		case *kit.Text: // what it says is its own, where it stands is not
		case *container.Scroll:
			walk(o.Content, o, true)
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, o, false)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, o, false)
			}
		}
	}
	walk(root, nil, false)
	return out
}

// jumps tells what lies elsewhere than before, came, or went.
func jumps(before, after map[fyne.CanvasObject]lying) []string {
	var out []string
	for o, was := range before {
		if is, ok := after[o]; ok && (is.pos != was.pos || is.size != was.size) {
			out = append(out, fmt.Sprintf("%s from %v %v to %v %v", pathOf(before, o), was.pos, was.size, is.pos, is.size))
		}
	}
	return out
}

// pathOf names what an object is and what it lies within.
func pathOf(all map[fyne.CanvasObject]lying, o fyne.CanvasObject) string {
	path := ""
	for ; o != nil; o = all[o].in {
		path = fmt.Sprintf("/%T", o) + path
	}
	return path
}
