package shelf

import "math/bits"

// rowSet is a set of rows by their index, a bit for each.
type rowSet []uint64

func newRowSet(n int) rowSet { return make(rowSet, (n+63)/64) }

// fullRowSet holds the rows 0 to n-1.
func fullRowSet(n int) rowSet {
	s := newRowSet(n)
	for i := range s {
		s[i] = ^uint64(0)
	}
	if n%64 != 0 {
		s[len(s)-1] = 1<<(n%64) - 1
	}
	return s
}

func (s rowSet) add(i int)      { s[i/64] |= 1 << (i % 64) }
func (s rowSet) has(i int) bool { return s[i/64]&(1<<(i%64)) != 0 }

// keep leaves in s what o holds too.
func (s rowSet) keep(o rowSet) {
	for i := range s {
		s[i] &= o[i]
	}
}

func (s rowSet) count() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// each visits the rows of s in rising order.
func (s rowSet) each(visit func(i int)) {
	for k, w := range s {
		for ; w != 0; w &= w - 1 {
			visit(64*k + bits.TrailingZeros64(w))
		}
	}
}
