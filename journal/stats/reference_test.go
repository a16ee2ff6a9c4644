package stats_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"twinloaf/journal/stats"
)

// row is one published or computed value: what it is, of which input.
type row struct {
	what, input string
	value       float64
}

// reference reads a file made by testdata/stats/make_reference.R or .py,
// where the command that made it stands in the first lines.
func reference(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "stats", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for _, line := range lines[1:] {
		value, err := strconv.ParseFloat(line[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		rows = append(rows, row{line[0], line[1], value})
	}
	if len(rows) == 0 {
		t.Fatalf("%s holds no rows", name)
	}
	return rows
}

func numbers(t *testing.T, text string) []float64 {
	t.Helper()
	var list []float64
	for _, word := range strings.Fields(text) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, v)
	}
	return list
}

func two(t *testing.T, text string) (a, b []float64) {
	t.Helper()
	left, right, _ := strings.Cut(text, "|")
	return numbers(t, left), numbers(t, right)
}

func must[T any](value T, err error) T {
	if err != nil {
		panic(err)
	}
	return value
}

// count gives whole numbers their type back.
func count(x float64) int { return int(math.Round(x)) }

var source = rand.NewPCG(1, 2)

// ours computes each named figure.
var ours = map[string]func(t *testing.T, input string) float64{
	"binomial_upper": func(t *testing.T, in string) float64 {
		x := numbers(t, in)
		return stats.BinomialUpper(count(x[0]), count(x[1]), x[2])
	},
	"sign_test": func(t *testing.T, in string) float64 {
		x := numbers(t, in)
		return stats.SignTest(count(x[0]), count(x[1]))
	},
	"clopper_lower":      func(t *testing.T, in string) float64 { return clopper(t, in).Lower },
	"clopper_upper":      func(t *testing.T, in string) float64 { return clopper(t, in).Upper },
	"signed_rank_p":      func(t *testing.T, in string) float64 { return signedRank(t, in).P },
	"signed_rank_plus":   func(t *testing.T, in string) float64 { return signedRank(t, in).Plus },
	"signed_rank_tied_p": func(t *testing.T, in string) float64 { return signedRank(t, in).P },
	"mann_whitney_p":     func(t *testing.T, in string) float64 { return mannWhitney(t, in).P },
	"mann_whitney_shift": func(t *testing.T, in string) float64 { return mannWhitney(t, in).Shift },
	"mann_whitney_lower": func(t *testing.T, in string) float64 { return mannWhitney(t, in).ShiftLimits.Lower },
	"mann_whitney_upper": func(t *testing.T, in string) float64 { return mannWhitney(t, in).ShiftLimits.Upper },
	"mann_whitney_tied_p": func(t *testing.T, in string) float64 {
		r := mannWhitney(t, in)
		if !r.Exact {
			t.Errorf("ties in %s: %+v", in, r)
		}
		return r.P
	},
	"mann_whitney_normal_p": func(t *testing.T, in string) float64 {
		r := mannWhitney(t, in)
		if r.Exact {
			t.Error("a large comparison claims to be exact")
		}
		return r.P
	},
	"spearman_rho":    func(t *testing.T, in string) float64 { return spearman(t, in).Rho },
	"spearman_p":      func(t *testing.T, in string) float64 { return spearman(t, in).P },
	"theil_slope":     func(t *testing.T, in string) float64 { return theilSen(t, in).Slope },
	"theil_intercept": func(t *testing.T, in string) float64 { return theilSen(t, in).Intercept },
	"theil_lower":     func(t *testing.T, in string) float64 { return theilSen(t, in).Limits.Lower },
	"theil_upper":     func(t *testing.T, in string) float64 { return theilSen(t, in).Limits.Upper },
	"holm": func(t *testing.T, in string) float64 {
		p, place := two(t, in)
		return stats.Holm(p)[count(place[0])-1]
	},
}

func clopper(t *testing.T, in string) stats.Limits {
	x := numbers(t, in)
	return stats.ClopperPearson(count(x[0]), count(x[1]), 0.95)
}

func signedRank(t *testing.T, in string) stats.SignedRankResult {
	return must(stats.SignedRank(numbers(t, in)))
}

func mannWhitney(t *testing.T, in string) stats.MannWhitneyResult {
	a, b := two(t, in)
	return must(stats.MannWhitney(a, b, 0.95))
}

func spearman(t *testing.T, in string) stats.SpearmanResult {
	a, b := two(t, in)
	return must(stats.Spearman(a, b, source))
}

func theilSen(t *testing.T, in string) stats.TheilSenResult {
	a, b := two(t, in)
	return must(stats.TheilSen(a, b, 0.95))
}

func TestAgreesWithRAndScipy(t *testing.T) {
	seen := map[string]bool{}
	for _, file := range []string{"r_reference.csv", "scipy_reference.csv"} {
		for _, r := range reference(t, file) {
			seen[r.what] = true
			t.Run(fmt.Sprintf("%s/%s", r.what, r.input), func(t *testing.T) {
				compute, known := ours[r.what]
				if !known {
					t.Fatalf("nothing here computes %s", r.what)
				}
				got := compute(t, r.input)
				if math.Abs(got-r.value) > 1e-9*max(1, math.Abs(r.value)) {
					t.Errorf("%s of %s is %.12g, the reference says %.12g", r.what, r.input, got, r.value)
				}
			})
		}
	}
	for what := range ours {
		if !seen[what] {
			t.Errorf("no reference row checks %s", what)
		}
	}
}

// The greatest rank sums that are significant, from R psignrank.
func TestSignedRankCriticalValues(t *testing.T) {
	file, err := os.Open("../../testdata/stats/signed_rank_critical.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	levels := []float64{0.10, 0.05, 0.02, 0.01} // two-sided
	for _, line := range lines[1:] {
		n := count(numbers(t, line[0])[0])
		for i, alpha := range levels {
			want := line[i+1]
			got := ""
			for w := 0; 2*stats.SignedRankLower(w, n) <= alpha; w++ {
				got = strconv.Itoa(w)
			}
			if got != want {
				t.Errorf("n %d at %g: %q, the table says %q", n, alpha, got, want)
			}
		}
	}
}
