package sensory

import (
	"math"
	"math/rand/v2"

	"twinloaf/journal/blind"
	"twinloaf/journal/stats"
)

// Test is an exact binomial test of a count of answers.
type Test struct {
	// Chance is the probability of a right answer by guessing.
	Chance float64
	// Alpha is the risk of a false alarm.
	Alpha float64
	// TwoSided counts both ends; Chance is then 1/2.
	TwoSided bool
}

// TestOf is the test that a plan's answers are put to. Scaling has none.
func TestOf(p blind.Plan) Test {
	return Test{Chance: p.Method.Chance(), Alpha: p.Risk(), TwoSided: !p.OneSided()}
}

// P is the exact p-value of k of n.
func (t Test) P(k, n int) float64 {
	if t.TwoSided {
		return stats.SignTest(k, n)
	}
	return stats.BinomialUpper(k, n, t.Chance)
}

// Critical is the fewest of n that is significant (for a two-sided test: that
// many for either side). It reports false when even all of n would not be.
func (t Test) Critical(n int) (int, bool) {
	alpha := t.Alpha
	if t.TwoSided {
		alpha /= 2
	}
	return stats.FewestSignificant(n, t.Chance, alpha)
}

// Power is the chance that n answers will be significant when the share
// telling can tell, or always agrees, and the rest guess: exact.
func (t Test) Power(n int, telling float64) float64 {
	k, possible := t.Critical(n)
	if !possible {
		return 0
	}
	right := answersFor(telling, t.Chance)
	power := stats.BinomialUpper(k, n, right)
	if t.TwoSided {
		power += stats.BinomialLower(n-k, n, right)
	}
	return min(1, power)
}

// MostAnswers is how far Needed looks.
const MostAnswers = 2000

// Needed is the least number of answers from which the power never again falls
// below the one wanted. Power goes up in a saw-tooth, so a smaller number can
// happen to reach it too. It reports false when more than MostAnswers would be
// needed.
func (t Test) Needed(telling, power float64) (int, bool) {
	from := 1
	for n := 1; n <= MostAnswers; n++ {
		if t.Power(n, telling) < power {
			from = n + 1
		} else if n-from > 40+from/2 {
			return from, true
		}
	}
	return 0, false
}

// ScalingPower is the chance that a signed rank test of n pairs at risk alpha
// shows a true difference of shift points, when the differences of a pair scatter
// normally by spread points (the root of two times what single scores scatter by)
// and scores are whole numbers within the scale about its
// middle. It is simulated from src, 2 000 times: right to about 0.02.
func ScalingPower(n int, shift, spread, alpha float64, src rand.Source) float64 {
	const trials = 2000
	if n < 1 || 2*math.Pow(0.5, float64(n)) > alpha {
		return 0 // even all pairs the same way would not be enough
	}
	r := rand.New(src)
	const span = blind.HighestScore - blind.LowestScore
	shown := 0
	differences := make([]float64, n)
	for range trials {
		for i := range differences {
			d := math.Round(shift + spread*r.NormFloat64())
			differences[i] = max(-span, min(span, d))
		}
		if r, err := stats.SignedRank(differences); err == nil && r.P <= alpha {
			shown++
		}
	}
	return float64(shown) / trials
}
