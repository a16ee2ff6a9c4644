package pages

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/charts"
	"twinloaf/journal"
)

// LookOf is the look of a culture's mark, in charts and beside its name alike.
func LookOf(c *journal.Culture) charts.SeriesStyle { return LookOfMark(c.Mark()) }

// LookOfMark is the look of a mark.
func LookOfMark(m journal.Mark) charts.SeriesStyle {
	return charts.SeriesStyle{Hue: charts.Hue(m.Colour), Shape: charts.Shape(m.Shape)}
}

// PairLooks tell two loaves apart by the marks of their cultures. Loaves of one culture,
// or of which a culture is not known, are told by shape, one in ink and one in the accent:
// what has no shape, such as a histogram, tells them apart too.
func PairLooks(a, b *journal.Culture) [2]charts.SeriesStyle {
	if a == nil || b == nil || a.ID == b.ID {
		return [2]charts.SeriesStyle{{Hue: charts.Ink, Shape: charts.Round}, {Hue: charts.Accent, Shape: charts.Square, Hollow: true}}
	}
	looks := [2]charts.SeriesStyle{LookOf(a), LookOf(b)}
	if looks[0] == looks[1] { // two cultures may have been given one mark
		looks[1].Hollow = true
	}
	return looks
}

// LooksOfBakes tells two bakes apart, as [PairLooks] does.
func LooksOfBakes(r journal.Reader, a, b journal.ID) [2]charts.SeriesStyle {
	return PairLooks(cultureOf(r, a), cultureOf(r, b))
}

// CompareLooks are the looks of bakes that stand side by side: of two, those that tell them
// apart; of more, the marks of their cultures. A bake is left out that has none.
func CompareLooks(r journal.Reader, bakes []journal.ID) map[journal.ID]charts.SeriesStyle {
	out := make(map[journal.ID]charts.SeriesStyle, len(bakes))
	if len(bakes) == 2 {
		two := LooksOfBakes(r, bakes[0], bakes[1])
		out[bakes[0]], out[bakes[1]] = two[0], two[1]
		return out
	}
	for _, id := range bakes {
		if c := cultureOf(r, id); c != nil {
			out[id] = LookOf(c)
		}
	}
	return out
}

// cultureOf is the culture that a bake was made with; nil where that is not known.
func cultureOf(r journal.Reader, bake journal.ID) *journal.Culture {
	b, err := journal.Get[journal.Bake](r, bake)
	if err != nil || b.Culture == "" {
		return nil
	}
	c, err := journal.Get[journal.Culture](r, b.Culture)
	if err != nil {
		return nil
	}
	return c
}

// CultureLooks are the looks of all cultures.
func CultureLooks(r journal.Reader) (map[journal.ID]charts.SeriesStyle, error) {
	all, err := journal.All[journal.Culture](r)
	if err != nil {
		return nil, err
	}
	out := make(map[journal.ID]charts.SeriesStyle, len(all))
	for _, c := range all {
		out[c.ID] = LookOf(c)
	}
	return out, nil
}

// MarkColours names the colours of marks.
func MarkColours() []string {
	return []string{lang.L("blue"), lang.L("vermilion"), lang.L("green"), lang.L("pink"), lang.L("sky blue"), lang.L("orange")}
}

// MarkShapes names their shapes.
func MarkShapes() []string {
	return []string{lang.L("circle"), lang.L("square"), lang.L("triangle"), lang.L("diamond"), lang.L("cross"), lang.L("wedge")}
}

// BowlMarks are drawn on the bowls of a trial: forms that a pen or a strip of tape
// makes.
func BowlMarks() []string {
	return []string{lang.L("ring"), lang.L("cross"), lang.L("bar"), lang.L("wave")}
}
