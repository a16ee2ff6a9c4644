package blind

import (
	"fmt"
	"io"
	"slices"

	"twinloaf/journal/blind/draw"
)

// Redrawn is the same tasting with the same answers against orders drawn anew,
// as they could have been drawn. How often as many answers are right under it
// is a p-value that holds whatever habits guessers have. The binomial one
// supposes servings that know nothing of one another, which balanced orders are
// not quite (see [Setting.Balanced]): guessers who between them name each place
// equally often are all right, or all wrong, more often than it says.
//
// It is for tastings with a helper; alone, plates are shuffled by hand, each
// round for itself, and the tasting comes back as it is.
func (o Opened) Redrawn(reader io.Reader) (Opened, error) {
	plan := o.Setting.Plan
	if plan.Mode == Alone {
		return o, nil
	}
	source := draw.From(reader)
	orders := servingOrders(plan.Method)
	var which [][]int
	var err error
	if o.Setting.Version < settingVersion {
		which, err = balanced(source, len(plan.Tasters), plan.Rounds, len(orders))
	} else {
		which, err = drawWhich(plan, source, len(orders))
	}
	if err != nil {
		return Opened{}, fmt.Errorf("draw the orders anew: %w", err)
	}
	swapped, err := source.Coin()
	if err != nil {
		return Opened{}, fmt.Errorf("draw the orders anew: %w", err)
	}
	o.Rounds = slices.Clone(o.Rounds)
	for i := range o.Rounds {
		r := &o.Rounds[i]
		r.Plates = slices.Clone(r.Plates)
		for j, loaf := range loavesOf(plan, orders[which[r.Taster][r.Round]], swapped) {
			r.Plates[j].Loaf = int(loaf)
		}
	}
	return o, nil
}
