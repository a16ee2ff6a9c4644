package pages

import (
	"testing"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

func TestLoafTone(t *testing.T) {
	for _, c := range []struct {
		name    string
		summary journal.BakeSummary
		want    kit.LoafTone
	}{
		{"nothing known", journal.BakeSummary{}, kit.PaleLoaf},
		{"white wheat", journal.BakeSummary{Flours: []journal.SummaryFlour{{Name: "Strong white", Share: 100}}}, kit.PaleLoaf},
		{"a fifth whole grain", journal.BakeSummary{Metrics: []shelf.Value{{Figure: shelf.Wholegrain, Value: 20}}}, kit.GoldenLoaf},
		{"two thirds whole grain", journal.BakeSummary{Metrics: []shelf.Value{{Figure: shelf.Wholegrain, Value: 66}}}, kit.BrownLoaf},
		{"half rye by its name", journal.BakeSummary{Flours: []journal.SummaryFlour{{Name: "Dark rye", Share: 50}}}, kit.BrownLoaf},
		{"all rye by its grain", journal.BakeSummary{Metrics: []shelf.Value{{Figure: shelf.Wholegrain, Value: 40}}, Flours: []journal.SummaryFlour{{Name: "Old Mill 12", Grain: "rye", Share: 100}}}, kit.DarkLoaf},
	} {
		if got := LoafTone(&c.summary); got != c.want {
			t.Errorf("%s: tone %d, want %d", c.name, got, c.want)
		}
	}
}
