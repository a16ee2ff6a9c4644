package formula

import "strings"

// WaterShareOf is a usual share of water for a liquid, fat or sugar, to begin
// with. Figures are of the USDA's FoodData Central, from memory and rounded;
// what stands on the packet is better. It says false for other names.
func WaterShareOf(name string) (Percent, bool) {
	ws := words(name)
	for n := min(3, len(ws)); n > 0; n-- {
		for i := range len(ws) - n + 1 {
			if share, ok := waterShares[strings.Join(ws[i:i+n], " ")]; ok {
				return share, true
			}
		}
	}
	return 0, false
}

// The names are folded as words folds them.
var waterShares = map[string]Percent{
	"milk": 88, "buttermilk": 90, "yoghurt": 88, "yogurt": 88, "kefir": 89, "whey": 93, "cream": 58,
	"beer": 92, "stout": 92, "ale": 92, "cider": 93, "wine": 87, "coffee": 99, "tea": 99,
	"apple juice": 88, "orange juice": 88, "juice": 88, "oat milk": 90, "soya milk": 93, "soy milk": 93, "coconut milk": 68,
	"egg": 76, "egg white": 88, "egg yolk": 52,
	"butter": 16, "oil": 0, "olive oil": 0, "lard": 0, "ghee": 0,
	"honey": 17, "maple syrup": 32, "molasse": 22, "treacle": 22, "sugar": 0,
}
