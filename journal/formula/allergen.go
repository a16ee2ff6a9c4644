package formula

// Allergen is a source of allergy at the grain in which the US and the EU
// lists can both be told from it: "rye" is on one, not on the other.
type Allergen string

// The allergens.
const (
	Wheat       Allergen = "wheat" // with spelt, khorasan, durum, emmer, einkorn
	Rye         Allergen = "rye"
	Barley      Allergen = "barley"
	Oats        Allergen = "oats"
	Milk        Allergen = "milk"
	Egg         Allergen = "egg"
	Fish        Allergen = "fish"
	Crustaceans Allergen = "crustaceans"
	Molluscs    Allergen = "molluscs"
	Peanut      Allergen = "peanut"
	Soya        Allergen = "soya"
	Sesame      Allergen = "sesame"
	Almond      Allergen = "almond"
	Hazelnut    Allergen = "hazelnut"
	Walnut      Allergen = "walnut"
	Cashew      Allergen = "cashew"
	Pecan       Allergen = "pecan"
	BrazilNut   Allergen = "Brazil nut"
	Pistachio   Allergen = "pistachio"
	Macadamia   Allergen = "macadamia"
	PineNut     Allergen = "pine nut" // a tree nut to the US, not on the EU list
	SomeNut     Allergen = "nuts"     // nuts of a kind the name does not tell
	Celery      Allergen = "celery"
	Mustard     Allergen = "mustard"
	Sulphites   Allergen = "sulphites"
	Lupin       Allergen = "lupin"
)

// Corrections are what a baker knows better than the names of the ingredients.
type Corrections struct {
	Add    []Allergen `json:"add,omitzero"`
	Remove []Allergen `json:"remove,omitzero"`
	// Checked says that the line is right as it stands now, so that a name
	// nobody knows is no longer called unknown.
	Checked bool `json:"checked,omitzero"`
}
