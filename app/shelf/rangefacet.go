package shelf

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// rangeFacet bounds a figure: a histogram whose bins can be tapped, and the bounds
// as figures.
type rangeFacet struct {
	figure shelf.Metric
	box    *fyne.Container
	chart  *kit.ChartFrame
	bounds *boundFields
	spread shelf.Spread
	asked  *shelf.Range
	shown  bool
}

// newRangeFacet makes a facet; set is told the range that is asked for.
func newRangeFacet(main kit.Main, d past.Described, set func(shelf.Range)) *rangeFacet {
	f := &rangeFacet{figure: d.Key, chart: kit.NewChartFrame(main, fyne.NewSize(look.Space(30), look.Space(12)))}
	f.chart.Name, f.chart.Flush = lang.L("spread"), true
	f.bounds = newBoundFields(d.Measure, func(low, high *float64) {
		below := f.asked != nil && f.asked.Below && sameBound(high, f.asked.AtMost)
		set(shelf.Range{Figure: d.Key, AtLeast: low, AtMost: high, Below: below})
	})
	f.chart.OnMark = func(m charts.Mark) {
		if m.Index < len(f.spread.Counts) {
			set(picked(f.asked, f.spread.Bin(d.Key, m.Index)))
		}
	}
	f.box = kit.Stack(1, heading(past.Titled(d.Name)), f.chart, f.bounds.row)
	return f
}

// show draws the spread with the range that is asked for standing out.
func (f *rangeFacet) show(spread shelf.Spread, asked *shelf.Range, d past.Described) {
	same := f.shown && slices.Equal(f.spread.Counts, spread.Counts) && slices.Equal(f.spread.Edges, spread.Edges) && sameRange(f.asked, asked)
	f.spread, f.asked, f.shown = spread, nil, true
	if asked != nil {
		f.asked = new(*asked)
	}
	f.bounds.show(asked)
	some := slices.ContainsFunc(spread.Counts, func(n float64) bool { return n > 0 })
	kit.SetVisible(f.chart, some)
	kit.SetVisible(f.box, len(spread.Edges) > 1 && (some || asked != nil || f.bounds.editing()))
	if same || !some || len(spread.Edges) < 2 {
		return
	}
	spark := charts.Spark{Name: d.Name, Edges: spread.Edges, Counts: spread.Counts, Format: d.Write}
	if asked != nil {
		spark.From, spark.To = spread.Edges[0], spread.Edges[len(spread.Edges)-1]
		if asked.AtLeast != nil {
			spark.From = *asked.AtLeast
		}
		if asked.AtMost != nil {
			spark.To = *asked.AtMost
			if f.figure.IsScore() {
				spark.To++ // to the end of its bin
			}
		}
		spark.To = max(spark.From, spark.To)
	}
	f.chart.SetSpec(spark)
}

func sameRange(a, b *shelf.Range) bool {
	if a == nil || b == nil {
		return a == b
	}
	return sameBound(a.AtLeast, b.AtLeast) && sameBound(a.AtMost, b.AtMost) && a.Below == b.Below
}

func sameBound(a, b *float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}

// boundFields are two figures that bound something: "from 62 % to 84 %".
type boundFields struct {
	row       *fyne.Container
	low, high *kit.QuantityField
	to        *kit.Text // before the upper one
	set       func(low, high *float64)
}

func newBoundFields(m measure.Measure, set func(low, high *float64)) *boundFields {
	b := &boundFields{set: set}
	field := func() *kit.QuantityField {
		return kit.NewQuantityField(kit.QuantityOptions{
			Measure: m, Hint: lang.L("any"),
			Keep: func(*float64) { b.tell() },
		})
	}
	b.low, b.high = field(), field()
	b.to = kit.NewLine()
	b.row = kit.Flow(2.5, kit.NewLine(between(lang.L("from"))), b.low, b.to, b.high)
	return b
}

// between is a word beside a bound.
func between(word string) kit.Span {
	return kit.Span{Text: word, Size: look.TextSmall, Color: look.ColorFaint}
}

func (b *boundFields) editing() bool { return b.low.Editing() || b.high.Editing() }

func (b *boundFields) tell() { b.set(boundOf(b.low), boundOf(b.high)) }

func boundOf(f *kit.QuantityField) *float64 {
	if v, ok := f.Value(); ok {
		return &v
	}
	return nil
}

// show writes the bounds that are asked for.
func (b *boundFields) show(asked *shelf.Range) {
	if asked == nil {
		asked = &shelf.Range{}
	}
	b.low.Set(asked.AtLeast)
	b.high.Set(asked.AtMost)
	if asked.Below {
		b.to.SetSpans(between(lang.L("below")))
	} else {
		b.to.SetSpans(between(lang.L("to")))
	}
}
