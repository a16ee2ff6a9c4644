package formula

import (
	"slices"
	"strings"
)

// roleWords are what the names of ingredients tell of their role. The first
// role with a word that the name holds is taken, so that "soaking water" is no
// water and "rye starter" no flour. A phrase of several words stands for itself.
var roleWords = []struct {
	role  Role
	words []string
}{
	{SoakWater, []string{"soaking water", "soak water", "water for the", "soaker water"}},
	{Liquid, []string{"coconut water", "rose water", "orange water", "oat milk", "milk", "buttermilk", "yoghurt", "yogurt", "kefir", "whey", "cream", "beer", "ale", "stout", "cider", "wine", "juice", "coffee", "tea", "egg", "eggs", "yolk", "yolks"}},
	{Fat, []string{"oil", "butter", "lard", "ghee", "margarine", "fat", "shortening", "suet"}},
	{Sugar, []string{"honey", "sugar", "syrup", "molasses", "treacle", "malt", "agave"}},
	{Seeds, []string{"seed", "seeds", "sesame", "sunflower", "linseed", "flaxseed", "flax", "poppy", "pumpkin", "chia", "walnut", "walnuts", "hazelnut", "hazelnuts", "almond", "almonds", "nut", "nuts", "raisins", "sultanas", "currants", "cranberries", "olives", "figs", "dates", "apricots", "oats", "flakes", "groats", "berries", "kernels", "malted grain"}},
	{Water, []string{"water", "wasser", "eau", "acqua", "ice"}},
	{Salt, []string{"salt", "salz", "sel", "sale"}},
	{Culture, []string{"culture", "starter", "levain", "leaven", "sourdough", "sour", "ripe"}},
	{Yeast, []string{"yeast", "hefe", "levure"}},
	{Flour, []string{"flour", "flours", "mehl", "farine", "farina", "wholemeal", "wholegrain", "wholewheat", "wheat", "rye", "spelt", "einkorn", "emmer", "khorasan", "durum", "semolina", "barley", "meal", "buckwheat", "bran", "vollkorn", "strong white", "strong bread", "plain white", "white bread", "bread flour"}},
}

// GuessRole tells from its name what an ingredient is to the dough; it gives
// the empty role when the name tells nothing. cultures and flours are the names of
// those that the journal knows: they come before what the words say.
func GuessRole(name string, cultures, flours []string) Role {
	low := foldPhrase(name)
	if low == "" {
		return ""
	}
	for _, f := range flours {
		if foldPhrase(f) == low {
			return Flour
		}
	}
	padded := pad(name)
	for _, c := range cultures {
		if c = foldPhrase(c); c != "" && strings.Contains(padded, " "+c+" ") {
			return Culture
		}
	}
	if holdsAny(padded, []string{"flour", "mehl", "farine", "farina"}) && !holdsAny(padded, []string{"starter", "levain"}) {
		return Flour // "sunflower flour", "oat flour"
	}
	for _, r := range roleWords {
		if holdsAny(padded, r.words) {
			return r.role
		}
	}
	return ""
}

// apart parts what German writes in one word: "Roggenvollkornmehl" is rye, whole, flour.
var apart = strings.NewReplacer("vollkorn", " vollkorn ", "mehl", " mehl ", "schrot", " schrot ")

func pad(name string) string { return " " + foldPhrase(apart.Replace(strings.ToLower(name))) + " " }

func holdsAny(padded string, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(padded, " "+foldPhrase(w)+" ") })
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
	padded := pad(name)
	wholegrain = holdsAny(padded, []string{"wholemeal", "wholegrain", "wholewheat", "whole", "vollkorn", "integrale", "complete"})
	for _, g := range grains {
		if strings.Contains(padded, " "+foldPhrase(g.word)+" ") {
			return g.grain, wholegrain
		}
	}
	return "", wholegrain
}
