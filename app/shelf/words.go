package shelf

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/stats"
)

// mostSaid is how many parts of a filter the heading says; the pills say them all.
const mostSaid = 3

// wording says filters in words.
type wording struct {
	record *past.BakeIndex
	units  measure.Units
	now    time.Time
}

// heading says what is on the shelf, through a filter.
func (s wording) heading(f shelf.Filter, seen, all int) string {
	how := s.phrases(f)
	switch {
	case len(how) == 0 && all == 1:
		return lang.L("One bake on the shelf")
	case len(how) == 0:
		return lang.L("{{.N}} bakes on the shelf", map[string]any{"N": s.count(all)})
	}
	said := strings.Join(how[:min(len(how), mostSaid)], ", ")
	if seen == 0 {
		return lang.L("No bake {{.How}}", map[string]any{"How": said})
	}
	return lang.L("Bakes {{.How}}", map[string]any{"How": said})
}

func (s wording) count(n int) string { return s.units.FormatNumber(float64(n), 0) }

// phrases are the parts of a filter as they stand after "bakes".
func (s wording) phrases(f shelf.Filter) []string {
	var out []string
	say := func(words string) { out = append(out, words) }
	if len(f.Flours) > 0 {
		var flours []string
		for _, p := range f.Flours {
			flours = append(flours, s.flourPhrase(p))
		}
		say(lang.L("with {{.What}}", what(s.and(flours))))
	}
	if len(f.AddIns) > 0 {
		say(lang.L("with {{.What}} in it", what(s.and(f.AddIns))))
	}
	if len(f.Cultures) > 0 {
		say(lang.L("leavened with {{.What}}", what(s.or(s.named(f.Cultures, s.record.Cultures)))))
	}
	for _, r := range f.Ranges {
		say(lang.L("of {{.What}}", what(s.rangeWords(r))))
	}
	if len(f.Seasons) > 0 {
		say(lang.L("baked in {{.What}}", what(s.or(seasonWords(f.Seasons)))))
	}
	if !f.From.IsZero() || !f.To.IsZero() {
		say(lang.L("baked {{.What}}", what(s.timeWords(f.From, f.To))))
	}
	if slices.Contains(f.Trials, shelf.AnyTrial) {
		say(lang.L("from a trial"))
	} else if len(f.Trials) > 0 {
		say(lang.L("from the trial {{.What}}", what(s.or(s.named(f.Trials, s.record.Trials)))))
	}
	if w := photoWords(f.Photos); w != "" {
		say(w)
	}
	if f.Text != "" {
		say(lang.L("whose name, ingredients or notes say “{{.What}}”", what(strings.Join(strings.Fields(f.Text), " "))))
	}
	return out
}

// A pill is one part of a filter in plain words, and how it is taken off.
type pill struct {
	words string
	off   func(*shelf.Filter)
}

func (s wording) pills(f shelf.Filter) []pill {
	var out []pill
	add := func(words string, off func(*shelf.Filter)) { out = append(out, pill{words, off}) }
	for _, p := range f.Flours {
		add(s.flourPhrase(p), func(f *shelf.Filter) { f.DropFlour(p.Flour) })
	}
	for _, a := range f.AddIns {
		add(a, func(f *shelf.Filter) { f.AddIns = shelf.Toggled(f.AddIns, a) })
	}
	if len(f.Cultures) > 0 {
		add(lang.L("culture {{.What}}", what(s.or(s.named(f.Cultures, s.record.Cultures)))), func(f *shelf.Filter) { f.Cultures = nil })
	}
	for _, r := range f.Ranges {
		add(s.rangeWords(r), func(f *shelf.Filter) { f.SetRange(shelf.Range{Figure: r.Figure}) })
	}
	if len(f.Seasons) > 0 {
		add(s.or(seasonWords(f.Seasons)), func(f *shelf.Filter) { f.Seasons = nil })
	}
	if !f.From.IsZero() || !f.To.IsZero() {
		add(s.timeWords(f.From, f.To), func(f *shelf.Filter) { f.From, f.To = time.Time{}, time.Time{} })
	}
	if len(f.Trials) > 0 {
		words := lang.L("of a trial")
		if !slices.Contains(f.Trials, shelf.AnyTrial) {
			words = lang.L("trial {{.What}}", what(s.or(s.named(f.Trials, s.record.Trials))))
		}
		add(words, func(f *shelf.Filter) { f.Trials = nil })
	}
	if w := photoWords(f.Photos); w != "" {
		add(w, func(f *shelf.Filter) { f.Photos = shelf.AnyPhotos })
	}
	if f.Text != "" {
		add(lang.L("“{{.Label}}”", map[string]any{"Label": f.Text}), func(f *shelf.Filter) { f.Text = "" })
	}
	return out
}

func (s wording) flourName(key string) string {
	if name := s.record.Flours[key]; name != "" {
		return past.InSentence(name)
	}
	return key
}

func (s wording) flourPhrase(p shelf.FlourPart) string {
	data := map[string]any{"Flour": s.flourName(p.Flour)}
	share := func(v *float64) string { return s.units.Percent(1).Write(*v) }
	switch {
	case p.AtLeast != nil && p.AtMost != nil:
		data["A"], data["B"] = share(p.AtLeast), share(p.AtMost)
		return lang.L("{{.Flour}}, {{.A}} to {{.B}}", data)
	case p.AtLeast != nil:
		data["A"] = share(p.AtLeast)
		return lang.L("{{.Flour}}, at least {{.A}}", data)
	case p.AtMost != nil:
		data["B"] = share(p.AtMost)
		return lang.L("{{.Flour}}, at most {{.B}}", data)
	}
	return s.flourName(p.Flour)
}

func (s wording) rangeWords(r shelf.Range) string {
	d := s.record.Describe(r.Figure, s.units)
	data := map[string]any{"Figure": d.Name}
	switch {
	case r.AtLeast != nil && r.AtMost != nil && *r.AtLeast == *r.AtMost:
		data["A"] = d.Write(*r.AtLeast)
		return lang.L("{{.Figure}} {{.A}}", data)
	case r.AtLeast != nil && r.AtMost != nil:
		data["A"], data["B"] = d.Measure.Format(*r.AtLeast), d.Write(*r.AtMost)
		if r.Below {
			return lang.L("{{.Figure}} {{.A}} to below {{.B}}", data)
		}
		return lang.L("{{.Figure}} {{.A}} to {{.B}}", data)
	case r.AtLeast != nil:
		data["A"] = d.Write(*r.AtLeast)
		return lang.L("{{.Figure}} of at least {{.A}}", data)
	case r.AtMost != nil:
		data["B"] = d.Write(*r.AtMost)
		if r.Below {
			return lang.L("{{.Figure}} of less than {{.B}}", data)
		}
		return lang.L("{{.Figure}} of at most {{.B}}", data)
	}
	return d.Name
}

// timeWords says a stretch of days; to is the day after the last.
func (s wording) timeWords(from, to time.Time) string {
	last := to.AddDate(0, 0, -1)
	data := map[string]any{"From": s.units.Day(from, s.now), "To": s.units.Day(last, s.now), "Month": monthWords(from)}
	switch {
	case to.IsZero():
		return lang.L("since {{.From}}", data)
	case from.IsZero():
		return lang.L("until {{.To}}", data)
	case from.YearDay() == 1 && from.AddDate(1, 0, 0).Equal(to):
		data["Year"] = strconv.Itoa(from.Year())
		return lang.L("in {{.Year}}", data)
	case from.Day() == 1 && from.AddDate(0, 1, 0).Equal(to):
		return lang.L("in {{.Month}}", data)
	case !last.After(from):
		return lang.L("on {{.From}}", data)
	}
	return lang.L("from {{.From}} to {{.To}}", data)
}

// monthWords names a month with its year: "March 2026".
func monthWords(t time.Time) string {
	return lang.L(t.Month().String()) + " " + strconv.Itoa(t.Year())
}

func photoWords(p shelf.Photos) string {
	switch p {
	case shelf.WithPhoto:
		return lang.L("with photos")
	case shelf.WithCrumb:
		return lang.L("with a photo of the crumb")
	case shelf.NoPhoto:
		return lang.L("without photos")
	}
	return ""
}

func seasonWords(seasons []shelf.Season) []string {
	var out []string
	for _, q := range shelf.Seasons() {
		if slices.Contains(seasons, q) {
			out = append(out, pages.SeasonWord(q))
		}
	}
	return out
}

// named gives the names of keys; what has none any more is called gone.
func (s wording) named(keys []string, names map[string]string) []string {
	var out []string
	for _, k := range keys {
		name := cmp.Or(names[k], lang.L("one that is gone"))
		out = append(out, name)
	}
	return out
}

// what names the one thing that a template speaks of.
func what(words string) map[string]any { return map[string]any{"What": words} }

func (s wording) and(list []string) string {
	return joined(list, func(ab map[string]any) string { return lang.L("{{.A}} and {{.B}}", ab) })
}

func (s wording) or(list []string) string {
	return joined(list, func(ab map[string]any) string { return lang.L("{{.A}} or {{.B}}", ab) })
}

func joined(list []string, last func(map[string]any) string) string {
	switch n := len(list); n {
	case 0:
		return ""
	case 1:
		return list[0]
	default:
		return last(map[string]any{"A": strings.Join(list[:n-1], ", "), "B": list[n-1]})
	}
}

func groupingWord(g shelf.Grouping) string {
	switch g {
	case shelf.ByFlour:
		return lang.L("by flour")
	case shelf.ByCulture:
		return lang.L("by culture")
	case shelf.ByMonth:
		return lang.L("by month")
	case shelf.BySeason:
		return lang.L("by season")
	case shelf.ByTrial:
		return lang.L("by trial")
	case shelf.ByHydrationBand:
		return lang.L("by hydration")
	case shelf.ByScore:
		return lang.L("by score")
	}
	return lang.L("don't group")
}

// orderWords says which end of an order comes first. What it goes by stands beside it.
func orderWords(o shelf.Order) string {
	down, up := endWords(o.By)
	if o.Upwards {
		return up
	}
	return down
}

// endWords names the two ends of a figure as a baker would: cold rests are long, doughs
// warm.
func endWords(by shelf.Metric) (down, up string) {
	switch by {
	case "":
		return lang.L("newest first"), lang.L("oldest first")
	case shelf.ColdHours, shelf.BulkHours, shelf.ProofHours:
		return lang.L("longest first"), lang.L("shortest first")
	case shelf.CultureAge:
		return lang.L("oldest culture first"), lang.L("youngest culture first")
	case shelf.DoughTemp, shelf.RoomTemp, shelf.InsideTemp:
		return lang.L("warmest first"), lang.L("coolest first")
	case shelf.DoughWeight:
		return lang.L("heaviest first"), lang.L("lightest first")
	case shelf.Height:
		return lang.L("tallest first"), lang.L("flattest first")
	}
	if _, share := by.Flour(); share || by == shelf.Wholegrain || by == shelf.Prefermented {
		return lang.L("most of it first"), lang.L("least of it first")
	}
	return lang.L("highest first"), lang.L("lowest first")
}

// medianScore is the median of the overall scores of some rows, and of how many.
func (s wording) medianScore(rows []int) (median float64, n int) {
	return s.median(rows, shelf.Score)
}

// median is that of a figure over the rows that have it; n is how many do.
func (s wording) median(rows []int, f shelf.Metric) (median float64, n int) {
	var seen []float64
	for _, row := range rows {
		if v := s.record.Metric(row, f); v == v {
			seen = append(seen, v)
		}
	}
	median, err := stats.Median(seen)
	if err != nil {
		return 0, 0 // nobody has it
	}
	return median, len(seen)
}
