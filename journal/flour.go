package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/formula"
)

// A Flour is one flour of the larder.
type Flour struct {
	Head
	Name  string     `json:"name"`
	Facts FlourFacts `json:"facts,omitzero"`
	Lots  []FlourLot `json:"lots,omitempty"`
	Notes string     `json:"notes,omitzero"`
}

func (*Flour) kind() Kind { return KindFlour }

// A FlourLot is one bag or delivery of a flour.
type FlourLot struct {
	ID     ID             `json:"id"`
	Mark   string         `json:"mark,omitzero"` // as printed on the bag
	Bought time.Time      `json:"bought,omitzero"`
	Grams  formula.Grams  `json:"g,omitzero"`
	Price  float64        `json:"price,omitzero"` // of the lot, in the journal's currency
	Note   string         `json:"note,omitzero"`
	Rest   jsontext.Value `json:",embed"`
}
