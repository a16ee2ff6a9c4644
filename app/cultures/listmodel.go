package cultures

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// A row is one culture in the list.
type row struct {
	id       journal.ID
	name     string
	age      string // "day 12"
	state    string // "Nearly there"
	danger   bool
	fed      string // when and how it was fed last, and how high it stands
	next     string // "Feed by 18:40", and what is expected
	late     bool
	by       time.Time // when it is to be fed; zero where that is not known
	clock    string    // the same, as it stands large
	peak     string    // when it is expected to stand highest, or that it is ripe
	ripe     [2]time.Time
	about    string // flours, home, family
	thumb    string // hash of the latest photo
	look     charts.SeriesStyle
	course   *courseCurve // nil without a forecast
	feedings [][]string   // the last of them, as rows of a table
	ended    bool
}

// rowOf turns a portrait into a row of the list.
func rowOf(p *portrait, u measure.Units) row {
	l := leadOf(p, u)
	c := p.life.Culture
	r := row{
		id: c.ID, name: nameOf(c), age: ageWords(p.life, p.now), state: l.State, danger: l.Danger, fed: fedWords(p, u),
		about: eyebrowOf(p, u), look: pages.LookOf(c), ended: !c.Ended.IsZero(),
	}
	if r.ended {
		r.state = ""
	} else {
		r.feedings = recentFeedings(p, u)
	}
	if n := len(p.photos); n > 0 {
		r.thumb = p.photos[n-1].photo.Hash
	}
	r.next, _, r.late = dueWords(p.due, p.hasDue, p.now, u)
	if p.unknown == nil && !l.Danger && !r.ended {
		r.course, r.ripe = curveOf(p), [2]time.Time{p.forecast.RipeFrom.Mid, p.forecast.RipeTo.Mid}
		if p.forecast.Peak.Mid.After(p.now) {
			r.peak = lang.L("peak about {{.When}}", map[string]any{"When": clockAt(p.forecast.Peak.Mid, p.now, u)})
		} else if p.forecast.RipeTo.Mid.After(p.now) {
			r.peak = lang.L("ripe now")
		}
	}
	if p.hasDue && p.due.Reason != ferment.DueNever {
		r.by, r.clock = p.due.By, clockAt(p.due.By, p.now, u)
	}
	return r
}

// fedWords say when and how a culture was fed last, and what was read of it since.
func fedWords(p *portrait, u measure.Units) string {
	last := lastFeeding(p.life, p.now)
	if last == nil {
		return ""
	}
	words := lang.L("fed {{.When}}", map[string]any{"When": clockAt(last.At, p.now, u)})
	if last.Kept > 0 {
		words += ", " + formOf(last).ratio(u)
	}
	for _, r := range slices.Backward(p.life.Readings) {
		if r.At.Before(last.At) {
			break
		}
		if rise, ok := histories.Rise(r, last); ok && !r.At.After(p.now) {
			return words + " · " + lang.L("{{.Rise}} at {{.When}}", map[string]any{"Rise": u.Times().Write(rise), "When": clockAt(r.At, p.now, u)})
		}
	}
	return words
}

// A listing is every culture as the list shows them.
type listing struct {
	rows []row
	// weeks are the last four weeks of all that are alive, on one clock.
	weeks picture
	now   time.Time
}

// listingOf paints every culture for the list.
func listingOf(j journal.Source, kept *histories.Cache, u measure.Units) (*listing, error) {
	all, err := kept.All(j)
	if err != nil {
		return nil, err
	}
	out := &listing{now: j.Now()}
	var living []*portrait
	for _, r := range familyOrder(all) {
		p := sketch(r.life, out.now)
		if p.photos, err = photosOf(j, r.life); err != nil {
			return nil, err
		}
		if r.life.Culture.Parent != "" {
			p.parent, _ = journal.Get[journal.Culture](j, r.life.Culture.Parent) // one that is gone is not named
		}
		out.rows = append(out.rows, rowOf(p, u))
		if r.life.Culture.Ended.IsZero() {
			living = append(living, p)
		}
	}
	out.weeks = fourWeeks(living, out.now, u)
	return out, nil
}

// listHeading says in words how things stand with all cultures.
func listHeading(rows []row, now time.Time, u measure.Units) string {
	late, living, danger := []string{}, 0, []string{}
	for _, r := range rows {
		if r.ended {
			continue
		}
		living++
		if r.danger {
			danger = append(danger, r.name)
		} else if r.late {
			late = append(late, r.name)
		}
	}
	data := map[string]any{"Names": strings.Join(late, ", ")}
	switch {
	case len(danger) > 0:
		data["Names"] = strings.Join(danger, ", ")
		return lang.L("Check {{.Names}} first", data)
	case len(rows) == 0:
		return lang.L("No culture yet")
	case living == 0:
		return lang.L("No living culture")
	case len(late) > 0:
		return lang.L("Hungry: {{.Names}}", data)
	}
	if first := ripensFirst(rows, now); first != nil {
		data["Name"], data["When"] = first.name, clockAt(first.ripe[0], now, u)
		switch {
		case !first.ripe[0].After(now):
			return lang.L("{{.Name}} is ripe now", data)
		case living == 1:
			return lang.L("{{.Name}} ripens from {{.When}}", data)
		}
		return lang.L("{{.Name}} ripens first, from {{.When}}", data)
	}
	if living == 1 {
		return lang.L("No feeding due")
	}
	return lang.L("No feedings due")
}

// ripensFirst is the culture that is expected to be ripe next, or is already; nil if that
// is expected of none.
func ripensFirst(rows []row, now time.Time) *row {
	var first *row
	for i, r := range rows {
		if r.course != nil && r.ripe[1].After(now) && (first == nil || r.ripe[0].Before(first.ripe[0])) {
			first = &rows[i]
		}
	}
	return first
}

// A relative is a culture in its place in the family: children follow their parent.
type relative struct {
	life  *histories.CultureHistory
	depth int // 0 for one that was split from none that is still here
}

// familyOrder puts cultures in the order of the list: the living before the ended,
// each followed by those that were split from it.
func familyOrder(all []*histories.CultureHistory) []relative {
	here := map[journal.ID]bool{}
	for _, l := range all {
		here[l.Culture.ID] = true
	}
	var out []relative
	seen := map[journal.ID]bool{}
	var add func(l *histories.CultureHistory, depth int)
	add = func(l *histories.CultureHistory, depth int) {
		if seen[l.Culture.ID] { // a ring of parents cannot be, but would never end
			return
		}
		seen[l.Culture.ID] = true
		out = append(out, relative{l, depth})
		for _, child := range all {
			if child.Culture.Parent == l.Culture.ID {
				add(child, depth+1)
			}
		}
	}
	for _, ended := range []bool{false, true} {
		for _, l := range all {
			root := l.Culture.Parent == "" || !here[l.Culture.Parent]
			if root && l.Culture.Ended.IsZero() != ended {
				add(l, 0)
			}
		}
	}
	for _, l := range all { // what is left lies on a ring
		add(l, 0)
	}
	return out
}
