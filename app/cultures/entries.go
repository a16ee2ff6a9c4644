package cultures

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// An entry is one thing that was recorded of a culture: in a sentence, and as a row of a
// table, in which the figures have columns of their own.
type entry struct {
	at      time.Time
	ref     journal.Ref
	sort    entrySort
	day     string // the day by its name
	clock   string
	words   string // all of it
	what    string // it is, in a row
	figures entryFigures
	said    string // besides, in a row
	weights string // of a feeding, where they have no columns
	alarm   bool   // mould or a tint
}

// entrySort is what the list of everything can be narrowed to.
type entrySort int

const (
	fedEntry entrySort = iota
	takenEntry
	readEntry
	movedEntry
	loggedEntry
	entrySorts
)

// entriesOf lists what was recorded of a culture, the latest first.
func entriesOf(l *histories.CultureHistory, now time.Time, u measure.Units) []entry {
	var out []entry
	for _, f := range l.Feedings {
		out = append(out, feedingEntry(f, u))
	}
	var mark *journal.Feeding // that the readings are read against
	next := 0
	for _, r := range l.Readings {
		for ; next < len(l.Feedings) && !l.Feedings[next].At.After(r.At); next++ {
			if !histories.Taking(l.Feedings[next]) {
				mark = l.Feedings[next]
			}
		}
		out = append(out, entry{at: r.At, ref: journal.RefOf(r), sort: readEntry, words: readingWords(r, mark, u), alarm: r.Mould || r.Tint,
			what: lang.L("Reading"), figures: figuresOfReading(r, mark, u), said: readingSaid(r, mark, u)})
	}
	for _, m := range l.Moves {
		e := entry{at: m.At, ref: journal.RefOf(m), sort: movedEntry, words: moveWords(m, u), what: placeWords(m), said: withNote("", m.Note)}
		e.figures[warmthFigure] = warmth(m.Temp, u)
		out = append(out, e)
	}
	for _, t := range l.Logs {
		values := map[string]any{"Name": t.Name, "N": t.Count, "To": u.Moment(t.To, now)}
		out = append(out, entry{at: t.From, ref: journal.RefOf(t), sort: loggedEntry, words: lang.N("Temperature log {{.Name}}: {{.N}} rows until {{.To}}.", t.Count, values),
			what: lang.L("Temperature log"), said: lang.N("{{.Name}}: {{.N}} rows until {{.To}}", t.Count, values)})
	}
	sortByTime(out, func(e entry) time.Time { return e.at })
	slices.Reverse(out)
	for i := range out {
		at := out[i].at.In(now.Location())
		out[i].day, out[i].clock = u.Locale().Weekday(at)+" "+u.Day(at, now), u.Clock(at)
	}
	return out
}

// feedingEntry is a feeding, a taking or a mixing.
func feedingEntry(f *journal.Feeding, u measure.Units) entry {
	form := formOf(f)
	e := entry{at: f.At, ref: journal.RefOf(f), words: feedingWords(f, u), figures: figuresOfFeeding(f, u),
		said: withNote(strings.Join(usedWords(form, u), " · "), f.Note)}
	switch {
	case !histories.Taking(f) && f.Kept <= 0:
		e.what = lang.L("Mixed")
		e.weights = lang.L("{{.Flour}} flour, {{.Water}} water", map[string]any{"Flour": grams(u, form.flour), "Water": grams(u, form.water)})
	case !histories.Taking(f):
		e.what = lang.L("Fed {{.Ratio}}", map[string]any{"Ratio": form.ratio(u)})
		e.weights = lang.L("{{.Kept}} kept, {{.Flour}} flour, {{.Water}} water", map[string]any{
			"Kept": grams(u, form.kept), "Flour": grams(u, form.flour), "Water": grams(u, form.water)})
	case form.takenOff() <= 0:
		e.sort, e.what = takenEntry, lang.L("Put back from a levain")
	default:
		e.sort, e.what = takenEntry, lang.L("{{.G}} taken out", map[string]any{"G": grams(u, form.takenOff())})
	}
	return e
}

// usedWords say what was done with what left the jar.
func usedWords(form feedForm, u measure.Units) []string {
	var parts []string
	if form.baked > 0 {
		parts = append(parts, lang.L("{{.G}} baked with", map[string]any{"G": grams(u, form.baked)}))
	}
	if form.given > 0 {
		parts = append(parts, lang.L("{{.G}} given away", map[string]any{"G": grams(u, form.given)}))
	}
	return parts
}

// feedingWords say a feeding in one line.
func feedingWords(f *journal.Feeding, u measure.Units) string {
	form := formOf(f)
	var parts []string
	switch {
	case histories.Taking(f):
		if form.takenOff() <= 0 {
			parts = append(parts, lang.L("Put back from a levain: {{.Left}} in the jar", map[string]any{"Left": grams(u, form.kept)}))
			break
		}
		if f.Kept <= 0 { // nothing, or nobody knows how much
			parts = append(parts, lang.L("{{.G}} taken out", map[string]any{"G": grams(u, form.takenOff())}))
			break
		}
		parts = append(parts, lang.L("Taken out: {{.Taken}}, {{.Left}} left", map[string]any{"Taken": grams(u, form.takenOff()), "Left": grams(u, form.kept)}))
	case f.Kept <= 0:
		parts = append(parts, lang.L("Mixed: {{.Flour}} flour, {{.Water}} water", map[string]any{"Flour": grams(u, form.flour), "Water": grams(u, form.water)}))
	default:
		parts = append(parts, lang.L("Fed {{.Ratio}}: kept {{.Kept}}, {{.Flour}} flour, {{.Water}} water", map[string]any{
			"Ratio": form.ratio(u), "Kept": grams(u, form.kept), "Flour": grams(u, form.flour), "Water": grams(u, form.water)}))
	}
	parts = append(parts, usedWords(form, u)...)
	if f.RoomC != nil {
		parts = append(parts, u.Celsius(*f.RoomC))
	}
	return withNote(strings.Join(parts, " · "), f.Note)
}

// readingWords say a reading in one line.
func readingWords(r *journal.Reading, f *journal.Feeding, u measure.Units) string {
	parts := alarmWords(r)
	if rise, ok := histories.Rise(r, f); ok {
		parts = append(parts, u.Times().Write(rise))
	} else if r.HeightMM != nil {
		parts = append(parts, millimetres(u).Write(*r.HeightMM))
	}
	parts = append(parts, signWords(r)...)
	if r.Temp != nil {
		parts = append(parts, u.Celsius(*r.Temp))
	}
	if r.PH != nil {
		parts = append(parts, "pH "+u.FormatNumber(*r.PH, 2))
	}
	parts = append(parts, titrated(r, u)...)
	if len(parts) == 0 && r.Note == "" {
		parts = append(parts, lang.L("A look at the jar"))
	}
	return withNote(strings.Join(parts, " · "), r.Note)
}

// readingSaid is what a reading says besides its figures.
func readingSaid(r *journal.Reading, f *journal.Feeding, u measure.Units) string {
	parts := alarmWords(r)
	if _, ok := histories.Rise(r, f); !ok && r.HeightMM != nil {
		parts = append(parts, millimetres(u).Write(*r.HeightMM))
	}
	parts = append(parts, signWords(r)...)
	return withNote(strings.Join(append(parts, titrated(r, u)...), " · "), r.Note)
}

func alarmWords(r *journal.Reading) []string {
	var parts []string
	if r.Mould {
		parts = append(parts, lang.L("Mould"))
	}
	if r.Tint {
		parts = append(parts, lang.L("Pink or orange"))
	}
	return parts
}

// signWords say what was seen and smelt.
func signWords(r *journal.Reading) []string {
	var parts []string
	if w := trendWord(ferment.Trend(r.Trend)); w != "" {
		parts = append(parts, w)
	}
	if s := smellsText(r.Smells); s != "" {
		parts = append(parts, s)
	}
	if r.Bubbles != nil {
		parts = append(parts, lang.L("bubbles: {{.Word}}", map[string]any{"Word": bubbleWords()[min(max(*r.Bubbles, 0), 4)]}))
	}
	if r.Liquid {
		parts = append(parts, lang.L("liquid on top"))
	}
	return parts
}

func titrated(r *journal.Reading, u measure.Units) []string {
	if r.TTA == nil {
		return nil
	}
	return []string{lang.L("{{.ML}} ml titrated", map[string]any{"ML": u.FormatNumber(*r.TTA, 1)})}
}

// moveWords say a move in one line.
func moveWords(m *journal.Move, u measure.Units) string {
	s := placeWords(m)
	if m.Temp != nil {
		s += " · " + u.Celsius(*m.Temp)
	}
	return withNote(s, m.Note)
}

// placeWords say where a jar was moved to.
func placeWords(m *journal.Move) string {
	switch m.To {
	case journal.Refrigerator:
		return lang.L("Into the refrigerator")
	case journal.WarmSpot:
		return lang.L("To a warm spot")
	}
	return lang.L("Out on the counter")
}

func withNote(s, note string) string {
	if note = strings.TrimSpace(note); note == "" {
		return s
	}
	if s == "" {
		return note
	}
	return s + " · " + note
}
