package pages

import (
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
