package stats

import (
	"math"
	"testing"
)

// The example of sensR's documentation of betabin (version 1.2, uncorrected,
// duo-trio), with the figures that R printed for it: mu 0.4938123, gamma
// 0.3144258, log-likelihood -41.70868, likelihood ratio of over-dispersion
// 36.4922.
func TestBetaBinomialAgreesWithSensR(t *testing.T) {
	right := []int{3, 2, 6, 8, 3, 4, 6, 0, 9, 9, 0, 2, 1, 2, 8, 9, 5, 7}
	of := []int{10, 9, 8, 9, 8, 6, 9, 10, 10, 10, 9, 9, 10, 10, 10, 10, 9, 10}
	got, err := BetaBinomial(right, of, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	for what, pair := range map[string][2]float64{
		"mean":           {got.Mean, 0.4938123},
		"dispersion":     {got.Dispersion, 0.3144258},
		"log likelihood": {got.LogLikelihood, -41.70868},
	} {
		if math.Abs(pair[0]-pair[1]) > 2e-5 {
			t.Errorf("%s %.7f, sensR %.7f", what, pair[0], pair[1])
		}
	}
	if got.Lower >= got.Mean || got.Upper <= got.Mean || got.Lower < 0.3 || got.Upper > 0.7 {
		t.Errorf("limits %.3f to %.3f", got.Lower, got.Upper)
	}
}

func TestBetaBinomialAtItsEnds(t *testing.T) {
	if _, err := BetaBinomial([]int{3}, []int{6}, 0.95); err != ErrTooFew {
		t.Errorf("one person: %v", err)
	}
	// People who are all alike: no dispersion, and the mean of the binomial.
	got, err := BetaBinomial([]int{3, 3, 3, 3}, []int{6, 6, 6, 6}, 0.95)
	if err != nil || math.Abs(got.Mean-0.5) > 1e-5 || got.Dispersion > 1e-5 {
		t.Errorf("%+v, %v", got, err)
	}
	// Half are always right and half always wrong.
	got, err = BetaBinomial([]int{6, 6, 0, 0}, []int{6, 6, 6, 6}, 0.95)
	if err != nil || math.Abs(got.Mean-0.5) > 1e-4 || got.Dispersion < 0.95 {
		t.Errorf("%+v, %v", got, err)
	}
	all, err := BetaBinomial([]int{6, 6}, []int{6, 6}, 0.95)
	if err != nil || all.Mean < 0.999 || all.Lower > 0.95 {
		t.Errorf("%+v, %v", all, err)
	}
}

// Benjamini & Hochberg 1995, section 3.2: fifteen p-values of which the
// procedure refuses four at a rate of 0.05.
func TestFalseDiscoveryAsPublished(t *testing.T) {
	p := []float64{0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000}
	told := 0
	for i, q := range FalseDiscovery(p) {
		if q <= 0.05 {
			told++
		}
		if q < p[i] {
			t.Errorf("%v adjusted to %v", p[i], q)
		}
	}
	if told != 4 {
		t.Errorf("%d are told, the paper refuses four", told)
	}
	// By hand: 0.03·3/1, 0.04·3/2 = 0.06, 0.05·3/3 = 0.05, and each no more than
	// the next.
	got := FalseDiscovery([]float64{0.05, 0.03, 0.04})
	for i, want := range []float64{0.05, 0.05, 0.05} {
		if math.Abs(got[i]-want) > 1e-15 {
			t.Errorf("%v", got)
		}
	}
	if len(FalseDiscovery(nil)) != 0 {
		t.Error("nothing was adjusted to something")
	}
}

// A one-sided limit lies above a proportion exactly where the one-sided test
// refuses it.
func TestOneSidedLimitsBelongToTheTest(t *testing.T) {
	for n := 1; n <= 40; n++ {
		for k := 0; k <= n; k++ {
			for _, chance := range []float64{0.1, 1.0 / 3, 0.5} {
				refused := BinomialUpper(k, n, chance) <= 0.05
				if above := ClopperPearsonLower(k, n, 0.95) >= chance; above != refused {
					t.Errorf("%d of %d at chance %.2f: limit %.4f, refused %v", k, n, chance, ClopperPearsonLower(k, n, 0.95), refused)
				}
			}
			if up, low := ClopperPearsonUpper(k, n, 0.95), ClopperPearsonLower(k, n, 0.95); low > float64(k)/float64(n) || up < float64(k)/float64(n) {
				t.Errorf("%d of %d: %.3f to %.3f", k, n, low, up)
			}
		}
	}
	if ClopperPearsonLower(0, 5, 0.95) != 0 || ClopperPearsonUpper(5, 5, 0.95) != 1 {
		t.Error("the ends are not the ends")
	}
}
