package shelf

import (
	"cmp"
	"slices"
)

// A View is a shelf seen through a filter.
type View struct {
	shelf *Shelf
	parts []condition
	all   rowSet
}

// Filter looks at the shelf through a filter.
func (s *Shelf) Filter(f Filter) *View {
	l := &View{shelf: s, parts: s.parts(f)}
	l.all = s.except(l.parts, "")
	return l
}

// Len is how many rows the filter lets through.
func (l *View) Len() int { return l.all.count() }

// Rows lists the indexes of the rows in an order.
func (l *View) Rows(o Order) []int {
	out := make([]int, 0, l.Len())
	l.all.each(func(i int) { out = append(out, i) })
	o.sort(l.shelf, out)
	return out
}

// An Order is what rows are sorted by. The zero Order is by date, the newest
// first; a figure too is sorted with the greatest first. Rows without the
// figure come last either way, and rows that are alike are newest first.
type Order struct {
	By      Metric `json:"by,omitzero"` // empty: by date
	Upwards bool   `json:"upwards,omitzero"`
}

func (o Order) sort(s *Shelf, rows []int) {
	newest := func(a, b int) int { return cmp.Compare(s.newness[a], s.newness[b]) }
	sign := -1
	if o.Upwards {
		sign = 1
	}
	if o.By == "" {
		if slices.IsSortedFunc(rows, newest) { // as the rows usually come
			if o.Upwards {
				slices.Reverse(rows)
			}
			return
		}
		slices.SortFunc(rows, func(a, b int) int { return -sign * newest(a, b) })
		return
	}
	col := s.figures[o.By]
	if col == nil {
		slices.SortFunc(rows, newest)
		return
	}
	slices.SortFunc(rows, func(a, b int) int {
		va, vb := col[a], col[b]
		switch gone, went := va != va, vb != vb; {
		case gone && went:
			return newest(a, b)
		case gone:
			return 1
		case went:
			return -1
		}
		return cmp.Or(sign*cmp.Compare(va, vb), newest(a, b))
	})
}
