package shelf

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/past"
	"twinloaf/journal/shelf"
)

// orderWords says which end of an order comes first. What it goes by stands beside it.
func orderWords(o shelf.Order) string {
	down, up := endWords(o.By)
	if o.Upwards {
		return up
	}
	return down
}

// endWords names the two ends of a figure as a baker would: cold rests are long, doughs
// warm.
func endWords(by shelf.Metric) (down, up string) {
	switch by {
	case "":
		return lang.L("newest first"), lang.L("oldest first")
	case past.ColdHours, past.BulkHours, past.ProofHours:
		return lang.L("longest first"), lang.L("shortest first")
	case past.CultureAge:
		return lang.L("oldest culture first"), lang.L("youngest culture first")
	case past.DoughTemp, past.RoomTemp, past.InsideTemp:
		return lang.L("warmest first"), lang.L("coolest first")
	case past.DoughWeight:
		return lang.L("heaviest first"), lang.L("lightest first")
	case past.Height:
		return lang.L("tallest first"), lang.L("flattest first")
	}
	if _, share := past.FlourOf(by); share || by == past.Wholegrain || by == past.Prefermented {
		return lang.L("most of it first"), lang.L("least of it first")
	}
	return lang.L("highest first"), lang.L("lowest first")
}
