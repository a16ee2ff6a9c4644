package pages

import (
	"testing"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

func TestLoafTone(t *testing.T) {
	for _, c := range []struct {
		name string
		card journal.Card
		want kit.LoafTone
	}{
		{"nothing known", journal.Card{}, kit.PaleLoaf},
		{"white wheat", journal.Card{Flours: []journal.CardFlour{{Name: "Strong white", Share: 100}}}, kit.PaleLoaf},
		{"a fifth whole grain", journal.Card{Metrics: []shelf.Value{{Figure: shelf.Wholegrain, Value: 20}}}, kit.GoldenLoaf},
		{"two thirds whole grain", journal.Card{Metrics: []shelf.Value{{Figure: shelf.Wholegrain, Value: 66}}}, kit.BrownLoaf},
		{"half rye by its name", journal.Card{Flours: []journal.CardFlour{{Name: "Dark rye", Share: 50}}}, kit.BrownLoaf},
		{"all rye by its grain", journal.Card{Metrics: []shelf.Value{{Figure: shelf.Wholegrain, Value: 40}}, Flours: []journal.CardFlour{{Name: "Old Mill 12", Grain: "rye", Share: 100}}}, kit.DarkLoaf},
	} {
		if got := LoafTone(&c.card); got != c.want {
			t.Errorf("%s: tone %d, want %d", c.name, got, c.want)
		}
	}
}
