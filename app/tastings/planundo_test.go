package tastings

import (
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
)

// What is undone of a plan stands in its form again.
func TestThePlanShowsWhatWasUndone(t *testing.T) {
	b := newBench(t)
	b.goTo(pages.At(pages.Trial, b.trial().ID))
	b.key("T")
	before := b.Texts()
	var fields []pagestest.Field
	for _, f := range pagestest.All[*kit.TextField](b.Window.Content())[:1] {
		fields = append(fields, f)
	}
	for _, f := range pagestest.All[*kit.WhenField](b.Window.Content()) {
		fields = append(fields, f)
	}
	for _, f := range pagestest.All[*kit.QuantityField](b.Window.Content()) {
		fields = append(fields, f)
	}
	changes := []func(){func() { b.press("on the helper's paper") }}
	for i, text := range []string{"Sunday", "4 Apr 12:00", "3"} {
		changes = append(changes, func() { b.Type(fields[i], text) })
	}
	for i, change := range changes {
		change()
		b.Leave()
		b.settle()
		if b.Texts() == before && i > 0 { // of two pills the words stay, chosen or not
			t.Errorf("change %d is not shown", i)
		}
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
		b.settle()
		if after := b.Texts(); after != before {
			t.Errorf("after change %d was undone, the form shows\n%s\nand not\n%s", i, after, before)
		}
		for _, s := range pagestest.All[*kit.Segments](b.Window.Content()) {
			if s.Chosen() != 0 {
				t.Errorf("after change %d was undone, the choice is %d", i, s.Chosen())
			}
		}
	}
}
