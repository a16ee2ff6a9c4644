package blind

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"twinloaf/journal/blind/draw"
)

func planOf(m Method, tasters, rounds int) Plan {
	p := Plan{Method: m, Mode: WithHelper, Rounds: rounds}
	for i := range tasters {
		p.Tasters = append(p.Tasters, fmt.Sprint("taster ", i))
	}
	return p
}

// fixed is a source that always draws the same.
func fixed(seed byte) *draw.Source { return draw.From(rand.NewChaCha8([32]byte{seed})) }

// tooFar reports whether a count of n with chance p lies more than five standard
// deviations off.
func tooFar(count, n int, p float64) bool {
	return math.Abs(float64(count)-float64(n)*p) > 5*math.Sqrt(float64(n)*p*(1-p))
}

// Several rounds of one taster know nothing of one another: each pair of orders
// comes up as often as every other, the same order twice among them.
func TestRoundsOfOneTasterAreDrawnApart(t *testing.T) {
	const draws = 20000
	for _, m := range Methods() {
		source, counts := fixed(1), map[string]int{}
		for range draws {
			rounds, err := drawOrders(planOf(m, 1, 3), source)
			if err != nil {
				t.Fatal(err)
			}
			counts[fmt.Sprint(rounds[0][0], rounds[0][2])]++
		}
		n := len(servingOrders(m))
		for _, one := range servingOrders(m) {
			for _, other := range servingOrders(m) {
				if pair := fmt.Sprint(one, other); tooFar(counts[pair], draws, 1/float64(n*n)) {
					t.Errorf("%s: %s came up %d times of %d", m, pair, counts[pair], draws)
				}
			}
		}
	}
}

// No place is favoured, also in tastings of fewer answers than there are orders,
// where balance cannot serve them all: whoever always names the first samples,
// or the last, is right as often as guessing gives.
func TestNoPlaceIsFavoured(t *testing.T) {
	const draws = 6000
	for _, m := range Methods() {
		if !m.Discriminates() {
			continue
		}
		for tasters := 1; tasters <= 5; tasters++ {
			source, plan := fixed(byte(tasters)), planOf(m, tasters, 1)
			first, last := 0, 0
			for range draws {
				drawn, err := drawOrders(plan, source)
				if err != nil {
					t.Fatal(err)
				}
				for _, rounds := range drawn {
					n := len(rounds[0])
					if rightAt(m, rounds[0], 0) {
						first++
					}
					if rightAt(m, rounds[0], n-m.Picks()) {
						last++
					}
				}
			}
			for where, right := range map[string]int{"first": first, "last": last} {
				if n := draws * tasters; tooFar(right, n, m.Chance()) {
					t.Errorf("%s, %d tasters: the %s is right in %.2f %%, by guessing %.2f %%", m, tasters, where, 100*float64(right)/float64(n), 100*m.Chance())
				}
			}
		}
	}
}

// rightAt reports whether naming the samples from a place on is right.
func rightAt(m Method, o order, at int) bool {
	reference := o[0]
	if m.HasReference() {
		o, at = o[1:], max(0, at-1)
	}
	alike := 0
	for _, s := range o {
		if s == o[at] {
			alike++
		}
	}
	switch m {
	case Triangle:
		return alike == 1
	case DuoTrio:
		return o[at] == reference
	case Tetrad:
		return o[at] == o[at+1]
	case TwoOutOfFive:
		return alike == 2 && o[at] == o[at+1]
	}
	return o[at] == 1 // 3-AFC: the loaf with more
}
