package bulk

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// A dough that is taken in leaves the belief that the joint one of it and everything common
// leaves once its own two unknowns are summed over: the joint covariance without them.
func TestADoughTakenInIsTheJointBeliefWithoutItsOwn(t *testing.T) {
	doughs := []Dough{{Culture: "a", Style: "boule"}, {Culture: "b", Style: "boule"}, {Culture: "b", Style: "pan"}}
	m := newModel(doughs)
	var all []seen
	for i := range 4 {
		s := seen{y: 0.2 * float64(i), sd: 0.1 + 0.05*float64(i)}
		for k := range s.x {
			s.x[k] = 0.3*float64(i) - 0.1*float64(k)
		}
		s.x[level] = 1
		all = append(all, s)
	}
	for _, d := range append(doughs, Dough{Culture: "unknown", Style: "pan"}) {
		prec, rhs := m.own(d.groups(), all)
		n := m.rhs.Len()
		var joint, left mat.Dense
		if err := joint.Inverse(prec); err != nil {
			t.Fatal(err)
		}
		var mean mat.VecDense
		mean.MulVec(&joint, rhs)
		if err := left.Inverse(joint.Slice(0, n, 0, n)); err != nil {
			t.Fatal(err)
		}
		m.add(d.groups(), all)
		common, _ := solve(m.prec, m.rhs)
		for i := range n {
			if got, want := common.AtVec(i), mean.AtVec(i); math.Abs(got-want) > 1e-8 {
				t.Errorf("%+v: unknown %d is believed to be %v, jointly %v", d, i, got, want)
			}
			for j := range n {
				if got, want := m.prec.At(i, j), left.At(i, j); math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
					t.Errorf("%+v: precision %d, %d is %v, jointly %v", d, i, j, got, want)
				}
			}
		}
	}
}
