package shelf

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/shorthand"
)

// yearPrefix begins the More of the place of a year.
const yearPrefix = "year "

// yearRoute is the page of a year.
func yearRoute(year int) pages.Route {
	return pages.Route{Name: pages.Shelf, More: yearPrefix + strconv.Itoa(year)}
}

// yearOf reads the year of a place; false when it is not one of a year.
func yearOf(more string) (year int, ok bool) {
	digits, ok := strings.CutPrefix(more, yearPrefix)
	if !ok {
		return 0, false
	}
	year, err := strconv.Atoi(digits)
	return year, err == nil && year >= 1 && year <= 9999
}

// yearState is what was baked, fed and used in a year.
type yearState struct {
	year     int
	past     *past.BakeIndex
	byDay    [][]int // rows of the bakes of each day, from 1 January
	feedings []int   // of each day
	baked    int
	fed      int
	months   [12]monthUse
	flours   []string // keys of the flours used, the most first
	names    map[string]string
	priced   bool // some flour has a price
	currency string
	first    int // the year of the oldest record
	last     int
}

// monthUse is what one month used.
type monthUse struct {
	grams  map[string]float64 // of each flour, bread and feedings together
	total  float64
	cost   float64
	priced float64 // of the total, how many grams have a price
}

// readYear reads a year as the calendar in loc has it.
func readYear(j journal.Source, year int, loc *time.Location) (*yearState, error) {
	s := &yearState{year: year, names: map[string]string{}, first: year, last: year}
	var err error
	if s.past, err = past.Of(j); err != nil {
		return nil, err
	}
	larder, err := journal.All[journal.Flour](j)
	if err != nil {
		return nil, err
	}
	prices := map[string]*journal.Flour{}
	for _, f := range larder {
		prices[journal.FlourKey(f.Name)] = f
	}
	settings, err := j.Settings()
	if err != nil {
		return nil, err
	}
	s.currency = settings.Currency
	days := time.Date(year, 12, 31, 0, 0, 0, 0, time.UTC).YearDay()
	s.byDay, s.feedings = make([][]int, days), make([]int, days)
	for i := range s.months {
		s.months[i].grams = map[string]float64{}
	}
	for row, c := range s.past.Bakes {
		at := c.At.In(loc)
		s.reach(at.Year())
		if at.Year() != year {
			continue
		}
		s.baked++
		s.byDay[at.YearDay()-1] = append(s.byDay[at.YearDay()-1], row)
		for _, f := range c.Flours {
			s.use(at, f.Name, float64(f.Weighed), prices)
		}
	}
	if err := s.addFeedings(j, loc, prices); err != nil {
		return nil, err
	}
	s.rank()
	return s, nil
}

func (s *yearState) reach(year int) { s.first, s.last = min(s.first, year), max(s.last, year) }

// addFeedings counts the feedings and the flour in them.
func (s *yearState) addFeedings(j journal.Source, loc *time.Location, prices map[string]*journal.Flour) error {
	cultures, err := journal.All[journal.Culture](j)
	if err != nil {
		return err
	}
	for _, c := range cultures {
		feedings, err := journal.Linked[journal.Feeding](j, c.ID)
		if err != nil {
			return err
		}
		for _, f := range feedings {
			at := f.At.In(loc)
			s.reach(at.Year())
			if at.Year() != s.year || f.Flour <= 0 {
				continue
			}
			s.fed++
			s.feedings[at.YearDay()-1]++
			shares := f.Flours
			if len(shares) == 0 {
				shares = c.Flours
			}
			sum := 0.0
			for _, share := range shares {
				sum += float64(share.Share)
			}
			for _, share := range shares {
				if sum > 0 {
					s.use(at, share.Name, float64(f.Flour)*float64(share.Share)/sum, prices)
				}
			}
			if sum <= 0 {
				s.use(at, "", float64(f.Flour), prices)
			}
		}
	}
	return nil
}

// use counts flour of a name into its month.
func (s *yearState) use(at time.Time, name string, grams float64, prices map[string]*journal.Flour) {
	if grams <= 0 {
		return
	}
	key := journal.FlourKey(name)
	name = cmp.Or(name, lang.L("flour without a name"))
	s.names[key] = strings.TrimSpace(name)
	m := &s.months[at.Month()-1]
	m.grams[key] += grams
	m.total += grams
	if f := prices[key]; f != nil {
		if each, ok := f.PerGram(at); ok {
			m.cost += each * grams
			m.priced += grams
			s.priced = true
		}
	}
}

// rank lists the flours, the most used first.
func (s *yearState) rank() {
	used := map[string]float64{}
	for _, m := range s.months {
		for key, g := range m.grams {
			used[key] += g
		}
	}
	for key := range used {
		s.flours = append(s.flours, key)
	}
	slices.SortFunc(s.flours, func(a, b string) int { return cmp.Or(cmp.Compare(used[b], used[a]), strings.Compare(a, b)) })
}

// sum adds the months up, their cost as each is shown, to the hundredth.
func (s *yearState) sum() (grams, cost, priced float64) {
	for _, m := range s.months {
		grams += m.total
		cost += math.Round(100*m.cost) / 100
		priced += m.priced
	}
	return grams, cost, priced
}

// of gives the grams of one flour in a month; of all of it for the empty key when
// no flour is without a name.
func (m monthUse) of(key string, all bool) float64 {
	if all {
		return m.total
	}
	return m.grams[key]
}

// yearHeading says what a year was.
func (s wording) yearHeading(y *yearState) string {
	data := map[string]any{"Year": strconv.Itoa(y.year), "Bakes": s.count(y.baked), "Feedings": s.count(y.fed)}
	switch {
	case y.baked == 0 && y.fed == 0:
		return lang.L("Nothing is written down for {{.Year}}", data)
	case y.baked == 1:
		return lang.L("One bake in {{.Year}}", data)
	}
	return lang.L("{{.Bakes}} bakes in {{.Year}}", data)
}

// bakesByDay is the calendar of the bakes.
func (s wording) bakesByDay(y *yearState) charts.Calendar {
	counts := make([]int, len(y.byDay))
	for i, rows := range y.byDay {
		counts[i] = len(rows)
	}
	days := s.daysOf(y)
	return charts.Calendar{Year: y.year, Counts: counts[:days], Days: days, SundayFirst: s.units.MonthFirst, Describe: func(day time.Time, n int) string {
		words := s.dayWords(day)
		for _, row := range y.byDay[day.YearDay()-1] {
			words += ", " + past.Name(y.past.Bakes[row].Name)
		}
		if n == 0 {
			words += ", " + lang.L("no bread")
		}
		return words
	}}
}

// feedingsByDay is the calendar of the feedings.
func (s wording) feedingsByDay(y *yearState) charts.Calendar {
	days := s.daysOf(y)
	return charts.Calendar{Year: y.year, Counts: y.feedings[:days], Days: days, SundayFirst: s.units.MonthFirst, Describe: func(day time.Time, n int) string {
		switch n {
		case 0:
			return s.dayWords(day) + ", " + lang.L("no feeding")
		case 1:
			return s.dayWords(day) + ", " + lang.L("one feeding")
		}
		return s.dayWords(day) + ", " + lang.L("{{.N}} feedings", map[string]any{"N": n})
	}}
}

func (s wording) dayWords(day time.Time) string {
	return lang.L(day.Weekday().String()) + " " + s.units.Day(day, day)
}

// monthsOf are the months of a year that have been, and those that something is written
// down for.
func (s wording) monthsOf(y *yearState) []monthUse {
	n := len(y.months)
	for y.year >= s.now.Year() && n > 0 && y.months[n-1].total == 0 && (y.year > s.now.Year() || n > int(s.now.Month())) {
		n--
	}
	return y.months[:n]
}

// daysOf is how many days of a year have been, or reach to the last that something is
// written down for: of a day to come nobody can say that there was no bread.
func (s wording) daysOf(y *yearState) int {
	days := len(y.byDay)
	if y.year < s.now.Year() {
		return days
	}
	been := 1
	if y.year == s.now.Year() {
		been = s.now.YearDay()
	}
	for days > been && len(y.byDay[days-1]) == 0 && y.feedings[days-1] == 0 {
		days--
	}
	return days
}

// flourByMonth is how much flour each month used: of one flour, or of all.
func (s wording) flourByMonth(y *yearState, key string, all bool) charts.Bars {
	title := lang.L("Flour used, bread and feedings")
	if !all {
		title = lang.L("{{.Flour}} used", map[string]any{"Flour": y.names[key]})
	}
	scale, unit := s.bulk()
	out := charts.Bars{Title: title, Unit: unit, Format: func(v float64) string { return s.units.FormatNumber(v, 1) }}
	for i, m := range s.monthsOf(y) {
		out.Bars = append(out.Bars, charts.Bar{Name: monthShort(i), Value: m.of(key, all) / scale, Pale: m.of(key, all) == 0})
	}
	return out
}

// bulk is the unit in which flour is bought, in grams, and its name.
func (s wording) bulk() (grams float64, unit string) {
	if s.units.Ounces {
		return shorthand.GramsPerPound, lang.L("lb")
	}
	return 1000, lang.L("kg")
}

// costByMonth is what the flour of each month cost, as far as it has a price.
func (s wording) costByMonth(y *yearState) charts.Bars {
	out := charts.Bars{Title: lang.L("What the flour cost"), Format: func(v float64) string { return s.money(v, y.currency) }}
	for i, m := range s.monthsOf(y) {
		out.Bars = append(out.Bars, charts.Bar{Name: monthShort(i), Value: m.cost, Pale: m.cost == 0})
	}
	return out
}

func monthShort(i int) string { return lang.L(time.Month(i + 1).String()[:3]) }
