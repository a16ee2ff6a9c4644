package pages

import (
	"testing"

	"twinloaf/journal/formula"
)

func TestGuessRole(t *testing.T) {
	cultures, flours := []string{"Harbour", "Old Rye"}, []string{"Mill Lane 80"}
	for _, tt := range []struct {
		name string
		want formula.Role
	}{
		{"", ""},
		{"Water", formula.Water},
		{"water, 30 °C", formula.Water},
		{"Soaking water", formula.SoakWater},
		{"Water for the oats", formula.SoakWater},
		{"Sea salt", formula.Salt},
		{"Harbour", formula.Culture},
		{"ripe harbour levain", formula.Culture},
		{"Old rye", formula.Culture}, // a culture's name, though rye is a grain
		{"rye starter", formula.Culture},
		{"Strong white wheat flour", formula.Flour},
		{"Dark rye", formula.Flour},
		{"mill lane  80", formula.Flour},
		{"oat flour", formula.Flour},
		{"Rolled oats", formula.Seeds},
		{"sunflower seeds", formula.Seeds},
		{"Sunflower oil", formula.Fat},
		{"Olive oil", formula.Fat},
		{"butter", formula.Fat},
		{"Buttermilk", formula.Liquid},
		{"coconut water", formula.Liquid},
		{"honey", formula.Sugar},
		{"barley malt", formula.Sugar},
		{"fresh yeast", formula.Yeast},
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
	} {
		if grain, whole := GuessGrain(tt.name); grain != tt.grain || whole != tt.whole {
			t.Errorf("GuessGrain(%q) = %q, %v, want %q, %v", tt.name, grain, whole, tt.grain, tt.whole)
		}
	}
}
