package cultures

import (
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// A row is one culture in the list.
type row struct {
	id     journal.ID
	name   string // "Gorse, day 12"
	state  string // "nearly there"
	danger bool
	next   string // "Feed by 18:40", and what is expected
	late   bool
	by     time.Time // when it is to be fed; zero where that is not known
	about  string    // flours, home, family
	peaks  []float64
	wanted float64
	thumb  string // hash of the latest photo
	look   int    // of the series colours
	depth  int
	ended  bool
}

// rowOf turns a portrait into a row of the list.
func rowOf(p *portrait, depth int, u kit.Units) row {
	l := leadOf(p, u)
	c := p.life.Culture
	r := row{
		id: c.ID, name: headingOf(p.life, p.now), state: l.State, danger: l.Danger,
		about: eyebrowOf(p, u), wanted: float64(p.life.Thresholds().Rise), look: max(0, c.Colour-1), depth: depth, ended: !c.Ended.IsZero(),
	}
	if r.ended {
		r.state = ""
	}
	for _, k := range p.life.Peaks(p.now) {
		if !p.climbing(k) {
			r.peaks = append(r.peaks, k.Rise)
		}
	}
	if n := len(p.photos); n > 0 {
		r.thumb = p.photos[n-1].photo.Hash
	}
	what, _, late := dueWords(p.due, p.hasDue, p.now, u)
	var parts []string
	if what != "" {
		parts = append(parts, what)
	}
	if p.unknown == nil && p.hasDue && !l.Danger {
		if p.forecast.Peak.Mid.After(p.now) {
			parts = append(parts, lang.L("peak about {{.When}}", map[string]any{"When": clockAt(p.forecast.Peak.Mid, p.now, u)}))
		} else if p.forecast.RipeTo.Mid.After(p.now) {
			parts = append(parts, lang.L("ripe now"))
		}
	}
	r.next, r.late = strings.Join(parts, " · "), late
	if p.hasDue {
		r.by = p.due.By
	}
	return r
}

// rowsOf paints every culture for the list.
func rowsOf(j journal.Source, u kit.Units) ([]row, error) {
	all, err := histories.All(j)
	if err != nil {
		return nil, err
	}
	now := j.Now()
	var out []row
	for _, r := range familyOrder(all) {
		p := sketch(r.life, now)
		if p.photos, err = photosOf(j, r.life); err != nil {
			return nil, err
		}
		if r.life.Culture.Parent != "" {
			p.parent, _ = journal.Get[journal.Culture](j, r.life.Culture.Parent) // one that is gone is not named
		}
		out = append(out, rowOf(p, r.depth, u))
	}
	return out, nil
}

// listHeading says in words how things stand with all cultures.
func listHeading(rows []row) string {
	late, living, danger := []string{}, 0, []string{}
	for _, r := range rows {
		if r.ended {
			continue
		}
		living++
		name, _, _ := strings.Cut(r.name, ",")
		if r.danger {
			danger = append(danger, name)
		} else if r.late {
			late = append(late, name)
		}
	}
	data := map[string]any{"Names": strings.Join(late, ", ")}
	switch {
	case len(danger) > 0:
		data["Names"] = strings.Join(danger, ", ")
		return lang.L("Check {{.Names}} first", data)
	case living == 0:
		return lang.L("No culture yet")
	case len(late) > 0:
		return lang.L("Hungry: {{.Names}}", data)
	case living == 1:
		return lang.L("No feeding due")
	}
	return lang.L("No feedings due")
}
