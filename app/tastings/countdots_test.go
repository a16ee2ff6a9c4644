package tastings

import (
	"testing"

	"fyne.io/fyne/v2/canvas"

	"twinloaf/app/maintest"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
)

// The line stands between the dots that guessing would have got right on average and the
// others, and as many dots are filled as answers were right.
func TestCountDots(t *testing.T) {
	maintest.App(t)
	if counted(blind.Paired, verdict.Tally{Agreeing: 4, Counted: 6}, measure.Units{}) != nil {
		t.Error("a preference has right answers")
	}
	if counted(blind.Triangle, verdict.Tally{}, measure.Units{}) != nil {
		t.Error("no answers have dots")
	}
	for words, d := range map[string]*countDots{
		"1 of 1 right; guessing gives 0.3 on average":  {right: 1, all: 1, chance: blind.Triangle.Chance()},
		"12 of 18 right; guessing gives 6 on average":  {right: 12, all: 18, chance: blind.Triangle.Chance()},
		"9 of 15 right; guessing gives 7.5 on average": {right: 9, all: 15, chance: blind.DuoTrio.Chance()},
		"2 of 15 right; guessing gives 1.5 on average": {right: 2, all: 15, chance: blind.TwoOutOfFive.Chance()},
	} {
		if got := d.words(measure.Units{}); got != words {
			t.Errorf("it says %q, want %q", got, words)
		}
	}
	d := &countDots{right: 12, all: 18, chance: blind.Triangle.Chance()}
	d.ExtendBaseWidget(d)
	r := d.CreateRenderer()
	r.Layout(r.MinSize())
	dots, line := r.Objects()[:len(r.Objects())-1], r.Objects()[len(r.Objects())-1]
	filled := 0
	for _, o := range dots {
		if c := o.(*canvas.Circle); c.FillColor == c.StrokeColor {
			filled++
		}
	}
	if len(dots) != 18 || filled != 12 {
		t.Errorf("%d of %d dots are filled", filled, len(dots))
	}
	at := line.Position().X + line.Size().Width/2
	if sixth, seventh := dots[5], dots[6]; at < sixth.Position().X+sixth.Size().Width || at > seventh.Position().X {
		t.Errorf("the line of six by guessing is at %v", at)
	}
}
