package shelf_test

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/shelf"
)

var flours = []string{"strong white", "whole wheat", "spelt", "dark rye", "emmer"}

// drawRows makes shelves whose figures often lie just on a bound.
func drawRows(t *rapid.T) []shelf.Row {
	n := rapid.IntRange(0, 150).Draw(t, "rows")
	rows := make([]shelf.Row, n)
	start := time.Date(2025, 11, 1, 6, 0, 0, 0, time.UTC)
	for i := range rows {
		r := &rows[i]
		r.ID = strconv.Itoa(i)
		r.At = start.Add(time.Duration(rapid.IntRange(0, 500).Draw(t, "day")) * 24 * time.Hour)
		for _, f := range flours {
			if share := rapid.SampledFrom([]float64{0, 0, 0, 5, 15, 15, 20, 60}).Draw(t, "share"); share > 0 {
				r.Flours = append(r.Flours, shelf.Share{Flour: f, Percent: share})
			}
		}
		if rapid.Bool().Draw(t, "seeds") {
			r.AddIns = append(r.AddIns, "seeds")
		}
		r.Culture = rapid.SampledFrom([]string{"", "harbour", "gorse"}).Draw(t, "culture")
		r.Trial = rapid.SampledFrom([]string{"", "", "t1", "t2"}).Draw(t, "trial")
		r.Photos = rapid.IntRange(0, 2).Draw(t, "photos")
		r.Crumb = r.Photos > 0 && rapid.Bool().Draw(t, "crumb")
		r.Text = rapid.SampledFrom([]string{"", "ferry loaf\nlong cold rest", "flat loaf, wet"}).Draw(t, "text")
		if rapid.Bool().Draw(t, "has hydration") {
			r.Figures = append(r.Figures, shelf.Value{Figure: shelf.Hydration, Value: float64(rapid.IntRange(60, 85).Draw(t, "hydration"))})
		}
		if rapid.Bool().Draw(t, "has score") {
			r.Figures = append(r.Figures, shelf.Value{Figure: shelf.Score, Value: float64(rapid.IntRange(1, 9).Draw(t, "score"))})
		}
	}
	return rows
}

func drawBound(t *rapid.T, from []float64) *float64 {
	if rapid.Bool().Draw(t, "bounded") {
		return new(rapid.SampledFrom(from).Draw(t, "bound"))
	}
	return nil
}

func drawFilter(t *rapid.T) shelf.Filter {
	var f shelf.Filter
	for _, key := range flours[1:4] {
		if rapid.IntRange(0, 3).Draw(t, "asks flour") == 0 {
			f.SetFlour(shelf.FlourPart{Flour: key, AtLeast: drawBound(t, []float64{0, 5, 15, 20}), AtMost: drawBound(t, []float64{5, 15, 60})})
		}
	}
	few := func(list []string) []string {
		if rapid.IntRange(0, 2).Draw(t, "asks") > 0 {
			return nil
		}
		return rapid.SliceOfNDistinct(rapid.SampledFrom(list), 1, 2, rapid.ID).Draw(t, "of")
	}
	f.Cultures = few([]string{"harbour", "gorse", "gone"})
	f.Trials = few([]string{"t1", "t2", shelf.AnyTrial})
	f.AddIns = few([]string{"seeds", "honey"})
	if rapid.IntRange(0, 2).Draw(t, "asks season") == 0 {
		f.Seasons = rapid.SliceOfNDistinct(rapid.SampledFrom(shelf.Seasons()), 1, 3, rapid.ID).Draw(t, "seasons")
	}
	if rapid.IntRange(0, 3).Draw(t, "asks time") == 0 {
		f.From = time.Date(2026, 1, 10, 6, 0, 0, 0, time.UTC)
		f.To = f.From.AddDate(0, rapid.IntRange(0, 8).Draw(t, "months"), 0)
	}
	for _, figure := range []shelf.Metric{shelf.Hydration, shelf.Score} {
		if rapid.IntRange(0, 2).Draw(t, "asks figure") == 0 {
			f.SetRange(shelf.Range{Figure: figure, AtLeast: drawBound(t, []float64{1, 7, 62, 70}), AtMost: drawBound(t, []float64{8, 75, 80})})
		}
	}
	f.Photos = rapid.SampledFrom([]shelf.Photos{"", "", "with", "crumb", "none"}).Draw(t, "photos asked")
	f.Text = rapid.SampledFrom([]string{"", "", "LOAF", "cold ferry", "spelt", "seeds wet", "nothing"}).Draw(t, "words")
	return f
}

// wanted says in the plainest way whether a filter lets a row through.
func wanted(f shelf.Filter, r shelf.Row) bool {
	for _, part := range f.Flours {
		share := 0.0
		for _, s := range r.Flours {
			if s.Flour == part.Flour {
				share = s.Percent
			}
		}
		if share == 0 || part.AtLeast != nil && share < *part.AtLeast || part.AtMost != nil && share > *part.AtMost {
			return false
		}
	}
	for _, a := range f.AddIns {
		if !slices.Contains(r.AddIns, a) {
			return false
		}
	}
	if len(f.Cultures) > 0 && !slices.Contains(f.Cultures, r.Culture) {
		return false
	}
	if len(f.Trials) > 0 && (r.Trial == "" || !slices.Contains(f.Trials, r.Trial) && !slices.Contains(f.Trials, "*")) {
		return false
	}
	if len(f.Seasons) > 0 {
		month := int(r.At.Month())
		first := map[int]shelf.Season{12: 12, 1: 12, 2: 12, 3: 3, 4: 3, 5: 3, 6: 6, 7: 6, 8: 6, 9: 9, 10: 9, 11: 9}[month]
		if !slices.Contains(f.Seasons, first) {
			return false
		}
	}
	if !f.From.IsZero() && r.At.Before(f.From) || !f.To.IsZero() && !r.At.Before(f.To) {
		return false
	}
	for _, part := range f.Ranges {
		v, has := 0.0, false
		for _, figure := range r.Figures {
			if figure.Figure == part.Figure {
				v, has = figure.Value, true
			}
		}
		if !has || part.AtLeast != nil && v < *part.AtLeast || part.AtMost != nil && v > *part.AtMost {
			return false
		}
	}
	switch {
	case f.Photos == "with" && r.Photos == 0, f.Photos == "none" && r.Photos > 0, f.Photos == "crumb" && !r.Crumb:
		return false
	}
	all := r.Text + "\n" + strings.Join(r.AddIns, "\n")
	for _, s := range r.Flours {
		all += "\n" + s.Flour
	}
	for _, w := range strings.Fields(strings.ToLower(f.Text)) {
		if !strings.Contains(all, w) {
			return false
		}
	}
	return true
}

func naive(f shelf.Filter, rows []shelf.Row) []int {
	out := []int{}
	for i, r := range rows {
		if wanted(f, r) {
			out = append(out, i)
		}
	}
	return out
}

func TestFilterIsANaiveScan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, f := drawRows(t), drawFilter(t)
		look := shelf.New(rows).Filter(f)
		got := look.Rows(shelf.Order{})
		slices.Sort(got)
		if want := naive(f, rows); !slices.Equal(got, want) || look.Len() != len(want) {
			t.Fatalf("filter %+v gave %v, want %v", f, got, want)
		}
	})
}

// What stands beside a choice is what would be left, or be brought, if it were
// chosen: each count is checked by choosing it.
func TestCountsAreWhatChoosingLeaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, f := drawRows(t), drawFilter(t)
		counts := shelf.New(rows).Filter(f).Counts(f)
		check := func(what string, c shelf.Choice, chosen shelf.Filter) {
			if want := len(naive(chosen, rows)); c.N != want {
				t.Fatalf("%s %s: %d beside it, choosing it gives %d (filter %+v)", what, c.Key, c.N, want, f)
			}
		}
		for _, c := range counts.Flours {
			g := f
			if !c.Chosen {
				g.SetFlour(shelf.FlourPart{Flour: c.Key})
			}
			check("flour", c, g)
		}
		for _, c := range counts.AddIns {
			g := f
			if !c.Chosen {
				g.AddIns = shelf.Toggled(f.AddIns, c.Key)
			}
			check("add-in", c, g)
		}
		for _, c := range counts.Cultures {
			g := f
			g.Cultures = []string{c.Key}
			check("culture", c, g)
		}
		for _, c := range counts.Trials {
			g := f
			g.Trials = []string{c.Key}
			check("trial", c, g)
		}
		for _, s := range shelf.Seasons() {
			g := f
			g.Seasons = []shelf.Season{s}
			check("season", shelf.Choice{Key: strconv.Itoa(int(s)), N: counts.Seasons[s]}, g)
		}
		for photos, n := range map[shelf.Photos]int{shelf.WithPhoto: counts.With, shelf.WithCrumb: counts.Crumb, shelf.NoPhoto: counts.Without} {
			g := f
			g.Photos = photos
			check("photos", shelf.Choice{Key: string(photos), N: n}, g)
		}
	})
}

func TestSpreadCountsEveryRowOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, f := drawRows(t), drawFilter(t)
		s := shelf.New(rows).Filter(f).Spread(shelf.Hydration)
		open := f
		open.SetRange(shelf.Range{Figure: shelf.Hydration, AtLeast: new(math.Inf(-1))}) // has the figure
		total := 0.0
		for _, n := range s.Counts {
			total += n
		}
		if want := len(naive(open, rows)); int(total) != want || s.N != want {
			t.Fatalf("%v in bins, %d counted, want %d", total, s.N, want)
		}
		if len(s.Counts) > 0 && (len(s.Edges) != len(s.Counts)+1 || len(s.Counts) < 5) || len(s.Counts) > 20 {
			t.Fatalf("%d edges for %d bins", len(s.Edges), len(s.Counts))
		}
	})
}

// Asking for a bin shows the bakes that it counts, those on its edges and slips of the pen, too.
func TestBinHoldsWhatItCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, f := drawRows(t), drawFilter(t)
		figure := rapid.SampledFrom([]shelf.Metric{shelf.Hydration, shelf.Score}).Draw(t, "figure")
		for i := range rapid.IntRange(0, 400).Draw(t, "more") {
			rows = append(rows, shelf.Row{ID: fmt.Sprint("more", i), Figures: []shelf.Value{{Figure: figure, Value: float64(1 + i%9)}}})
		}
		all := shelf.New(rows)
		s := all.Filter(f).Spread(figure)
		for i, n := range s.Counts {
			g := f
			g.SetRange(s.Bin(figure, i))
			if got := all.Filter(g).Len(); float64(got) != n {
				t.Fatalf("bin %d of %v counts %v, and %+v lets through %d", i, s.Edges, n, s.Bin(figure, i), got)
			}
		}
	})
}

func TestOrder(t *testing.T) {
	at := func(day int) time.Time { return time.Date(2026, 3, day, 8, 0, 0, 0, time.UTC) }
	score := func(v float64) []shelf.Value { return []shelf.Value{{Figure: shelf.Score, Value: v}} }
	s := shelf.New([]shelf.Row{
		{ID: "a", At: at(4), Figures: score(6)},
		{ID: "b", At: at(3)},
		{ID: "c", At: at(2), Figures: score(8)},
		{ID: "d", At: at(1), Figures: score(6)},
		{ID: "e", At: at(1), Figures: score(math.NaN())},
	})
	for _, tt := range []struct {
		name  string
		order shelf.Order
		want  string
	}{
		{"newest first, equal times by ID", shelf.Order{}, "abced"},
		{"oldest first", shelf.Order{Upwards: true}, "decba"},
		{"best first, ties newest first, unscored last", shelf.Order{By: shelf.Score}, "cadbe"},
		{"worst first, unscored still last", shelf.Order{By: shelf.Score, Upwards: true}, "adcbe"},
		{"a figure nobody has", shelf.Order{By: "none"}, "abced"},
	} {
		got := ""
		for _, i := range s.Filter(shelf.Filter{}).Rows(tt.order) {
			got += s.Row(i).ID
		}
		if got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

func TestGrouped(t *testing.T) {
	jan := time.Date(2026, 1, 9, 8, 0, 0, 0, time.UTC)
	s := shelf.New([]shelf.Row{
		{ID: "a", At: jan.AddDate(0, 2, 0), Flours: []shelf.Share{{Flour: "white", Percent: 80}, {Flour: "rye", Percent: 20}}, Culture: "h"},
		{ID: "b", At: jan, Flours: []shelf.Share{{Flour: "white", Percent: 100}}, Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 70}}},
		{ID: "c", At: jan.AddDate(0, -1, 0), Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 69.9}, {Figure: shelf.Score, Value: 7}}},
	})
	all := s.Filter(shelf.Filter{}).Rows(shelf.Order{})
	for _, tt := range []struct {
		by   shelf.Grouping
		want string
	}{
		{shelf.ByFlour, "white:ab rye:a :c"},
		{shelf.ByCulture, "h:a :bc"},
		{shelf.ByMonth, "2026-03:a 2026-01:b 2025-12:c"},
		{shelf.BySeason, "2026-03:a 2025-12:bc"},
		{shelf.ByHydrationBand, "070:b 065:c :a"},
		{shelf.ByScore, "7:c :ab"},
	} {
		var got []string
		for _, g := range s.Grouped(all, tt.by) {
			ids := ""
			for _, i := range g.Rows {
				ids += s.Row(i).ID
			}
			got = append(got, g.Key+":"+ids)
		}
		if strings.Join(got, " ") != tt.want {
			t.Errorf("by %s: %q, want %q", tt.by, strings.Join(got, " "), tt.want)
		}
	}
}

// A filter kept under a name comes back as it was.
func TestFilterSurvivesBeingKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFilter(t)
		b, err := json.Marshal(f)
		if err != nil {
			t.Fatal(err)
		}
		var back shelf.Filter
		if err := json.Unmarshal(b, &back); err != nil {
			t.Fatal(err)
		}
		f.Ranges, f.Flours = nonNil(f.Ranges), nonNil(f.Flours)
		back.Ranges, back.Flours = nonNil(back.Ranges), nonNil(back.Flours)
		if !reflect.DeepEqual(f, back) {
			t.Fatalf("kept %+v, came back %+v", f, back)
		}
	})
}

func nonNil[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}

// A slip of the pen is in the bar at the end, and asking for that bar shows it.
func TestTheBarsAtTheEndsHoldSlipsOfThePen(t *testing.T) {
	var rows []shelf.Row
	for i := range 400 {
		v := float64(62 + i%20)
		switch i {
		case 0:
			v = 7
		case 1:
			v = 780
		}
		rows = append(rows, shelf.Row{ID: fmt.Sprint(i), Figures: []shelf.Value{{Figure: shelf.Hydration, Value: v}}})
	}
	all := shelf.New(rows)
	s := all.Filter(shelf.Filter{}).Spread(shelf.Hydration)
	if s.Edges[0] < 50 || s.Edges[len(s.Edges)-1] > 100 {
		t.Fatalf("the bars stand from %v to %v", s.Edges[0], s.Edges[len(s.Edges)-1])
	}
	for i, n := range s.Counts {
		var f shelf.Filter
		f.SetRange(s.Bin(shelf.Hydration, i))
		if got := all.Filter(f).Len(); float64(got) != n {
			t.Errorf("bar %d counts %v and opens on %d", i, n, got)
		}
	}
}
