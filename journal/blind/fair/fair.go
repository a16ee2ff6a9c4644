// Package fair keeps a pair of bakes fair: it lists every recorded difference
// between them beyond the intended one, and draws what must not be chosen.
package fair

import (
	"fmt"
	"io"
	"math"
	"strings"

	"twinloaf/journal/blind/draw"
	"twinloaf/journal/say"
)

// Value is one recorded figure or word of a bake. The zero Value is "not
// recorded".
type Value struct {
	Known  bool
	Number float64
	// Text is used when the value is a word, such as a flour's name. Two texts
	// are compared.
	Text string
	// Said is what a sentence has for Text where that is not the baker's own
	// word: a line, or a moment. It may be nil.
	Said any
}

// Number is a recorded number.
func Number(x float64) Value { return Value{Known: true, Number: x} }

// Text is a recorded word.
func Text(words string) Value { return Value{Known: true, Text: words} }

// Metric is one thing that both bakes could have recorded.
type Metric struct {
	Name say.Line // as in "dough temperature"
	Unit string   // as in "°C"; empty for words
	// First and Second are the two bakes' values.
	First, Second Value
	// Tolerance is the largest difference of numbers that is called none.
	Tolerance float64
	// Intended marks what the trial varies on purpose.
	Intended bool
}

// Difference is one unintended difference and what the baker says to it.
type Difference struct {
	Figure Metric
	// Accepted says that the baker lets it stand.
	Accepted bool
	// Note is what the baker remarks on it.
	Note string
}

// Settled reports whether the baker has answered it, by accepting or noting.
func (d Difference) Settled() bool { return d.Accepted || strings.TrimSpace(d.Note) != "" }

// Differences lists what differs beyond what was intended and beyond the
// tolerances, in the order given. Something recorded for one bake alone is a
// difference too: nobody knows that it was the same.
func Differences(figures []Metric) []Difference {
	var found []Difference
	for _, f := range figures {
		if !f.Intended && differs(f) {
			found = append(found, Difference{Figure: f})
		}
	}
	return found
}

// Alike lists what was recorded of both and does not differ, in the order given; what is
// intended is not among it.
func Alike(figures []Metric) []Difference {
	var found []Difference
	for _, f := range figures {
		if !f.Intended && f.First.Known && f.Second.Known && !differs(f) {
			found = append(found, Difference{Figure: f})
		}
	}
	return found
}

func differs(f Metric) bool {
	a, b := f.First, f.Second
	switch {
	case !a.Known && !b.Known:
		return false
	case a.Known != b.Known:
		return true
	case a.Text != "" || b.Text != "":
		return strings.TrimSpace(a.Text) != strings.TrimSpace(b.Text)
	}
	// A hair of slack for decimal figures: 24.3 - 24.1 is not quite 0.2.
	return math.Abs(a.Number-b.Number) > f.Tolerance+1e-9
}

// Sentence says the difference in words, with what the bakes are called.
func (d Difference) Sentence(first, second say.Line) say.Line {
	f := d.Figure
	with := say.With{"Figure": f.Name, "First": first, "Second": second, "One": f.shown(f.First), "Other": f.shown(f.Second)}
	var said say.Line
	switch {
	case !f.First.Known:
		said = say.Of("{{.Figure}} was recorded for {{.Second}} ({{.Other}}) and not for {{.First}}.", with)
	case !f.Second.Known:
		said = say.Of("{{.Figure}} was recorded for {{.First}} ({{.One}}) and not for {{.Second}}.", with)
	case f.First.Text != "" || f.Second.Text != "":
		said = say.Of("{{.Figure}}: {{.One}} for {{.First}}, {{.Other}} for {{.Second}}.", with)
	default:
		with["Apart"] = f.apart()
		said = say.Of("{{.Figure}}: {{.One}} for {{.First}}, {{.Other}} for {{.Second}}, a difference of {{.Apart}}.", with)
	}
	return say.Begin(said)
}

// Figures gives the two values and how far they are apart, to stand in columns; ok is
// false unless both are recorded as numbers, and then it takes a sentence.
func (d Difference) Figures() (first, second, apart say.Line, ok bool) {
	f := d.Figure
	for _, v := range []Value{f.First, f.Second} {
		if !v.Known || v.Text != "" || v.Said != nil {
			return first, second, apart, false
		}
	}
	line := func(q say.Quantity) say.Line { return say.Of("{{.Figure}}", say.With{"Figure": q}) }
	return line(f.quantity(f.First.Number)), line(f.quantity(f.Second.Number)), line(f.apart()), true
}

// apart is how far two numbers lie from one another.
func (f Metric) apart() say.Quantity {
	q := f.quantity(math.Abs(f.First.Number - f.Second.Number))
	q.Difference = true
	return q
}

// shown is how a value stands in a sentence.
func (f Metric) shown(v Value) any {
	switch {
	case v.Said != nil:
		return v.Said
	case v.Text != "":
		return v.Text
	}
	return f.quantity(v.Number)
}

func (f Metric) quantity(x float64) say.Quantity {
	return say.Quantity{Number: say.Round(x, 2), Unit: f.Unit}
}

// Lots says what was drawn for the bakes of a trial. Each list holds the bakes'
// numbers from 0.
type Lots struct {
	// MixOrder is the order in which the doughs are mixed.
	MixOrder []int
	// BowlMarks gives, for each bake, the mark its bowl gets: 0 is the first
	// mark, 1 the second.
	BowlMarks []int
	// BakeOrder is the order in which they are baked.
	BakeOrder []int
}

// DrawLots draws who is mixed first, which bowl gets which mark and who is
// baked first, each apart from the others, for a trial of n bakes.
func DrawLots(n int, reader io.Reader) (Lots, error) {
	if n < 2 {
		return Lots{}, fmt.Errorf("draw lots for %d bakes: a trial has at least two", n)
	}
	source := draw.From(reader)
	var lots Lots
	for _, list := range []*[]int{&lots.MixOrder, &lots.BowlMarks, &lots.BakeOrder} {
		order, err := source.Order(n)
		if err != nil {
			return Lots{}, fmt.Errorf("draw lots for the trial: %w", err)
		}
		*list = order
	}
	return lots, nil
}
