package shelf

import (
	"fyne.io/fyne/v2/lang"

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
	case shelf.ColdHours, shelf.BulkHours, shelf.ProofHours:
		return lang.L("longest first"), lang.L("shortest first")
	case shelf.CultureAge:
		return lang.L("oldest culture first"), lang.L("youngest culture first")
	case shelf.DoughTemp, shelf.RoomTemp, shelf.InsideTemp:
		return lang.L("warmest first"), lang.L("coolest first")
	case shelf.DoughWeight:
		return lang.L("heaviest first"), lang.L("lightest first")
	case shelf.Height:
		return lang.L("tallest first"), lang.L("flattest first")
	}
	if _, share := by.Flour(); share || by == shelf.Wholegrain || by == shelf.Prefermented {
		return lang.L("most of it first"), lang.L("least of it first")
	}
	return lang.L("highest first"), lang.L("lowest first")
}
