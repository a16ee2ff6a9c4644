package stats

import (
	"math"
	"math/rand/v2"
	"testing"
)

func src() rand.Source { return rand.NewPCG(3, 4) }

// With one stratum it is Spearman's correlation and his permutation test.
func TestRankWithinOneStratumIsSpearmans(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		x, y := make([]float64, 24), make([]float64, 24)
		for i := range x {
			x[i] = math.Round(8 * r.Float64())
			y[i] = 0.4*x[i] + 4*r.Float64()
		}
		got, err := RankWithin(x, y, make([]int, 24), src())
		if err != nil {
			t.Fatal(err)
		}
		want, _ := Spearman(x, y, src())
		if math.Abs(got.Rho-want.Rho) > 1e-12 {
			t.Errorf("rho %.6f, Spearman's %.6f", got.Rho, want.Rho)
		}
		// The p of a drawing that stopped is right to about a sixth of itself.
		if math.Abs(math.Log(got.P/want.P)) > 5/math.Sqrt(farEnough) && want.P > 0.001 {
			t.Errorf("p %.4f, Spearman's %.4f", got.P, want.P)
		}
	}
}

// Simpson's paradox, by hand: within each of two strata y falls with x, and the
// second stratum is higher in both.
func TestRankWithinIsNotFooledByLevels(t *testing.T) {
	x := []float64{1, 2, 3, 4, 11, 12, 13, 14, 99}
	y := []float64{4, 3, 2, 1, 14, 13, 12, 11, 50}
	strata := []int{0, 0, 0, 0, 1, 1, 1, 1, 2} // the last stands alone
	all, _ := Spearman(x, y, src())
	within, err := RankWithin(x, y, strata, src())
	if err != nil || all.Rho < 0.4 || within.Rho != -1 || within.N != 8 {
		t.Errorf("all %.2f, within %+v, %v", all.Rho, within, err)
	}
	// Both strata turned round at once: 2 of 24·24 orders, either way.
	if want := 2.0 / (24 * 24); math.Abs(within.P-want) > 5*math.Sqrt(want/drawsAtEnd) {
		t.Errorf("p %.5f, by counting %.5f", within.P, want)
	}
	line, err := TheilSenWithin(x, y, strata, 0.95)
	if err != nil || line.Slope != -1 || line.Limits.Upper >= 0 {
		t.Errorf("%+v, %v", line, err)
	}
	free, _ := TheilSen(x, y, 0.95)
	if free.Slope <= 0 {
		t.Errorf("without strata the slope is %.2f", free.Slope)
	}
}

// With nothing between them p is even: of many records no more than a twentieth
// are at most a twentieth, drawn or by the approximation.
func TestRankWithinHoldsItsLevel(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, n := range []int{15, 500} {
		const records = 400
		told := 0
		for range records {
			x, y, strata := make([]float64, n), make([]float64, n), make([]int, n)
			for i := range x {
				strata[i] = r.IntN(4)
				x[i] = float64(strata[i]) + r.NormFloat64()
				y[i] = 2*float64(strata[i]) + math.Round(2*r.NormFloat64())
			}
			if w, err := RankWithin(x, y, strata, src()); err == nil && w.P <= 0.05 {
				told++
			}
		}
		if mean := 0.05 * records; float64(told) > mean+5*math.Sqrt(mean) {
			t.Errorf("%d things: %d of %d told", n, told, records)
		}
	}
}

func TestWithinRefusesNonsense(t *testing.T) {
	if _, err := RankWithin([]float64{1}, []float64{1, 2}, []int{0}, src()); err != ErrLengths {
		t.Error(err)
	}
	if _, err := RankWithin([]float64{1, math.NaN()}, []float64{1, 2}, []int{0, 0}, src()); err != ErrNotFinite {
		t.Error(err)
	}
	if _, err := RankWithin([]float64{1, 2}, []float64{1, 2}, []int{0, 1}, src()); err != ErrTooFew {
		t.Error(err)
	}
	if w, err := RankWithin([]float64{1, 1}, []float64{1, 2}, []int{0, 0}, src()); err != nil || w.P != 1 || w.Rho != 0 {
		t.Errorf("%+v, %v", w, err)
	}
	if _, err := TheilSenWithin([]float64{1, 1}, []float64{1, 2}, []int{0, 0}, 0.95); err != ErrTooFew {
		t.Error(err)
	}
}
