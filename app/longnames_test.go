package app

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Names of sixty letters, which bakers do write.
const (
	longEnglish = "Grandmother's slow country loaf with toasted spelt and honey"
	longGerman  = "Großmutters langgeführtes Dinkelvollkornbauernbrot im Gusstopf"
)

// On no page does a name of sixty letters, of short words or of long ones, leave what holds it
// or lie over a picture or another word, in a small window and a usual one.
func TestLongNamesStayInTheirPlace(t *testing.T) {
	a, j := maintest.App(t), demoJournal(t)
	if err := j.Do("long names", nameAll); err != nil {
		t.Fatal(err)
	}
	w, _ := windowOn(t, a, j)
	places, _ := everyPlace(t, j)
	bakes, err := journal.All[journal.Bake](j)
	if err != nil {
		t.Fatal(err)
	}
	places = append(places, pages.Route{Name: pages.Compare, More: string(bakes[0].ID + " " + bakes[1].ID)},
		pages.Route{Name: pages.Compare, More: string(bakes[0].ID)})
	sizes := []fyne.Size{{Width: 900, Height: 700}, {Width: 1280, Height: 800}}
	told := map[string]bool{}
	for _, p := range fewer(places) {
		w.Go(p)
		w.env.Wait()
		for _, size := range sizes {
			w.layOut(size)
			if least := w.win.Canvas().Content().MinSize().Width; least > size.Width {
				t.Errorf("%v, %s %s: it wants %v", size.Width, p.Name, p.More, least)
				continue
			}
			for _, fault := range append(reader{w: w}.faults(w.win.Canvas().Content(), size), overPictures(w.win.Canvas().Content())...) {
				if at := fmt.Sprintf("%v: %s", size.Width, fault); !told[at] {
					told[at] = true
					t.Errorf("%s %s, %s", p.Name, p.More, at)
				}
			}
		}
		forget()
	}
}

// linksCut tells of the links that lack some of their words.
func linksCut(root fyne.CanvasObject) (out []string) {
	for _, l := range links(root) {
		if l.Size().Width > 0 && !strings.Contains(strings.Join(written(l), ""), l.Text()) {
			out = append(out, fmt.Sprintf("of %q is seen %q", l.Text(), written(l)))
		}
	}
	return out
}

func links(o fyne.CanvasObject) (out []*kit.Link) {
	if o == nil || !o.Visible() {
		return nil
	}
	switch o := o.(type) {
	case *kit.Link:
		return []*kit.Link{o}
	case *fyne.Container:
		for _, child := range o.Objects {
			out = append(out, links(child)...)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			out = append(out, links(child)...)
		}
	}
	return out
}

// written are the words that are drawn of a thing.
func written(o fyne.CanvasObject) (out []string) {
	switch o := o.(type) {
	case *canvas.Text:
		return []string{o.Text}
	case *fyne.Container:
		for _, child := range o.Objects {
			out = append(out, written(child)...)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			out = append(out, written(child)...)
		}
	}
	return out
}

// nameAll gives every record that has a name a long one, in turn an English and a German one.
func nameAll(tx *journal.Tx) error {
	n := 0
	next := func() string { n++; return fmt.Sprintf("%s %d", []string{longEnglish, longGerman}[n%2], n) }
	if err := changeAll(tx, func(c *journal.Culture) { c.Name = next() }); err != nil {
		return err
	}
	if err := changeAll(tx, func(f *journal.Formula) {
		f.Name = next()
		for i := range f.Ingredients {
			f.Ingredients[i].Name += " " + next()
		}
	}); err != nil {
		return err
	}
	if err := changeAll(tx, func(b *journal.Bake) {
		b.Name = next()
		for i := range b.Ingredients {
			b.Ingredients[i].Name += " " + next()
		}
	}); err != nil {
		return err
	}
	return changeAll(tx, func(x *journal.Trial) { x.Name = next() })
}

func changeAll[T any, R journal.Record[T]](tx *journal.Tx, change func(R)) error {
	all, err := journal.All[T, R](tx)
	if err != nil {
		return err
	}
	for _, r := range all {
		if err := journal.Change[T, R](tx, journal.RefOf(r).ID, change); err != nil {
			return err
		}
	}
	return nil
}

// overPictures names the texts that lie over a photo or a chart that they are no part of.
func overPictures(o fyne.CanvasObject) []string {
	var texts []piece
	var pictures []piece
	var walk func(o fyne.CanvasObject, at fyne.Position, top, bottom float32)
	walk = func(o fyne.CanvasObject, at fyne.Position, top, bottom float32) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		s := o.Size()
		switch o := o.(type) {
		case *canvas.Text:
			if at.Y < bottom && at.Y+s.Height > top {
				texts = append(texts, piece{o.Text, at.X, at.Y, o.MinSize().Width, o.MinSize().Height})
			}
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, at, top, bottom)
			}
		case fyne.Widget:
			switch o.(type) {
			case *kit.PhotoTile, *kit.ChartFrame:
				pictures = append(pictures, piece{"", at.X, at.Y, s.Width, s.Height})
				return
			case *container.Scroll:
				top, bottom = max(top, at.Y), min(bottom, at.Y+s.Height)
			}
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, at, top, bottom)
			}
		}
	}
	walk(o, fyne.Position{}, 0, o.Size().Height)
	var out []string
	for _, a := range texts {
		for _, p := range pictures {
			if min(a.x+a.w, p.x+p.w)-max(a.x, p.x) > 4 && min(a.y+a.h, p.y+p.h)-max(a.y, p.y) > a.h/2 {
				out = append(out, fmt.Sprintf("%q lies over a picture", a.text))
			}
		}
	}
	return out
}
