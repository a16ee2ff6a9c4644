package blind

import (
	"slices"
	"twinloaf/journal/blind/draw"
)

// balanced draws which of m orders each taster gets in each round, so that
// every order is used as often as every other, give or take one, in the whole
// tasting, by each taster and in each round. The result is [taster][round].
//
// It is an equitable edge colouring of a bipartite graph (tasters on one side,
// rounds on the other, orders as colours), which always exists (de Werra 1971,
// INFOR 9:184). It starts from a random colouring and evens out two colours at
// a time, along alternating trails, until no pair is uneven: each step lowers
// the sum of squared counts, so it ends. Which colour is which order is drawn
// last, so that with fewer cells than orders none is served more often than
// another for standing first in the list.
func balanced(source *draw.Source, tasters, rounds, m int) ([][]int, error) {
	b := &board{tasters: tasters, rounds: rounds, colour: make([]int, tasters*rounds)}
	for cell := range b.colour {
		c, err := source.Below(m)
		if err != nil {
			return nil, err
		}
		b.colour[cell] = c
	}
	for even := false; !even; {
		even = true
		for first := range m {
			for second := first + 1; second < m; second++ {
				if b.isEven(first, second) {
					continue
				}
				even = false
				if err := b.even(source, first, second); err != nil {
					return nil, err
				}
			}
		}
	}
	which, err := source.Order(m)
	if err != nil {
		return nil, err
	}
	drawn := make([][]int, tasters)
	for t := range drawn {
		drawn[t] = b.colour[t*rounds : (t+1)*rounds]
		for r, c := range drawn[t] {
			drawn[t][r] = which[c]
		}
	}
	return drawn, nil
}

// board is a colouring of the cells taster × round; cell = taster*rounds+round.
type board struct {
	tasters, rounds int
	colour          []int
}

// ends are the two corners of a cell: its taster, and its round behind them.
func (b *board) ends(cell int) (taster, round int) {
	return cell / b.rounds, b.tasters + cell%b.rounds
}

// isEven reports whether two colours differ by at most one everywhere.
func (b *board) isEven(first, second int) bool {
	lead := make([]int, b.tasters+b.rounds+1)
	for cell, c := range b.colour {
		step := 0
		switch c {
		case first:
			step = 1
		case second:
			step = -1
		}
		taster, round := b.ends(cell)
		lead[taster] += step
		lead[round] += step
		lead[b.tasters+b.rounds] += step
	}
	return !slices.ContainsFunc(lead, func(l int) bool { return l < -1 || l > 1 })
}

// even recolours the cells of two colours so that they differ by at most one
// at each taster, in each round and in all.
func (b *board) even(source *draw.Source, first, second int) error {
	open := make([][]int, b.tasters+b.rounds) // cells not yet walked, by corner
	for cell, c := range b.colour {
		if c == first || c == second {
			taster, round := b.ends(cell)
			open[taster] = append(open[taster], cell)
			open[round] = append(open[round], cell)
		}
	}
	for corner := range open {
		if err := draw.Shuffle(source, open[corner]); err != nil {
			return err
		}
	}
	starts, err := source.Order(len(open))
	if err != nil {
		return err
	}
	// lead is how many more cells have the first colour so far.
	lead, walked := 0, make(map[int]bool)
	paint := func(trail []int) error {
		if len(trail) == 0 {
			return nil
		}
		ahead, err := source.Coin()
		if err != nil {
			return err
		}
		if lead != 0 && len(trail)%2 == 1 {
			ahead = lead < 0
		}
		for i, cell := range trail {
			if (i%2 == 0) == ahead {
				b.colour[cell] = first
				lead++
			} else {
				b.colour[cell] = second
				lead--
			}
		}
		return nil
	}
	// Trails between odd corners first; what remains is closed trails, which
	// are of even length because the two sides alternate.
	for _, odd := range []bool{true, false} {
		for _, corner := range starts {
			for left := remaining(open[corner], walked); left > 0 && (left%2 == 1 || !odd); left = remaining(open[corner], walked) {
				if err := paint(b.walk(corner, open, walked)); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// walk follows unwalked cells from a corner until it is stuck.
func (b *board) walk(corner int, open [][]int, walked map[int]bool) []int {
	var trail []int
	for {
		next := -1
		for _, cell := range open[corner] {
			if !walked[cell] {
				next = cell
				break
			}
		}
		if next < 0 {
			return trail
		}
		walked[next] = true
		trail = append(trail, next)
		taster, round := b.ends(next)
		if corner == taster {
			corner = round
		} else {
			corner = taster
		}
	}
}

func remaining(cells []int, walked map[int]bool) int {
	n := 0
	for _, cell := range cells {
		if !walked[cell] {
			n++
		}
	}
	return n
}
