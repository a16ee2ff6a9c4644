package journal

import (
	"testing"
	"time"

	"twinloaf/journal/plan"
	"twinloaf/journal/shelf"
)

// A final proof in the warm, a cold one and the bulk are figures of their own, which findings
// ask about; shaping loosely and resting on the bench belong to none of them, and the bulk
// ends with the first of them.
func TestStepsAroundTheShapingAreToldApart(t *testing.T) {
	at := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	b := &Bake{Name: "Ferry loaf", At: at}
	for _, s := range []struct {
		kind  plan.Kind
		hours float64
	}{{plan.Mix, 0.25}, {plan.Turns, 2}, {plan.Bulk, 1.5}, {plan.PreShape, 0.25}, {plan.BenchRest, 0.5}, {plan.Divide, 0.25}, {plan.Proof, 1.25}, {plan.ColdRest, 10}} {
		end := at.Add(time.Duration(s.hours * float64(time.Hour)))
		b.Steps = append(b.Steps, Step{ID: ID(s.kind), Kind: string(s.kind), At: at, End: end})
		at = end
	}
	c := summarize(b, nil, nil)
	for figure, want := range map[shelf.Metric]float64{shelf.BulkHours: 3.5, shelf.ProofHours: 1.25, shelf.ColdHours: 10} {
		if got := c.Metric(figure); got != want {
			t.Errorf("%s is %v, want %v", figure, got, want)
		}
	}
	for _, k := range []plan.Kind{plan.PreShape, plan.BenchRest, plan.Proof} {
		if inBulk(k) {
			t.Errorf("%s counts as bulk", k)
		}
	}
}
