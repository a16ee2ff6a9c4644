package dough

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal/formula"
)

// A slowPage holds a dough and is late to show what was typed.
type slowPage struct{ mix Mix }

func (p *slowPage) Mix() Mix                        { return p.mix }
func (p *slowPage) Edit(_ string, do func(*Mix))    { do(&p.mix) }
func (p *slowPage) Do(_ string, do func(*Mix)) bool { do(&p.mix); return true }

// Who types faster than the page shows comes to the next line all the same, and no amount is lost.
func TestTypedFasterThanShown(t *testing.T) {
	b := pagestest.New(t)
	p := &slowPage{}
	table := newTable(b.Env, p, &Names{}, formula.Final)
	table.WeightsFirst()
	b.Window.SetContent(table.Object)
	b.Window.Canvas().Focus(table.Next().Entry())
	for _, line := range []string{"600 g strong white\n", "water\t420\n", "12 g salt\n"} {
		for _, r := range line {
			switch c := b.Window.Canvas(); r {
			case '\n':
				c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			case '\t':
				c.FocusNext()
			default:
				c.Focused().TypedRune(r)
			}
		}
	}
	if len(p.mix.Ingredients) != 3 {
		t.Fatalf("%d lines: %+v", len(p.mix.Ingredients), p.mix.Ingredients)
	}
	for i, want := range []struct {
		name  string
		grams formula.Grams
	}{{"strong white", 600}, {"water", 420}, {"salt", 12}} {
		if in := p.mix.Ingredients[i]; in.Name != want.name || in.Grams != want.grams {
			t.Errorf("line %d is %q, %v g; want %+v", i+1, in.Name, in.Grams, want)
		}
	}
}
