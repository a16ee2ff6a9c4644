package journal

import (
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/formula"
)

// A Formula is one version of a formula. Versions of one formula share a
// Family; a version that a bake follows is not altered but followed by another.
type Formula struct {
	Head
	Family ID     `json:"family"`
	Number int    `json:"number"` // 1 for the first version
	Name   string `json:"name,omitzero"`
	Change string `json:"change,omitzero"` // what this version does differently

	Loaves      int              `json:"loaves,omitzero" limit:"count"`
	Ingredients []Ingredient     `json:"ingredients,omitempty"`
	Levains     []LevainBuild    `json:"levains,omitempty"`
	Steps       []Step           `json:"steps,omitempty"`
	Wanted      *formula.Celsius `json:"wantedC,omitzero"` // dough temperature
	Notes       string           `json:"notes,omitzero"`
}

func (*Formula) kind() Kind { return KindFormula }

// A LevainBuild is the part of a formula that is built beforehand from a seed
// of the culture.
type LevainBuild struct {
	Name  string         `json:"name,omitzero"`
	Lines []Ingredient   `json:"lines,omitempty"` // the seed culture among them
	Kept  formula.Grams  `json:"keptG,omitzero"`  // back for the next time
	Hours float64        `json:"hours,omitzero" limit:"hours"`
	Rest  jsontext.Value `json:",embed"`
}
