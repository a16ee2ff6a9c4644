package blind

import (
	"fmt"
	"io"
	"slices"

	"twinloaf/journal/blind/draw"
)

// Redrawn is the same tasting with the same answers against orders drawn anew,
// as they could have been drawn. How often as many answers are right under it
// is a p-value that holds whatever habits a guesser has. The binomial one
// supposes rounds that know nothing of one another, which balanced orders are
// not quite: a guesser who names each place equally often is all right, or all
// wrong, more often than it says.
//
// It is for tastings with a helper; alone, plates are shuffled by hand, each
// round for itself, and the tasting comes back as it is.
func (o Opened) Redrawn(reader io.Reader) (Opened, error) {
	plan := o.Setting.Plan
	if plan.Mode == Alone {
		return o, nil
	}
	source := draw.From(reader)
	drawn, err := drawOrders(plan, source)
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
		for j, one := range drawn[r.Taster][r.Round] {
			r.Plates[j].Loaf = 1 + int(one)
			if swapped {
				r.Plates[j].Loaf = 2 - int(one)
			}
		}
	}
	return o, nil
}
