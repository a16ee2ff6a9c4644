package formula

import "slices"

// AllergensIn gives what the ingredient holds: what its name tells, with the
// baker's corrections. Water, salt, yeast and soaking water of any name count
// as known.
func (in Ingredient) AllergensIn() Finding {
	out := FindAllergens(in.Name)
	switch in.Role {
	case Water, Salt, Yeast, SoakWater:
		out.Known = true
	}
	c := in.Allergens
	out.Allergens = slices.DeleteFunc(out.Allergens, func(a Allergen) bool { return slices.Contains(c.Remove, a) })
	out.Allergens = inOrder(append(out.Allergens, c.Add...))
	out.Known = out.Known || c.Checked || len(c.Add) > 0
	return out
}

// AllergenSource is an allergen and the ingredients it comes from.
type AllergenSource struct {
	Allergen Allergen
	From     []string
}

// AllergenReport is what a dough holds, as far as the names tell. It is a help
// for the baker and not a label: what a mill or a kitchen adds without saying,
// it cannot know.
type AllergenReport struct {
	Found   []AllergenSource // in the order of [Allergens]
	Unknown []string         // ingredients of which nothing certain can be said
}

// Allergens reads every ingredient of the formula, its levains' included.
func (f Formula) Allergens() AllergenReport {
	from := make(map[Allergen][]string)
	var out AllergenReport
	f.inDough(func(_ int, in Ingredient) {
		found := in.AllergensIn()
		if !found.Known && !slices.Contains(out.Unknown, in.Name) {
			out.Unknown = append(out.Unknown, in.Name)
		}
		for _, a := range found.Allergens {
			if !slices.Contains(from[a], in.Name) {
				from[a] = append(from[a], in.Name)
			}
		}
	})
	for _, a := range Allergens() {
		if names := from[a]; len(names) > 0 {
			out.Found = append(out.Found, AllergenSource{Allergen: a, From: names})
		}
	}
	return out
}

// Gluten reports whether the dough holds a cereal with gluten.
func (r AllergenReport) Gluten() bool {
	return slices.ContainsFunc(r.Found, func(s AllergenSource) bool { return s.Allergen.Gluten() })
}

// Gluten reports whether the allergen is a cereal with gluten.
func (a Allergen) Gluten() bool { return entries[a].eu == gluten }

// ListEntry is an entry of a law's list and what of it the dough holds.
type ListEntry struct {
	Entry     string
	Allergens []Allergen
}

// On gives the entries of the list that the dough falls under.
func (r AllergenReport) On(l List) []ListEntry {
	var out []ListEntry
	for _, s := range r.Found {
		name, ok := s.Allergen.On(l)
		if !ok {
			continue
		}
		i := slices.IndexFunc(out, func(e ListEntry) bool { return e.Entry == name })
		if i < 0 {
			out = append(out, ListEntry{Entry: name})
			i = len(out) - 1
		}
		out[i].Allergens = append(out[i].Allergens, s.Allergen)
	}
	return out
}

// OnlyOn gives what was found that is on the list and not on the other.
func (r AllergenReport) OnlyOn(l List) []Allergen {
	other := EUFourteen
	if l == EUFourteen {
		other = USNine
	}
	var out []Allergen
	for _, s := range r.Found {
		_, here := s.Allergen.On(l)
		if _, there := s.Allergen.On(other); here && !there {
			out = append(out, s.Allergen)
		}
	}
	return out
}
