package formula

import "cmp"

// Role says what an ingredient does in the dough, and so how it is counted.
type Role string

// The roles. The empty role counts as [Other].
const (
	Flour     Role = "flour"         // counts as flour
	Water     Role = "water"         // counts as water
	Salt      Role = "salt"          // counts as salt
	Culture   Role = "culture"       // seed culture or ripe levain: flour and water by its hydration
	Liquid    Role = "liquid"        // milk, beer, egg: water by its water share
	Fat       Role = "fat"           // oil, butter: water by its water share, mostly none
	Sugar     Role = "sugar"         // sugar, honey, malt: water by its water share
	Seeds     Role = "seeds"         // seeds, grains, nuts, fruit: counts as neither
	SoakWater Role = "soaking water" // water the seeds drink: counts as water only when it says so
	Yeast     Role = "yeast"         // baker's yeast, fresh or dry
	Other     Role = "other"         // anything else: water by its water share
)

// Roles lists every role in the order in which a formula is usually written.
func Roles() []Role {
	return []Role{Flour, Water, Culture, Salt, Liquid, Fat, Sugar, Seeds, SoakWater, Yeast, Other}
}

// Ingredient is one line of a formula: a name, a role and a weight. Its other
// fields matter to some roles only; left at zero they say "nothing known".
type Ingredient struct {
	Name  string `json:"name,omitzero"`
	Role  Role   `json:"role,omitzero"`
	Grams Grams  `json:"grams,omitzero"`

	// Wholegrain is the share of wholegrain in a flour, or in a culture's flour.
	Wholegrain Percent `json:"wholegrain,omitzero"`
	// Protein and Ash are a flour's, as its bag says; Ash is of dry matter.
	// 0 means not known.
	Protein Percent `json:"protein,omitzero"`
	Ash     Percent `json:"ash,omitzero"`
	// Type is a flour's type name, such as "1150" or "T65".
	Type string `json:"type,omitzero"`

	// Hydration is a culture's: its water per hundred of its flour. 0 means
	// not said, and is taken as 100 (common practice, no source).
	Hydration Percent `json:"hydration,omitzero"`
	// WaterShare is how much of a liquid, fat, sugar or other add-in is water.
	WaterShare Percent `json:"waterShare,omitzero"`
	// Counts makes a line of soaking water count toward hydration.
	Counts bool `json:"counts,omitzero"`

	// Allergens are the baker's corrections to what the name gives away.
	Allergens Corrections `json:"allergens,omitzero"`
}

// hydration is the culture's hydration with "not said" filled in.
func (in Ingredient) hydration() Percent {
	return cmp.Or(in.Hydration, 100)
}

// flourShare is the part of the line's weight that is flour, 0 to 1.
func (in Ingredient) flourShare(b Basis) Grams {
	switch in.Role {
	case Flour:
		return 1
	case Culture:
		if b == WithoutCulture {
			return 0
		}
		return 100 / Grams(100+in.hydration())
	default:
		return 0
	}
}

// waterShare is the part of the line's weight that is water, 0 to 1.
func (in Ingredient) waterShare(b Basis) Grams {
	switch in.Role {
	case Water:
		return 1
	case Culture:
		if b == WithoutCulture {
			return 0
		}
		return Grams(in.hydration()) / Grams(100+in.hydration())
	case SoakWater:
		if in.Counts {
			return 1
		}
		return 0
	case Flour, Salt, Seeds, Yeast:
		return 0
	default:
		return Grams(in.WaterShare) / 100
	}
}

// flourIn is the flour in the line by the basis asked for.
func (in Ingredient) flourIn(b Basis) Grams { return in.Grams * in.flourShare(b) }

// waterIn is the water in the line by the basis asked for.
func (in Ingredient) waterIn(b Basis) Grams { return in.Grams * in.waterShare(b) }
