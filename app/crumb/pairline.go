package crumb

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// pairLine is a line of the table.
type pairLine struct {
	box                   fyne.CanvasObject
	name, a, b, diff, say *kit.Readout
}

func newPairLine() *pairLine {
	l := &pairLine{}
	for _, r := range []**kit.Readout{&l.name, &l.a, &l.b, &l.diff, &l.say} {
		*r = kit.NewReadout("", false)
	}
	l.box = kit.WeightedColumns(look.Space(10), []float32{2.6, 1.6, 1.6, 1, 2.6}, l.name, l.a, l.b, l.diff, l.say)
	return l
}

func (l *pairLine) set(r pairRow) {
	l.name.Set(r.name, r.unit, "", r.tip)
	l.a.Set(r.a, "", "", r.tip)
	l.b.Set(r.b, "", "", r.tip)
	l.diff.Set(r.change, "", "", r.tip)
	l.say.Set(r.verdict, "", "", r.tip)
}
