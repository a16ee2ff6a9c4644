package formula

// CupWeight is what one author says a cup of something weighs.
type CupWeight struct {
	Item       string // bread flour, whole wheat, rye, spelt, semolina, water
	Author     string
	Grams      Grams // in a US cup of 236.6 mL
	Source     string
	FromMemory bool
}

var cupWeights = []CupWeight{
	{Item: "bread flour", Author: "King Arthur", Grams: 120, Source: "thefreshloaf.com node 14511"},
	{Item: "bread flour", Author: "Reinhart", Grams: GramsPerPound / 3.5, Source: "1 lb = 3.5 cups: rockisland.com, nw_sour weights"},
	{Item: "bread flour", Author: "Hamelman", Grams: 4.8 * GramsPerOunce, Source: "4.8 oz: thefreshloaf.com node 14511"},
	{Item: "bread flour", Author: "USDA", Grams: 137, Source: "FoodData Central 168896; thefreshloaf.com node 14511"},
	{Item: "bread flour", Author: "Beranbaum", Grams: 5.5 * GramsPerOunce, Source: "5.5 oz: thefreshloaf.com node 14511"},
	{Item: "all-purpose flour", Author: "King Arthur", Grams: 120, Source: "thefreshloaf.com node 14511"},
	{Item: "all-purpose flour", Author: "USDA", Grams: 125, Source: "FoodData Central 168894"},
	{Item: "whole wheat", Author: "King Arthur", Grams: 113, FromMemory: true},
	{Item: "whole wheat", Author: "USDA", Grams: 120, Source: "FoodData Central 168893"},
	{Item: "rye", Author: "USDA, medium or light", Grams: 102, FromMemory: true},
	{Item: "rye", Author: "King Arthur, medium", Grams: 106, FromMemory: true},
	{Item: "rye", Author: "USDA, dark", Grams: 128, FromMemory: true},
	{Item: "spelt", Author: "King Arthur", Grams: 99, FromMemory: true},
	{Item: "semolina", Author: "King Arthur", Grams: 163, FromMemory: true},
	{Item: "water", Author: "King Arthur", Grams: 227, FromMemory: true},
}

// CupItems lists what there are cup weights for.
func CupItems() []string {
	var out []string
	for _, c := range cupWeights {
		if len(out) == 0 || out[len(out)-1] != c.Item {
			out = append(out, c.Item)
		}
	}
	return out
}

// CupSpread is what authors say a cup weighs. They differ by a third for bread
// flour, by how it is spooned, scooped or packed; nobody is right.
type CupSpread struct {
	Authors     []CupWeight // the lightest cup first
	Least, Most Grams
}

// Cup gives the spread for an item of [CupItems], empty when it is not there.
func Cup(item string) CupSpread {
	var out CupSpread
	for _, c := range cupWeights {
		if c.Item != item {
			continue
		}
		if len(out.Authors) == 0 {
			out.Least = c.Grams
		}
		out.Most = max(out.Most, c.Grams)
		out.Authors = append(out.Authors, c)
	}
	return out
}
