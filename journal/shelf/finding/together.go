package finding

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"twinloaf/journal/stats"
)

// A Factor is one thing that differs between bakes: a number, or a name. Of the
// two slices one is set, with an entry for each bake.
type Factor struct {
	Name   string // as its maker calls it
	Number []float64
	Word   []string
}

// A Link is another factor that moved together with the one looked at.
type Link struct {
	Name string
	// Strength lies between -1 and 1: Spearman's rank correlation between two
	// numbers; between a number and names, the rank-biserial correlation of the
	// two largest groups; between names, Cramér's V, which has no sign.
	Strength float64
	N        int // bakes that have both
	// First and Second name the two groups, where there are groups: the number is
	// the greater in First when Strength is above 0.
	First, Second string
}

// From where on a link is told: strong enough to matter, and seen in enough
// bakes that chance alone seldom makes it.
const (
	tellStrength = 0.3
	tellP        = 0.01 // several factors are looked at, so stricter than 0.05
)

// Together lists which of the others moved together with a factor, the
// strongest first. Every one of them could stand behind a trend of that factor.
func Together(factor Factor, others []Factor) []Link {
	var out []Link
	for _, o := range others {
		l, ok := link(factor, o)
		if ok && math.Abs(l.Strength) >= tellStrength {
			out = append(out, l)
		}
	}
	slices.SortStableFunc(out, func(a, b Link) int {
		return cmp.Compare(math.Abs(b.Strength), math.Abs(a.Strength))
	})
	return out
}

func link(a, b Factor) (Link, bool) {
	l := Link{Name: b.Name}
	switch {
	case a.Number != nil && b.Number != nil:
		x, y := complete(a.Number, b.Number)
		l.N = len(x)
		if l.N < Enough+3 || flat(x) || flat(y) {
			return l, false
		}
		l.Strength = rho(x, y)
		return l, sureOf(l.Strength, l.N)
	case a.Number != nil:
		return biserial(l, b.Word, a.Number)
	case b.Number != nil:
		return biserial(l, a.Word, b.Number)
	}
	return cramer(l, a.Word, b.Word)
}

// sureOf reports whether a rank correlation over n pairs is seldom chance, by
// the normal approximation: rho times the root of n-1 (Kendall & Gibbons, Rank
// Correlation Methods, 5th ed., 1990, section 4.13).
func sureOf(rho float64, n int) bool {
	z := math.Abs(rho) * math.Sqrt(float64(n-1))
	return 2*distuv.UnitNormal.Survival(z) <= tellP
}

// biserial compares a number between the two largest groups of names: the share
// of pairs that the first wins less the share it loses (Cureton 1956,
// Psychometrika 21:287), told by the normal approximation of Mann and Whitney's U
// (1947, Ann Math Stat 18:50).
func biserial(l Link, names []string, number []float64) (Link, bool) {
	values := map[string][]float64{}
	for i, name := range names {
		if name != "" && !math.IsNaN(number[i]) {
			values[name] = append(values[name], number[i])
		}
	}
	groups := slices.Collect(maps.Keys(values))
	slices.SortFunc(groups, func(a, b string) int {
		return cmp.Or(len(values[b])-len(values[a]), cmp.Compare(a, b))
	})
	if len(groups) < 2 || len(values[groups[1]]) < 3 {
		return l, false
	}
	l.First, l.Second = groups[0], groups[1]
	m, n := float64(len(values[l.First])), float64(len(values[l.Second]))
	l.N = int(m + n)
	if l.N < Enough+3 {
		return l, false
	}
	sum := 0.0
	for _, rank := range stats.Ranks(slices.Concat(values[l.First], values[l.Second]))[:int(m)] {
		sum += rank
	}
	u := sum - m*(m+1)/2
	l.Strength = 2*u/(m*n) - 1
	z := math.Abs(l.Strength) * math.Sqrt(3*m*n/(m+n+1))
	return l, 2*distuv.UnitNormal.Survival(z) <= tellP
}

// cramer measures how far two sets of names go together (Cramér 1946,
// Mathematical Methods of Statistics, section 21.9), told by the chi-squared test.
func cramer(l Link, a, b []string) (Link, bool) {
	rows, cols, cells := map[string]float64{}, map[string]float64{}, map[[2]string]float64{}
	n := 0.0
	for i := range a {
		if a[i] == "" || b[i] == "" {
			continue
		}
		rows[a[i]]++
		cols[b[i]]++
		cells[[2]string{a[i], b[i]}]++
		n++
	}
	l.N = int(n)
	least := math.Min(float64(len(rows)), float64(len(cols))) - 1
	if n < Enough+3 || least < 1 {
		return l, false
	}
	chi := 0.0
	for r, nr := range rows {
		for c, nc := range cols {
			want := nr * nc / n
			d := cells[[2]string{r, c}] - want
			chi += d * d / want
		}
	}
	l.Strength = math.Sqrt(chi / (n * least))
	freedom := float64((len(rows) - 1) * (len(cols) - 1))
	return l, distuv.ChiSquared{K: freedom}.Survival(chi) <= tellP
}

// Settle gives the two values of a number that a trial would compare: the
// quarters of what was baked, so that the trial asks about breads the baker
// makes, drawn apart to at least step when they lie nearer.
func Settle(number []float64, step float64) (low, high float64) {
	seen := slices.DeleteFunc(slices.Clone(number), math.IsNaN)
	if len(seen) == 0 {
		return 0, step
	}
	slices.Sort(seen)
	round := func(v float64) float64 { return math.Round(v/step) * step }
	low, high = round(seen[len(seen)/4]), round(seen[(3*len(seen)-1)/4])
	if high-low < step/2 {
		high = low + step
	}
	return low, high
}
