package sensory_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
)

func table(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../../testdata/blind/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.FieldsPerRecord = -1
	lines, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return lines[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// critical writes the critical value as the tables do, empty where even all
// right answers are not enough.
func critical(test sensory.Test, n int) string {
	k, possible := test.Critical(n)
	if !possible {
		return ""
	}
	return strconv.Itoa(k)
}

// The tables are exact values; their sources stand in testdata/blind/README.md.
func TestCriticalValuesAsTabled(t *testing.T) {
	levels := []float64{0.20, 0.10, 0.05, 0.01, 0.001}
	for _, c := range []struct {
		file string
		plan blind.Plan
	}{
		{"triangle_critical.csv", blind.Plan{Method: blind.Triangle}},
		{"tetrad_critical.csv", blind.Plan{Method: blind.Tetrad}},
		{"duotrio_paired_one_sided_critical.csv", blind.Plan{Method: blind.DuoTrio}},
		{"duotrio_paired_one_sided_critical.csv", blind.Plan{Method: blind.Paired, Attribute: "sour", Expected: 1}},
		{"paired_two_sided_critical.csv", blind.Plan{Method: blind.Paired}},
	} {
		for _, line := range table(t, c.file) {
			n := int(number(t, line[0]))
			for i, alpha := range levels {
				c.plan.Alpha = alpha
				if got := critical(sensory.TestOf(c.plan), n); got != line[i+1] {
					t.Errorf("%s of %d at %g: %q, the table says %q", c.plan.Method, n, alpha, got, line[i+1])
				}
			}
		}
	}
}

// The rows as they were printed: FAO docrep v7180e Appendix A (triangle), GOST
// ISO 10399-2015 Table A.1 (duo-trio), GOST R 53161-2008 = ISO 5495 Table A.1
// (paired). One printed row is a misprint and is not followed.
func TestPrintedRows(t *testing.T) {
	misprints := 0
	for _, line := range table(t, "published_rows.csv") {
		test, levels := sensory.Test{Chance: 1.0 / 2}, []float64{0.20, 0.10, 0.05, 0.01, 0.001}
		if strings.HasPrefix(line[0], "triangle") {
			test, levels = sensory.Test{Chance: 1.0 / 3}, levels[1:]
		}
		n := int(number(t, line[1]))
		agree := true
		for i, alpha := range levels {
			test.Alpha = alpha
			got := critical(test, n)
			if got == "" {
				got = "-"
			}
			agree = agree && got == line[2+i]
		}
		status := line[2+len(levels)]
		if strings.HasPrefix(status, "MISMATCH") {
			misprints++
			var ours []string
			for _, alpha := range levels {
				test.Alpha = alpha
				ours = append(ours, critical(test, n))
			}
			if want := strings.TrimPrefix(status, "MISMATCH computed "); strings.Join(ours, " ") != want {
				t.Errorf("%s, n %d: %v, the exact row is %s", line[0], n, ours, want)
			}
			continue
		}
		if !agree {
			t.Errorf("%s, n %d: not as printed", line[0], n)
		}
	}
	if misprints != 1 {
		t.Errorf("%d misprints are named, not 1 (duo-trio, n 22)", misprints)
	}
}

func TestPublishedPValues(t *testing.T) {
	for _, c := range []struct {
		source     string
		got, want  float64
		halfADigit float64
	}{
		{"paired 11 of 14, one-sided, printed 2.87 %", sensory.Test{Chance: 0.5}.P(11, 14), 0.0287, 5e-5},
		{"triangle 8 of 10, printed 0.34 %", sensory.Test{Chance: 1.0 / 3}.P(8, 10), 0.0034, 5e-5},
	} {
		if math.Abs(c.got-c.want) > c.halfADigit {
			t.Errorf("%s: %.5f", c.source, c.got)
		}
	}
}

// Two-out-of-five guesses right one time in ten (ISO 6658). The tails are counted
// by hand: P(X >= 2) is 28/1000 of three and 523/10000 of four.
func TestTwoOutOfFiveByHand(t *testing.T) {
	test := sensory.TestOf(blind.Plan{Method: blind.TwoOutOfFive})
	for n, want := range map[int]float64{3: 0.028, 4: 0.0523} {
		if got := test.P(2, n); math.Abs(got-want) > 1e-12 {
			t.Errorf("2 of %d: %g", n, got)
		}
	}
	for n, want := range map[int]int{2: 2, 3: 2, 4: 3} {
		if got, _ := test.Critical(n); got != want {
			t.Errorf("%d of %d would show something", got, n)
		}
	}
	if test := sensory.TestOf(blind.Plan{Method: blind.ThreeAFC, Attribute: "sour", Expected: 1}); test.Chance != 1.0/3 || test.TwoSided {
		t.Errorf("3-AFC is tested by %+v", test)
	}
}

// What belongs to the one-sided test is above nothing where the test shows
// something, and only there; tasters who differ widen it.
func TestLimitsThatBelongToTheTest(t *testing.T) {
	for _, m := range blind.Methods() {
		if !m.Discriminates() {
			continue
		}
		test := sensory.TestOf(blind.Plan{Method: m})
		for n := 1; n <= 30; n++ {
			for k := range n + 1 {
				s := sensory.ShareOf(k, n, m.Chance(), 0.95)
				if shown := test.P(k, n) <= 0.05; shown != (s.Least > 0) {
					t.Errorf("%s %d of %d: shown %v, at least %.3f", m, k, n, shown, s.Least)
				}
			}
		}
	}
	alike := sensory.ShareOf(20, 24, 0.5, 0.95)
	apart, ok := alike.Among([]int{6, 6, 6, 2}, []int{6, 6, 6, 6}, 0.5)
	if !ok || apart.Least >= alike.Least || apart.Most < alike.Most || apart.Telling != alike.Telling {
		t.Errorf("alike %+v, apart %+v", alike, apart)
	}
	if _, ok := alike.Among([]int{20}, []int{24}, 0.5); ok {
		t.Error("one taster differs from nobody")
	}
}

// ISO 5495:2005 Amd 1:2016, worked example: one-sided, n 30, x 21: pd 0.4.
func TestISO5495WorkedExample(t *testing.T) {
	if got := sensory.ShareOf(21, 30, 0.5, 0.95).Telling; math.Abs(got-0.4) > 5e-4 {
		t.Errorf("%.4f, printed 0.4", got)
	}
}

func TestDiscriminatorsAsTabled(t *testing.T) {
	chances := map[string]float64{"triangle": 1.0 / 3, "duotrio": 1.0 / 2, "tetrad": 1.0 / 3, "twofive": 1.0 / 10}
	for _, line := range table(t, "discriminators_ci.csv") {
		s := sensory.ShareOf(int(number(t, line[1])), int(number(t, line[2])), chances[line[0]], 0.95)
		for i, got := range map[int]float64{
			4: s.Telling, 7: s.Exact.Lower, 8: s.Exact.Upper,
		} {
			if math.Abs(got-number(t, line[i])) > 1e-6 {
				t.Errorf("%s %s of %s, column %d: %.6f, tabled %s", line[0], line[1], line[2], i+1, got, line[i])
			}
		}
	}
}

func TestDPrimeAsTabled(t *testing.T) {
	columns := map[int]blind.Method{1: blind.Paired, 2: blind.ThreeAFC, 3: blind.Triangle, 4: blind.DuoTrio, 5: blind.Tetrad}
	for _, line := range table(t, "dprime_from_proportion_correct.csv") {
		for column, m := range columns {
			got, want := sensory.DPrimeFor(m, number(t, line[0])), number(t, line[column])
			if math.Abs(got-want) > 2e-6 {
				t.Errorf("%s at %s: d′ %.6f, tabled %.6f", m, line[0], got, want)
			}
		}
	}
}

func TestDPrimeAtItsEnds(t *testing.T) {
	for _, m := range []blind.Method{blind.Triangle, blind.DuoTrio, blind.Paired, blind.Tetrad, blind.ThreeAFC} {
		if d := sensory.DPrimeOf(m, 3, 12); d.Value != 0 || d.Known || d.SE != 0 {
			t.Errorf("%s below chance: %+v", m, d)
		}
		if d := sensory.DPrimeOf(m, 12, 12); !d.Unbounded || !math.IsInf(d.Value, 1) || d.Known {
			t.Errorf("%s all right: %+v", m, d)
		}
		if got := sensory.ProportionRight(m, 0); math.Abs(got-m.Chance()) > 1e-9 {
			t.Errorf("%s at d′ 0 is right in %.12f", m, got)
		}
	}
	for _, m := range []blind.Method{blind.Scaling, blind.TwoOutOfFive} {
		if sensory.HasDPrime(m) {
			t.Errorf("%s has a d′", m)
		}
	}
	// Paired: d′ = √2 Φ⁻¹(pc), so SE = √2 sqrt(pc(1-pc)/n)/φ(Φ⁻¹(pc)): for 15
	// of 20, computed in R 4.2.2 as sqrt(2)*sqrt(.75*.25/20)/dnorm(qnorm(.75)).
	if d := sensory.DPrimeOf(blind.Paired, 15, 20); math.Abs(d.SE-0.4309022) > 1e-6 {
		t.Errorf("SE %.7f", d.SE)
	}
}

// d′ and its standard error, computed in scipy 1.10.1 from the same integrals
// (quad), solved by brentq, with a central difference for the slope.
func TestDPrimeStandardErrorAgainstScipy(t *testing.T) {
	for _, c := range []struct {
		m         blind.Method
		k, n      int
		value, se float64
	}{
		{blind.Triangle, 8, 10, 3.128585, 0.902197},
		{blind.Triangle, 20, 36, 1.751021, 0.418520},
		{blind.Tetrad, 8, 10, 2.094590, 0.552582},
		{blind.Tetrad, 20, 36, 1.213728, 0.279323},
		{blind.DuoTrio, 8, 10, 2.354860, 0.906354},
		{blind.DuoTrio, 20, 36, 0.805587, 0.645329},
	} {
		d := sensory.DPrimeOf(c.m, c.k, c.n)
		if !d.Known || math.Abs(d.Value-c.value) > 1e-5 || math.Abs(d.SE-c.se) > 1e-5 {
			t.Errorf("%s %d of %d: %+v, scipy has %g, %g", c.m, c.k, c.n, d, c.value, c.se)
		}
	}
}

// The curves are what the decision rules give: a taster whose impressions are
// normal deviates is simulated.
func TestProportionRightAgainstSimulatedTasters(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	const trials = 40_000
	for _, d := range []float64{0.5, 1.5, 3} {
		for _, m := range []blind.Method{blind.Triangle, blind.DuoTrio, blind.Paired, blind.Tetrad, blind.ThreeAFC} {
			right := 0
			for range trials {
				if simulated(m, d, r) {
					right++
				}
			}
			share, want := float64(right)/trials, sensory.ProportionRight(m, d)
			if math.Abs(share-want) > 5*math.Sqrt(want*(1-want)/trials) {
				t.Errorf("%s at d′ %g: simulated %.4f, computed %.4f", m, d, share, want)
			}
		}
	}
}

func simulated(m blind.Method, d float64, r *rand.Rand) bool {
	a := func() float64 { return r.NormFloat64() }
	b := func() float64 { return d + r.NormFloat64() }
	switch m {
	case blind.Paired:
		return b() > a()
	case blind.ThreeAFC:
		return b() > max(a(), a())
	case blind.DuoTrio:
		reference := a()
		return math.Abs(a()-reference) < math.Abs(b()-reference)
	case blind.Triangle:
		x, y, odd := a(), a(), b()
		same := math.Abs(x - y)
		return same < math.Abs(x-odd) && same < math.Abs(y-odd)
	}
	p, q, s, u := a(), a(), b(), b()
	return max(p, q) < min(s, u) || min(p, q) > max(s, u)
}

// Power is checked against simulated tastings: each answer is known with
// probability pd, else guessed.
func TestPowerAgainstSimulation(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	const trials = 20_000
	for _, c := range []struct {
		test    sensory.Test
		n       int
		telling float64
	}{
		{sensory.Test{Chance: 1.0 / 3, Alpha: 0.05}, 6, 0.5},
		{sensory.Test{Chance: 1.0 / 3, Alpha: 0.05}, 24, 0.3},
		{sensory.Test{Chance: 1.0 / 3, Alpha: 0.05}, 12, 0},
		{sensory.Test{Chance: 0.5, Alpha: 0.05}, 10, 0.5},
		{sensory.Test{Chance: 0.5, Alpha: 0.05, TwoSided: true}, 12, 0.5},
		{sensory.Test{Chance: 0.5, Alpha: 0.2, TwoSided: true}, 9, 0},
	} {
		shown := 0
		for range trials {
			k := 0
			for range c.n {
				if r.Float64() < c.telling || r.Float64() < c.test.Chance {
					k++
				}
			}
			if c.test.P(k, c.n) <= c.test.Alpha {
				shown++
			}
		}
		share, want := float64(shown)/trials, c.test.Power(c.n, c.telling)
		if math.Abs(share-want) > 5*math.Sqrt(want*(1-want)/trials) {
			t.Errorf("%+v n %d pd %g: simulated %.4f, computed %.4f", c.test, c.n, c.telling, share, want)
		}
	}
}

// Exact powers, computed in R 4.2.2 by
//
//	k <- qbinom(.95, n, p0) + 1; 1 - pbinom(k - 1, n, pd + p0*(1 - pd))
//
// and the six-round figure by hand: 6·(2/3)⁵·(1/3) + (2/3)⁶ = 256/729.
func TestPowerExactly(t *testing.T) {
	for _, c := range []struct {
		chance  float64
		n       int
		telling float64
		want    float64
	}{
		{1.0 / 3, 6, 0.5, 256.0 / 729},
		{1.0 / 3, 12, 0.5, 0.6315207144},
		{1.0 / 3, 20, 0.5, 0.9081042255},
		{1.0 / 3, 30, 0.3, 0.7090831412},
		{0.5, 20, 0.5, 0.6171726544},
		{0.5, 30, 0.3, 0.5077582145},
		{1.0 / 3, 100, 0.2, 0.8498652539},
	} {
		got := sensory.Test{Chance: c.chance, Alpha: 0.05}.Power(c.n, c.telling)
		if math.Abs(got-c.want) > 1e-6 {
			t.Errorf("n %d, pd %g: %.7f, want %.7f", c.n, c.telling, got, c.want)
		}
	}
}

func TestNeededIsEnoughFromThereOn(t *testing.T) {
	for _, test := range []sensory.Test{
		{Chance: 1.0 / 3, Alpha: 0.05}, {Chance: 0.5, Alpha: 0.05}, {Chance: 0.5, Alpha: 0.05, TwoSided: true}, {Chance: 1.0 / 3, Alpha: 0.001},
	} {
		t.Run(fmt.Sprintf("%+v", test), func(t *testing.T) {
			for _, telling := range []float64{0.2, 0.5, 0.8, 1} {
				n, found := test.Needed(telling, 0.8)
				if !found {
					t.Fatalf("pd %g: nothing up to %d", telling, sensory.MostAnswers)
				}
				if n > 1 && test.Power(n-1, telling) >= 0.8 {
					t.Errorf("pd %g: %d is more than needed", telling, n)
				}
				for more := n; more < n+300; more++ {
					if p := test.Power(more, telling); p < 0.8 {
						t.Errorf("pd %g: %d should do, %d has power %.3f", telling, n, more, p)
					}
				}
			}
		})
	}
	// ISO 4120:2004, Table A.3: pd 50 %, alpha 0.05, beta 0.20 takes 16
	// assessors (from memory).
	if n, _ := (sensory.Test{Chance: 1.0 / 3, Alpha: 0.05}).Needed(0.5, 0.8); n != 16 {
		t.Errorf("triangle, pd 50 %%: %d", n)
	}
	if _, found := (sensory.Test{Chance: 0.5, Alpha: 0.05}).Needed(0.01, 0.8); found {
		t.Error("one in a hundred telling is out of reach")
	}
}

func TestScalingPower(t *testing.T) {
	power := func(n int, shift float64) float64 {
		return sensory.ScalingPower(n, shift, 2, 0.05, rand.NewPCG(1, 2))
	}
	if p := power(5, 8); p != 0 {
		t.Errorf("five pairs cannot show anything two-sided at 5 %%, yet %.3f", p)
	}
	if p := power(20, 0); p > 0.07 {
		t.Errorf("without a difference it is shown in %.3f", p)
	}
	if a, b := power(8, 2), power(20, 2); a >= b || b < 0.9 {
		t.Errorf("power of 8 and 20 pairs: %.3f and %.3f", a, b)
	}
}
