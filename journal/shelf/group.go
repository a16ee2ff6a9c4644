package shelf

import (
	"fmt"
	"math"
	"slices"
)

// A Grouping says by what rows are put together.
type Grouping string

// The groupings.
const (
	Ungrouped       Grouping = ""
	ByFlour         Grouping = "flour"
	ByCulture       Grouping = "culture"
	ByMonth         Grouping = "month"
	BySeason        Grouping = "season"
	ByTrial         Grouping = "trial"
	ByHydrationBand Grouping = "hydration"
	ByScore         Grouping = "score"
)

// Groupings lists the groupings in the order in which they are offered.
func Groupings() []Grouping {
	return []Grouping{Ungrouped, ByFlour, ByCulture, ByMonth, BySeason, ByTrial, ByHydrationBand, ByScore}
}

// HydrationBand is how wide a group by hydration is, in percent.
const HydrationBand = 5

// A Group is rows that have something in common.
type Group struct {
	// Key is the flour, culture or trial; "2026-03" for a month; "2026-12" for
	// the quarter that begins in December; the lower end of a band, in percent; the
	// score. It is empty for rows that have none.
	Key  string
	Rows []int // in the order in which they were given
}

// Grouped puts rows together. A bake of two flours lies in the groups of both.
// Flours, cultures and trials come with the largest first, all else in the order
// of its keys, the greatest first; what has none comes last.
func (s *Shelf) Grouped(rows []int, by Grouping) []Group {
	at := map[string]int{}
	var out []Group
	add := func(key string, row int) {
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, Group{Key: key})
		}
		out[i].Rows = append(out[i].Rows, row)
	}
	for _, i := range rows {
		r := &s.rows[i]
		if by == ByFlour {
			for _, f := range r.Flours {
				add(f.Flour, i)
			}
			if len(r.Flours) == 0 {
				add("", i)
			}
			continue
		}
		add(s.groupKey(i, r, by), i)
	}
	bySize := by == ByFlour || by == ByCulture || by == ByTrial
	slices.SortStableFunc(out, func(a, b Group) int {
		switch {
		case (a.Key == "") != (b.Key == ""):
			if a.Key == "" {
				return 1
			}
			return -1
		case bySize:
			return len(b.Rows) - len(a.Rows)
		case a.Key > b.Key:
			return -1
		case a.Key < b.Key:
			return 1
		}
		return 0
	})
	return out
}

func (s *Shelf) groupKey(i int, r *Row, by Grouping) string {
	switch by {
	case ByCulture:
		return r.Culture
	case ByTrial:
		return r.Trial
	case ByMonth:
		return r.At.Format("2006-01")
	case BySeason:
		year, season := r.At.Year(), SeasonOf(r.At)
		if season == 12 && r.At.Month() < 12 {
			year-- // the winter of January began in December
		}
		return fmt.Sprintf("%04d-%02d", year, season)
	case ByHydrationBand:
		if v := s.Metric(i, Hydration); v == v && v > 0 {
			return fmt.Sprintf("%03d", int(math.Floor(v/HydrationBand+slack))*HydrationBand)
		}
	case ByScore:
		if v := s.Metric(i, Score); v == v && v > 0 {
			return fmt.Sprintf("%d", int(math.Round(v)))
		}
	}
	return ""
}
