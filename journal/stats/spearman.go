package stats

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat"
)

// exactSpearman is the most pairs whose permutations are all looked at:
// 9! = 362 880.
const exactSpearman = 9

// spearmanDraws is how many random permutations are looked at otherwise.
const spearmanDraws = 19_999

// SpearmanResult says how far two figures rise together.
type SpearmanResult struct {
	// Rho is the correlation of the ranks, -1 to 1; 0 when one of the two
	// never varies.
	Rho float64
	P   float64
	// Exact says that all permutations were looked at. Otherwise P comes from
	// 19 999 random ones and is right to about a tenth of itself near 0.01.
	Exact bool
}

// Spearman is the rank correlation of pairs (x[i], y[i]) with a permutation
// p-value, right also with ties (Spearman 1904, Am J Psychol 15:72). All
// permutations are looked at up to nine pairs; above that random ones are
// drawn from src. A source with a fixed seed gives the same p for the same
// data each time.
func Spearman(x, y []float64, src rand.Source) (SpearmanResult, error) {
	n := len(x)
	switch {
	case n != len(y):
		return SpearmanResult{P: 1}, ErrLengths
	case n < 3:
		return SpearmanResult{P: 1}, ErrTooFew
	case !allFinite(x, y):
		return SpearmanResult{P: 1}, ErrNotFinite
	}
	rx, ry := Ranks(x), Ranks(y)
	result := SpearmanResult{P: 1, Exact: n <= exactSpearman}
	rho := stat.Correlation(rx, ry, nil)
	if math.IsNaN(rho) {
		return result, nil
	}
	result.Rho = max(-1, min(1, rho))
	// Only the sum of products changes when ry is permuted, so comparing how
	// far it lies from its mean is comparing |rho|. It is a multiple of 1/4:
	// the slack only swallows rounding.
	centre := float64(n) * stat.Mean(rx, nil) * stat.Mean(ry, nil)
	away := func() float64 {
		sum := 0.0
		for i := range rx {
			sum += rx[i] * ry[i]
		}
		return math.Abs(sum-centre) + 1e-6
	}
	seen := away() - 2e-6
	if result.Exact {
		as, all := 0, 0
		permutations(ry, n, func() {
			all++
			if away() >= seen {
				as++
			}
		})
		result.P = float64(as) / float64(all)
		return result, nil
	}
	r := rand.New(src)
	as := 1
	for range spearmanDraws {
		r.Shuffle(n, func(i, j int) { ry[i], ry[j] = ry[j], ry[i] })
		if away() >= seen {
			as++
		}
	}
	result.P = float64(as) / (spearmanDraws + 1)
	return result, nil
}

// permutations visits every arrangement of the first k values (Heap 1963).
func permutations(x []float64, k int, visit func()) {
	if k <= 1 {
		visit()
		return
	}
	for i := range k {
		permutations(x, k-1, visit)
		if i == k-1 {
			return
		}
		if k%2 == 0 {
			x[i], x[k-1] = x[k-1], x[i]
		} else {
			x[0], x[k-1] = x[k-1], x[0]
		}
	}
}
