package kit

import (
	"sync"

	"twinloaf/charts"
)

// ChartWords have charts say their own words in the language of the catalogue, and
// write numbers and times in these units.
func (u Units) ChartWords() charts.Words {
	return charts.Words{Find: new(foundWords).find, Comma: u.DecimalComma, TwelveHour: u.TwelveHour, MonthFirst: u.MonthFirst}
}

// foundWords remembers what the catalogue gave: a chart asks for the same few texts
// once for every mark, of which there may be thousands.
type foundWords struct{ known sync.Map }

// askedWords is what was asked of the catalogue.
type askedWords struct {
	text, one string
	n         int
}

func (f *foundWords) find(text, one string, n int) string {
	asked := askedWords{text, one, n}
	if known, ok := f.known.Load(asked); ok {
		return known.(string)
	}
	found := catalogued(text, one, n)
	f.known.Store(asked, found)
	return found
}
