package pages

import (
	"strings"

	"fyne.io/fyne/v2/lang"
)

// A Grain is what a flour is milled from: as records have it, and in the baker's language.
type Grain struct{ Key, Word string }

// Grains are those that are offered.
func Grains() []Grain {
	return []Grain{
		{"wheat", lang.L("wheat")}, {"rye", lang.L("rye")}, {"spelt", lang.L("spelt")}, {"einkorn", lang.L("einkorn")},
		{"emmer", lang.L("emmer")}, {"khorasan", lang.L("khorasan")}, {"durum", lang.L("durum")}, {"barley", lang.L("barley")},
		{"buckwheat", lang.L("buckwheat")}, {"oat", lang.L("oat")}, {"maize", lang.L("maize")}, {"rice", lang.L("rice")},
	}
}

// GrainWord says a grain of a record; one that the baker named otherwise stays as it was typed.
func GrainWord(key string) string {
	for _, g := range Grains() {
		if g.Key == key {
			return g.Word
		}
	}
	return key
}

// GrainOf is the grain of a record that a word is for.
func GrainOf(typed string) string {
	typed = strings.ToLower(strings.TrimSpace(typed))
	for _, g := range Grains() {
		if strings.ToLower(g.Word) == typed {
			return g.Key
		}
	}
	return typed
}
