package dough

import (
	"slices"
	"testing"

	"twinloaf/journal"
	"twinloaf/journal/plan"
)

func TestNameStep(t *testing.T) {
	for _, tt := range []struct {
		kind, name, typed  string
		wantKind, wantName string
	}{
		{"", "", "bulk ", journal.StepBulk, ""},
		{"", "", "Soak the fruit", string(plan.Other), "Soak the fruit"},
		{journal.StepBulk, "", "Long bulk", journal.StepBulk, "Long bulk"},
		{journal.StepBulk, "", "Soak", string(plan.Other), "Soak"},
		{journal.StepBulk, "", "Mix", string(plan.Mix), ""},
		{journal.StepBulk, "Long bulk", "Long one", journal.StepBulk, "Long one"},
		{"smoking", "", "Smoke", "smoking", "Smoke"}, // of a newer program
	} {
		s := journal.Step{Kind: tt.kind, Name: tt.name}
		NameStep(&s, tt.typed)
		if s.Kind != tt.wantKind || s.Name != tt.wantName {
			t.Errorf("%q %q called %q: %q %q, want %q %q", tt.kind, tt.name, tt.typed, s.Kind, s.Name, tt.wantKind, tt.wantName)
		}
	}
	if got := SuggestSteps("bu"); !slices.Contains(got, "Bulk") {
		t.Errorf("for bu: %q", got)
	}
}
