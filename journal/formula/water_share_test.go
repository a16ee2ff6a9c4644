package formula

import "testing"

func TestUsualWaterShares(t *testing.T) {
	tests := []struct {
		name string
		want Percent
		ok   bool
	}{
		{"Whole milk", 88, true}, {"Coconut milk", 68, true}, {"2 egg yolks", 52, true}, {"Eggs", 76, true},
		{"Unsalted butter", 16, true}, {"Molasses", 22, true}, {"Olive oil", 0, true}, {"Paint", 0, false}, {"", 0, false},
	}
	for _, tt := range tests {
		if got, ok := WaterShareOf(tt.name); got != tt.want || ok != tt.ok {
			t.Errorf("%q: %g, %v; want %g, %v", tt.name, got, ok, tt.want, tt.ok)
		}
	}
	for name := range waterShares {
		if folded := foldPhrase(name); folded != name {
			t.Errorf("%q can never be found: it folds to %q", name, folded)
		}
	}
}
