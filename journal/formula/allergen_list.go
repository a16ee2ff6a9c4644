package formula

// List is a law's list of allergens that must be told.
type List int

// The lists. On the American one are nine (FALCPA 2004, and sesame by the
// FASTER Act 2021); on the European one fourteen (EU 1169/2011, Annex II).
const (
	USNine List = iota
	EUFourteen
)

// entry is where an allergen stands on the two lists; "" where it does not.
type entry struct{ us, eu string }

const (
	usNuts = "tree nuts"
	euNuts = "nuts"
	gluten = "cereals containing gluten"
)

var entries = map[Allergen]entry{
	Wheat:       {"wheat", gluten},
	Rye:         {"", gluten},
	Barley:      {"", gluten},
	Oats:        {"", gluten},
	Milk:        {"milk", "milk"},
	Egg:         {"egg", "eggs"},
	Fish:        {"fish", "fish"},
	Crustaceans: {"crustacean shellfish", "crustaceans"},
	Molluscs:    {"", "molluscs"},
	Peanut:      {"peanuts", "peanuts"},
	Soya:        {"soybeans", "soybeans"},
	Sesame:      {"sesame", "sesame seeds"},
	Almond:      {usNuts, euNuts},
	Hazelnut:    {usNuts, euNuts},
	Walnut:      {usNuts, euNuts},
	Cashew:      {usNuts, euNuts},
	Pecan:       {usNuts, euNuts},
	BrazilNut:   {usNuts, euNuts},
	Pistachio:   {usNuts, euNuts},
	Macadamia:   {usNuts, euNuts},
	PineNut:     {usNuts, ""},
	SomeNut:     {usNuts, euNuts},
	Celery:      {"", "celery"},
	Mustard:     {"", "mustard"},
	Sulphites:   {"", "sulphur dioxide and sulphites"},
	Lupin:       {"", "lupin"},
}

// Allergens lists every allergen the package knows, in the order of the lists.
func Allergens() []Allergen {
	return []Allergen{
		Wheat, Rye, Barley, Oats, Milk, Egg, Fish, Crustaceans, Molluscs, Peanut, Soya, Sesame,
		Almond, Hazelnut, Walnut, Cashew, Pecan, BrazilNut, Pistachio, Macadamia, PineNut, SomeNut,
		Celery, Mustard, Sulphites, Lupin,
	}
}

// On gives the entry of the list that the allergen falls under, and false when
// it is not on that list. Sulphites are on theirs above 10 mg/kg; the pine nut
// is a tree nut to the US only (FDA guidance, from memory).
func (a Allergen) On(l List) (string, bool) {
	e := entries[a]
	name := e.us
	if l == EUFourteen {
		name = e.eu
	}
	return name, name != ""
}
