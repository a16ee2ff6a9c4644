package stats_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/stats"
)

// Published worked values, each with where it was printed.
func TestPublishedTails(t *testing.T) {
	for _, c := range []struct {
		source string
		got    float64
		want   float64
		digits float64
	}{
		{"paired comparison 11 of 14, one-sided, printed as 2.87 %", stats.BinomialUpper(11, 14, 0.5), 0.0287, 5e-5},
		{"triangle 8 of 10, printed as 0.34 %", stats.BinomialUpper(8, 10, 1.0/3), 0.0034, 5e-5},
	} {
		if math.Abs(c.got-c.want) > c.digits {
			t.Errorf("%s: got %.6f", c.source, c.got)
		}
	}
}

func TestRanksShareTies(t *testing.T) {
	got := stats.Ranks([]float64{10, 30, 20, 20, 5})
	if want := []float64{2, 5, 3.5, 3.5, 1}; !slices.Equal(got, want) {
		t.Errorf("ranks %v, want %v", got, want)
	}
}

func TestTooLittleOrNonsenseIsRefused(t *testing.T) {
	nan := math.NaN()
	src := rand.NewPCG(1, 1)
	for name, c := range map[string]struct {
		err  error
		want error
	}{
		"no differences":   {second(stats.SignedRank(nil)), stats.ErrTooFew},
		"NaN difference":   {second(stats.SignedRank([]float64{1, nan})), stats.ErrNotFinite},
		"empty group":      {second(stats.MannWhitney(nil, []float64{1}, 0.95)), stats.ErrTooFew},
		"infinite value":   {second(stats.MannWhitney([]float64{math.Inf(1)}, []float64{1}, 0.95)), stats.ErrNotFinite},
		"unequal lists":    {second(stats.Spearman([]float64{1, 2, 3}, []float64{1}, src)), stats.ErrLengths},
		"two pairs":        {second(stats.Spearman([]float64{1, 2}, []float64{1, 2}, src)), stats.ErrTooFew},
		"NaN in pairs":     {second(stats.Spearman([]float64{1, 2, nan}, []float64{1, 2, 3}, src)), stats.ErrNotFinite},
		"two points":       {second(stats.TheilSen([]float64{1, 2}, []float64{1, 2}, 0.95)), stats.ErrTooFew},
		"unequal points":   {second(stats.TheilSen([]float64{1, 2, 3}, []float64{1, 2}, 0.95)), stats.ErrLengths},
		"a vertical line":  {second(stats.TheilSen([]float64{1, 1, 1}, []float64{1, 2, 3}, 0.95)), stats.ErrTooFew},
		"NaN in points":    {second(stats.TheilSen([]float64{1, 2, 3}, []float64{1, 2, nan}, 0.95)), stats.ErrNotFinite},
		"median of naught": {second(stats.Median(nil)), stats.ErrTooFew},
		"median with NaN":  {second(stats.Median([]float64{nan})), stats.ErrNotFinite},
	} {
		if !errors.Is(c.err, c.want) {
			t.Errorf("%s: %v, want %v", name, c.err, c.want)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestZerosAreLeftOutAndSaid(t *testing.T) {
	r := must(stats.SignedRank([]float64{0, 0, 0}))
	if r.P != 1 || r.Pairs != 0 || r.Zeros != 3 {
		t.Errorf("all zero: %+v", r)
	}
}

func TestTooFewPointsGiveNoLimits(t *testing.T) {
	if r := must(stats.TheilSen([]float64{1, 2, 3, 4}, []float64{1, 2, 3, 5}, 0.95)); r.Limits.Level != 0 {
		t.Errorf("four points cannot hold a slope at 95 %%: %+v", r)
	}
}

func TestSpearmanOfAConstantIsNothing(t *testing.T) {
	r := must(stats.Spearman([]float64{1, 2, 3, 4}, []float64{7, 7, 7, 7}, rand.NewPCG(1, 1)))
	if r.Rho != 0 || r.P != 1 {
		t.Errorf("%+v", r)
	}
}

// Above nine pairs permutations are drawn. R 4.2.2's cor.test(1:12, y, method =
// "spearman") gives rho and p for the rows (by an Edgeworth series, good to
// about a thousandth here); the same seed gives the same answer each time.
func TestSpearmanByDrawnPermutations(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}
	for _, c := range []struct {
		y      []float64
		rho, p float64
	}{
		{[]float64{2, 1, 5, 3, 4, 8, 6, 7, 12, 9, 10, 11}, 0.9090909, 0},
		{[]float64{5, 1, 9, 2, 12, 3, 4, 11, 6, 8, 7, 10}, 0.4195804, 0.1765770},
	} {
		a := must(stats.Spearman(x, c.y, rand.NewPCG(5, 6)))
		b := must(stats.Spearman(x, c.y, rand.NewPCG(5, 6)))
		if a != b {
			t.Errorf("the same data and seed gave %+v and %+v", a, b)
		}
		if math.Abs(a.Rho-c.rho) > 1e-6 || math.Abs(a.P-c.p) > 0.01 || a.Exact {
			t.Errorf("%+v, R says rho %g, p %g", a, c.rho, c.p)
		}
	}
}

func TestTailsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 200).Draw(t, "n")
		k := rapid.IntRange(0, n).Draw(t, "k")
		p := rapid.Float64Range(0.01, 0.99).Draw(t, "p")
		sum := stats.BinomialUpper(k, n, p) + stats.BinomialLower(k-1, n, p)
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("tails of %d of %d at %g add up to %g", k, n, p, sum)
		}
	})
}

func TestLimitsHoldTheProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 300).Draw(t, "n")
		k := rapid.IntRange(0, n).Draw(t, "k")
		share := float64(k) / float64(n)
		if l := stats.ClopperPearson(k, n, 0.95); l.Lower < 0 || l.Upper > 1 || l.Lower > share+1e-12 || l.Upper < share-1e-12 {
			t.Fatalf("%d of %d: %+v", k, n, l)
		}
	})
}

func TestRankTestsMirror(t *testing.T) {
	values := rapid.SliceOfN(rapid.IntRange(-8, 8), 1, 14)
	rapid.Check(t, func(t *rapid.T) {
		d := floats(values.Draw(t, "differences"))
		a := must(stats.SignedRank(d))
		b := must(stats.SignedRank(negated(d)))
		if math.Abs(a.P-b.P) > 1e-12 || a.Plus != b.Minus || a.P <= 0 || a.P > 1 {
			t.Fatalf("mirrored: %+v and %+v", a, b)
		}
		e := floats(values.Draw(t, "others"))
		c := must(stats.MannWhitney(d, e, 0.95))
		f := must(stats.MannWhitney(e, d, 0.95))
		if math.Abs(c.P-f.P) > 1e-9 || math.Abs(c.Superiority+f.Superiority-1) > 1e-9 {
			t.Fatalf("swapped: %+v and %+v", c, f)
		}
	})
}

func TestSlopeFollowsItsUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(5, 15).Draw(t, "n")
		x, y := make([]float64, n), make([]float64, n)
		for i := range n {
			x[i] = float64(i)
			y[i] = float64(rapid.IntRange(-50, 50).Draw(t, "y"))
		}
		a := must(stats.TheilSen(x, y, 0.95))
		steeper := make([]float64, n)
		for i := range y {
			steeper[i] = y[i] + 3*x[i]
		}
		b := must(stats.TheilSen(x, steeper, 0.95))
		if math.Abs(b.Slope-a.Slope-3) > 1e-9 {
			t.Fatalf("slope %g, three steeper %g", a.Slope, b.Slope)
		}
		if a.Limits.Level > 0 && (a.Slope < a.Limits.Lower || a.Slope > a.Limits.Upper) {
			t.Fatalf("limits do not hold the slope: %+v", a)
		}
	})
}

// The limits of the exact slope hold the truth as often as they claim:
// 2 000 lines of eight points with slope 2 and noise drawn evenly.
func TestSlopeLimitsHoldTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	held, level := 0, 0.0
	for range 2000 {
		x, y := make([]float64, 8), make([]float64, 8)
		for i := range x {
			x[i] = float64(i)
			y[i] = 2*x[i] + 5*r.Float64()
		}
		l := must(stats.TheilSen(x, y, 0.95)).Limits
		level = l.Level
		if l.Lower <= 2 && 2 <= l.Upper {
			held++
		}
	}
	if share := float64(held) / 2000; level < 0.95 || math.Abs(share-level) > 0.02 {
		t.Errorf("held in %.3f, claimed %.3f", share, level)
	}
}

func floats(x []int) []float64 {
	y := make([]float64, len(x))
	for i, v := range x {
		y[i] = float64(v)
	}
	return y
}

func negated(x []float64) []float64 {
	y := make([]float64, len(x))
	for i, v := range x {
		y[i] = -v
	}
	return y
}

// A tenth times a tenth is 0.01, though not in floating-point numbers.
func TestSignificantAtTheRiskItself(t *testing.T) {
	if k, ok := stats.FewestSignificant(2, 0.1, 0.01); k != 2 || !ok {
		t.Errorf("two of two at a chance of a tenth, risk 0.01: %d, %v", k, ok)
	}
	if stats.Significant(0.0100001, 0.01) {
		t.Error("0.0100001 passes for 0.01")
	}
}
