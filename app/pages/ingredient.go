package pages

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/formula"
)

// RoleWord says a role of an ingredient in the baker's language.
func RoleWord(r formula.Role) string {
	switch r {
	case formula.Flour:
		return lang.L("flour")
	case formula.Water:
		return lang.L("water")
	case formula.Salt:
		return lang.L("salt")
	case formula.Culture:
		return lang.L("culture")
	case formula.Liquid:
		return lang.L("liquid")
	case formula.Fat:
		return lang.L("fat")
	case formula.Sugar:
		return lang.L("sweet")
	case formula.Seeds:
		return lang.L("seeds, fruit")
	case formula.SoakWater:
		return lang.L("soaking water")
	case formula.Yeast:
		return lang.L("yeast")
	}
	return lang.L("other")
}

// roleWords are what the names of ingredients tell of their role. The first
// role with a word that the name holds is taken, so that "soaking water" is no
// water and "rye starter" no flour. A phrase of several words stands for itself.
var roleWords = []struct {
	role  formula.Role
	words []string
}{
	{formula.SoakWater, []string{"soaking water", "soak water", "water for the", "soaker water"}},
	{formula.Liquid, []string{"coconut water", "rose water", "orange water", "oat milk", "milk", "buttermilk", "yoghurt", "yogurt", "kefir", "whey", "cream", "beer", "ale", "stout", "cider", "wine", "juice", "coffee", "tea", "egg", "eggs", "yolk", "yolks"}},
	{formula.Fat, []string{"oil", "butter", "lard", "ghee", "margarine", "fat", "shortening", "suet"}},
	{formula.Sugar, []string{"honey", "sugar", "syrup", "molasses", "treacle", "malt", "agave"}},
	{formula.Seeds, []string{"seed", "seeds", "sesame", "sunflower", "linseed", "flaxseed", "flax", "poppy", "pumpkin", "chia", "walnut", "walnuts", "hazelnut", "hazelnuts", "almond", "almonds", "nut", "nuts", "raisins", "sultanas", "currants", "cranberries", "olives", "figs", "dates", "apricots", "oats", "flakes", "groats", "berries", "kernels", "malted grain"}},
	{formula.Water, []string{"water", "wasser", "eau", "acqua", "ice"}},
	{formula.Salt, []string{"salt", "salz", "sel", "sale"}},
	{formula.Culture, []string{"culture", "starter", "levain", "leaven", "sourdough", "sour", "ripe"}},
	{formula.Yeast, []string{"yeast", "hefe", "levure"}},
	{formula.Flour, []string{"flour", "flours", "mehl", "farine", "farina", "wholemeal", "wholegrain", "wholewheat", "wheat", "rye", "spelt", "einkorn", "emmer", "khorasan", "durum", "semolina", "barley", "meal", "buckwheat", "bran", "vollkorn", "strong white", "strong bread", "plain white", "white bread", "bread flour"}},
}

// GuessRole tells from its name what an ingredient is to the dough; it gives
// the empty role when the name tells nothing. cultures and flours are the names of
// those that the journal knows: they come before what the words say.
func GuessRole(name string, cultures, flours []string) formula.Role {
	low := fold(name)
	if low == "" {
		return ""
	}
	for _, f := range flours {
		if fold(f) == low {
			return formula.Flour
		}
	}
	padded := " " + low + " "
	for _, c := range cultures {
		if c = fold(c); c != "" && strings.Contains(padded, " "+c+" ") {
			return formula.Culture
		}
	}
	if holdsAny(padded, []string{"flour", "mehl", "farine", "farina"}) && !holdsAny(padded, []string{"starter", "levain"}) {
		return formula.Flour // "sunflower flour", "oat flour"
	}
	for _, r := range roleWords {
		if holdsAny(padded, r.words) {
			return r.role
		}
	}
	return ""
}

func holdsAny(padded string, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(padded, " "+w+" ") })
}

// fold writes a name in lower case with single spaces and without the signs
// that stand between its words.
func fold(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return strings.ContainsRune(" \t\n ,;.:()/&-", r)
	}), " ")
}

// grains are the names of grains, with the grain that they are counted as.
var grains = []struct{ word, grain string }{
	{"rye", "rye"}, {"roggen", "rye"}, {"seigle", "rye"},
	{"spelt", "spelt"}, {"dinkel", "spelt"}, {"einkorn", "einkorn"}, {"emmer", "emmer"},
	{"khorasan", "khorasan"}, {"durum", "durum"}, {"semolina", "durum"}, {"barley", "barley"},
	{"buckwheat", "buckwheat"}, {"oat", "oat"}, {"rice", "rice"}, {"maize", "maize"}, {"corn", "maize"},
	{"wheat", "wheat"}, {"wholewheat", "wheat"}, {"weizen", "wheat"}, {"white", "wheat"}, {"bread", "wheat"}, {"strong", "wheat"},
}

// GuessGrain tells from its name what a flour is milled from, and whether of
// the whole grain. It gives "" when the name does not tell.
func GuessGrain(name string) (grain string, wholegrain bool) {
	padded := " " + fold(name) + " "
	wholegrain = holdsAny(padded, []string{"wholemeal", "wholegrain", "wholewheat", "whole", "vollkorn", "integrale", "complète"})
	for _, g := range grains {
		if strings.Contains(padded, " "+g.word+" ") {
			return g.grain, wholegrain
		}
	}
	return "", wholegrain
}
