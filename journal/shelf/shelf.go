package shelf

import (
	"cmp"
	"slices"
	"strings"
	"sync"
)

// A Shelf holds rows and their indexes. It does not change once it is made, and
// may be used from several goroutines.
type Shelf struct {
	rows    []Row
	flours  map[string][]posting
	addIns  map[string][]int32
	figures map[Metric][]float64 // by row; NaN where there is none
	newness []int32              // by row: 0 for the newest

	laying sync.Mutex // guards edges
	edges  map[Metric][]float64
}

// A posting is a row that holds a flour, and its share.
type posting struct {
	row   int32
	share float64
}

// New indexes rows, which must not be altered afterwards.
func New(rows []Row) *Shelf {
	s := &Shelf{rows: rows, flours: map[string][]posting{}, addIns: map[string][]int32{}, figures: map[Metric][]float64{}, edges: map[Metric][]float64{}}
	for i := range rows {
		r := &rows[i]
		for _, f := range r.Flours {
			s.flours[f.Flour] = append(s.flours[f.Flour], posting{int32(i), f.Percent})
		}
		for _, a := range r.AddIns {
			s.addIns[a] = append(s.addIns[a], int32(i))
		}
		for _, v := range r.Figures {
			s.column(v.Figure)[i] = v.Value
		}
	}
	s.newness = newness(rows)
	return s
}

// newness ranks rows by date, the newest first, so that sorting need not look at
// times and IDs again.
func newness(rows []Row) []int32 {
	order := make([]int32, len(rows))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(a, b int32) int {
		return cmp.Or(rows[b].At.Compare(rows[a].At), cmp.Compare(rows[b].ID, rows[a].ID))
	})
	out := make([]int32, len(rows))
	for rank, row := range order {
		out[row] = int32(rank)
	}
	return out
}

func (s *Shelf) column(f Metric) []float64 {
	col, ok := s.figures[f]
	if !ok {
		col = make([]float64, len(s.rows))
		for i := range col {
			col[i] = missing
		}
		s.figures[f] = col
	}
	return col
}

// Len is the number of rows.
func (s *Shelf) Len() int { return len(s.rows) }

// Row gives a row by its index.
func (s *Shelf) Row(i int) *Row { return &s.rows[i] }

// Metric gives a figure of a row; NaN if it has none.
func (s *Shelf) Metric(i int, f Metric) float64 {
	if col, ok := s.figures[f]; ok {
		return col[i]
	}
	return missing
}

// Metrics lists the figures that some row has, in alphabetical order.
func (s *Shelf) Metrics() []Metric {
	out := make([]Metric, 0, len(s.figures))
	for f := range s.figures {
		out = append(out, f)
	}
	slices.Sort(out)
	return out
}

// A dimension is a direction in which a filter narrows. Parts of one dimension
// are left out together when its own choices are counted.
type dimension string

const (
	byFlour   dimension = "flour"
	byAddIn   dimension = "add-in"
	byCulture dimension = "culture"
	byTrial   dimension = "trial"
	bySeason  dimension = "season"
	byTime    dimension = "time"
	byPhotos  dimension = "photos"
	byText    dimension = "text"
)

func byMetric(f Metric) dimension { return dimension("figure " + f) }

// A condition is what one condition of a filter lets through.
type condition struct {
	dim  dimension
	rows rowSet
}

// parts turns a filter into sets of rows.
func (s *Shelf) parts(f Filter) []condition {
	var out []condition
	add := func(d dimension, rows rowSet) { out = append(out, condition{d, rows}) }
	for _, p := range f.Flours {
		rows := newRowSet(len(s.rows))
		for _, at := range s.flours[p.Flour] {
			if p.holds(at.share) {
				rows.add(int(at.row))
			}
		}
		add(byFlour, rows)
	}
	for _, a := range f.AddIns {
		rows := newRowSet(len(s.rows))
		for _, i := range s.addIns[a] {
			rows.add(int(i))
		}
		add(byAddIn, rows)
	}
	for _, r := range f.Ranges {
		rows := newRowSet(len(s.rows))
		for i, v := range s.figures[r.Figure] {
			if r.holds(v) {
				rows.add(i)
			}
		}
		add(byMetric(r.Figure), rows)
	}
	scan := func(d dimension, asked bool, holds func(r *Row) bool) {
		if !asked {
			return
		}
		rows := newRowSet(len(s.rows))
		for i := range s.rows {
			if holds(&s.rows[i]) {
				rows.add(i)
			}
		}
		add(d, rows)
	}
	scan(byCulture, len(f.Cultures) > 0, func(r *Row) bool { return slices.Contains(f.Cultures, r.Culture) })
	scan(byTrial, len(f.Trials) > 0, func(r *Row) bool {
		return r.Trial != "" && (slices.Contains(f.Trials, AnyTrial) || slices.Contains(f.Trials, r.Trial))
	})
	scan(bySeason, len(f.Seasons) > 0, func(r *Row) bool { return slices.Contains(f.Seasons, SeasonOf(r.At)) })
	scan(byTime, !f.From.IsZero() || !f.To.IsZero(), func(r *Row) bool {
		return (f.From.IsZero() || !r.At.Before(f.From)) && (f.To.IsZero() || r.At.Before(f.To))
	})
	scan(byPhotos, f.Photos != AnyPhotos, f.Photos.holds)
	looked := words(f.Text)
	scan(byText, len(looked) > 0, func(r *Row) bool { return holdsWords(r, looked) })
	return out
}

// words are what a search looks for, in lower case.
func words(text string) []string { return strings.Fields(strings.ToLower(text)) }

// holdsWords looks for every word in the text of a row and in the names of what
// went into it.
func holdsWords(r *Row, words []string) bool {
	for _, w := range words {
		held := strings.Contains(r.Text, w) ||
			slices.ContainsFunc(r.Flours, func(f Share) bool { return strings.Contains(f.Flour, w) }) ||
			slices.ContainsFunc(r.AddIns, func(a string) bool { return strings.Contains(a, w) })
		if !held {
			return false
		}
	}
	return true
}

// except is what all parts but those of one dimension let through; "" leaves
// none out.
func (s *Shelf) except(parts []condition, d dimension) rowSet {
	out := fullRowSet(len(s.rows))
	for _, p := range parts {
		if d == "" || p.dim != d {
			out.keep(p.rows)
		}
	}
	return out
}
