package formula

import "testing"

func TestGuessRole(t *testing.T) {
	cultures, flours := []string{"Harbour", "Old Rye"}, []string{"Mill Lane 80"}
	for _, tt := range []struct {
		name string
		want Role
	}{
		{"", ""},
		{"Water", Water},
		{"water, 30 °C", Water},
		{"Soaking water", SoakWater},
		{"Water for the oats", SoakWater},
		{"Sea salt", Salt},
		{"Harbour", Culture},
		{"ripe harbour levain", Culture},
		{"Old rye", Culture}, // a culture's name, though rye is a grain
		{"rye starter", Culture},
		{"Strong white wheat flour", Flour},
		{"Dark rye", Flour},
		{"mill lane  80", Flour},
		{"oat flour", Flour},
		{"Rolled oats", Seeds},
		{"sunflower seeds", Seeds},
		{"Sunflower oil", Fat},
		{"Olive oil", Fat},
		{"butter", Fat},
		{"Buttermilk", Liquid},
		{"coconut water", Liquid},
		{"honey", Sugar},
		{"barley malt", Sugar},
		{"fresh yeast", Yeast},
		{"orange zest", ""},
	} {
		if got := GuessRole(tt.name, cultures, flours); got != tt.want {
			t.Errorf("GuessRole(%q) = %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestGuessGrain(t *testing.T) {
	for _, tt := range []struct {
		name, grain string
		whole       bool
	}{
		{"Dark rye", "rye", false},
		{"Wholemeal spelt", "spelt", true},
		{"Strong white", "wheat", false},
		{"whole wheat", "wheat", true},
		{"buckwheat", "buckwheat", false},
		{"type 550", "", false},
		{"Roggen", "rye", false},
		{"Roggenvollkornmehl", "rye", true},
		{"Weizenmehl 550", "wheat", false},
		{"Dinkel white", "spelt", false},
		{"Licorice malt", "", false},
		{"Farine complète", "", true},
	} {
		if grain, whole := GuessGrain(tt.name); grain != tt.grain || whole != tt.whole {
			t.Errorf("GuessGrain(%q) = %q, %v, want %q, %v", tt.name, grain, whole, tt.grain, tt.whole)
		}
	}
}
