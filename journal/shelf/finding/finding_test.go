package finding_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"twinloaf/journal/shelf/finding"
)

var nan = math.NaN()

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within || got != got {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// Small enough to be done by hand.
// Slopes of all pairs of (1,2) (2,4)
// (3,3) (4,7) (5,8): 2 0.5 5/3 1.5 -1 1.5 4/3 4 2.5 1; in order the fifth and
// sixth are 1.5 and 1.5.
func TestTrendByHand(t *testing.T) {
	trend, err := finding.TrendOf([]float64{1, 2, nan, 3, 4, 5, 9}, []float64{2, 4, 4, 3, 7, 8, nan})
	if err != nil {
		t.Fatal(err)
	}
	if trend.N != 5 || trend.Used != 5 {
		t.Errorf("rests on %d of %d bakes, want 5 of 5", trend.Used, trend.N)
	}
	near(t, "slope", trend.Slope, 1.5, 1e-12)
	near(t, "intercept", trend.Intercept, 4-1.5*3, 1e-12)
	// Sum of squared rank differences 2: rho = 1 - 6*2/(5*24) = 0.9, two-sided
	// exact p 10/120 (Zar 1972, J Am Stat Assoc 67:578, table; by counting).
	near(t, "rank correlation", trend.Rank.Rho, 0.9, 1e-12)
	near(t, "p", trend.Rank.P, 10.0/120, 1e-12)
	if trend.Told() {
		t.Error("five bakes with p 0.08 are told from chance")
	}
}

func TestTooFew(t *testing.T) {
	for name, xy := range map[string][2][]float64{
		"four bakes":          {{1, 2, 3, 4}, {1, 2, 3, 4}},
		"gaps leave four":     {{1, 2, 3, 4, 5}, {1, 2, nan, 4, 5}},
		"the factor is fixed": {{2, 2, 2, 2, 2, 2}, {1, 2, 3, 4, 5, 6}},
		"nothing":             {nil, nil},
	} {
		if _, err := finding.TrendOf(xy[0], xy[1]); !errors.Is(err, finding.ErrTooFew) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Very many bakes are thinned evenly and still give the slope.
func TestVeryMany(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	x, y := make([]float64, 10_000), make([]float64, 10_000)
	for i := range x {
		x[i] = r.Float64() * 20
		y[i] = 3 + 0.1*x[i] + r.NormFloat64()
	}
	trend, err := finding.TrendOf(x, y)
	if err != nil {
		t.Fatal(err)
	}
	if trend.N != 10_000 || trend.Used != 1200 {
		t.Errorf("used %d of %d", trend.Used, trend.N)
	}
	if trend.Limits.Lower > 0.1 || trend.Limits.Upper < 0.1 || !trend.Told() {
		t.Errorf("slope %v in %+v, want 0.1 inside", trend.Slope, trend.Limits)
	}
}

// Two groups of five without overlap: U is 25, exact p 2/252.
func TestGroupsByHand(t *testing.T) {
	names := []string{"harbour", "gorse", "harbour", "gorse", "harbour", "gorse", "harbour", "gorse", "harbour", "gorse", "", "odd"}
	y := []float64{9, 1, 8, 2, 7, 3, 6, 4, 5.5, 5, 9, nan}
	c, err := finding.CompareGroups(names, y)
	if err != nil {
		t.Fatal(err)
	}
	if c.N != 10 || len(c.Groups) != 2 || c.Groups[0].Name != "gorse" || c.Groups[0].Median != 3 || c.Groups[1].Median != 7 {
		t.Fatalf("%+v", c)
	}
	near(t, "p", c.Test.P, 2.0/252, 1e-12)
	if !c.Told() || c.Others != 0 {
		t.Errorf("told %v, others %d", c.Told(), c.Others)
	}
}

// With three groups that could be compared, p is taken three times.
func TestMoreGroupsAskForMore(t *testing.T) {
	var names []string
	var y []float64
	for i := range 12 {
		names = append(names, []string{"a", "b", "c"}[i%3])
		y = append(y, float64(i%3)*10+float64(i))
	}
	c, err := finding.CompareGroups(names, y)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "adjusted p", c.Adjusted(), 3*2.0/70, 1e-12) // four against four
	if c.Told() {
		t.Error("0.086 is told from chance")
	}
}

func TestTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	n := 60
	cold, dough, noise := make([]float64, n), make([]float64, n), make([]float64, n)
	culture, season := make([]string, n), make([]string, n)
	for i := range n {
		cold[i] = r.Float64() * 24
		dough[i] = 26 - cold[i]/8 + r.NormFloat64()/2
		noise[i] = r.Float64()
		culture[i] = "harbour"
		if cold[i] > 14 {
			culture[i] = "gorse"
		}
		season[i] = []string{"3", "6"}[i%2]
	}
	got := finding.Together(finding.Factor{Name: "cold", Number: cold}, []finding.Factor{
		{Name: "noise", Number: noise}, {Name: "dough", Number: dough},
		{Name: "culture", Word: culture}, {Name: "season", Word: season},
	})
	if len(got) != 2 {
		t.Fatalf("%+v, want dough and culture", got)
	}
	if got[0].Name != "culture" || math.Abs(got[0].Strength) != 1 || got[0].N != n {
		t.Errorf("first %+v, want the culture, which parts the rests wholly", got[0])
	}
	if got[1].Name != "dough" || got[1].Strength > -0.5 {
		t.Errorf("second %+v, want the dough's temperature, falling", got[1])
	}
	got = finding.Together(finding.Factor{Name: "culture", Word: culture}, []finding.Factor{{Name: "same", Word: culture}, {Name: "season", Word: season}})
	if len(got) != 1 || math.Abs(got[0].Strength-1) > 1e-9 {
		t.Errorf("%+v, want a V of 1", got)
	}
}

func TestSettle(t *testing.T) {
	for _, tt := range []struct {
		number    []float64
		step      float64
		low, high float64
	}{
		{[]float64{8, 9, 10, 12, 14, 16, 18, nan}, 1, 9, 16},
		{[]float64{12, 12, 12}, 2, 12, 14},
		{nil, 1, 0, 1},
	} {
		if low, high := finding.Settle(tt.number, tt.step); low != tt.low || high != tt.high {
			t.Errorf("%v: %v and %v, want %v and %v", tt.number, low, high, tt.low, tt.high)
		}
	}
}
