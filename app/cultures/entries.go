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

// An entry is one thing that was recorded of a culture.
type entry struct {
	at    time.Time
	ref   journal.Ref
	words string
	alarm bool // mould or a tint
}

// entriesOf lists what was recorded of a culture, the latest first.
func entriesOf(l *histories.CultureHistory, now time.Time, u measure.Units) []entry {
	var out []entry
	for _, f := range l.Feedings {
		out = append(out, entry{at: f.At, ref: journal.RefOf(f), words: feedingWords(f, u)})
	}
	var mark *journal.Feeding // that the readings are read against
	next := 0
	for _, r := range l.Readings {
		for ; next < len(l.Feedings) && !l.Feedings[next].At.After(r.At); next++ {
			if !histories.Taking(l.Feedings[next]) {
				mark = l.Feedings[next]
			}
		}
		out = append(out, entry{at: r.At, ref: journal.RefOf(r), words: readingWords(r, mark, u), alarm: r.Mould || r.Tint})
	}
	for _, m := range l.Moves {
		out = append(out, entry{at: m.At, ref: journal.RefOf(m), words: moveWords(m, u)})
	}
	for _, t := range l.Logs {
		out = append(out, entry{at: t.From, ref: journal.RefOf(t), words: lang.L("Temperature log {{.Name}}: {{.N}} rows until {{.To}}.", map[string]any{
			"Name": t.Name, "N": t.Count, "To": u.Moment(t.To, now)})})
	}
	sortByTime(out, func(e entry) time.Time { return e.at })
	slices.Reverse(out)
	return out
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
		parts = append(parts, lang.L("Taken out: {{.Taken}}, {{.Left}} left", map[string]any{"Taken": grams(u, form.takenOff()), "Left": grams(u, form.kept)}))
	case f.Kept <= 0:
		parts = append(parts, lang.L("Mixed: {{.Flour}} flour, {{.Water}} water", map[string]any{"Flour": grams(u, form.flour), "Water": grams(u, form.water)}))
	default:
		parts = append(parts, lang.L("Fed {{.Ratio}}: kept {{.Kept}}, {{.Flour}} flour, {{.Water}} water", map[string]any{
			"Ratio": form.ratio(u), "Kept": grams(u, form.kept), "Flour": grams(u, form.flour), "Water": grams(u, form.water)}))
	}
	if form.baked > 0 {
		parts = append(parts, lang.L("{{.G}} baked with", map[string]any{"G": grams(u, form.baked)}))
	}
	if form.given > 0 {
		parts = append(parts, lang.L("{{.G}} given away", map[string]any{"G": grams(u, form.given)}))
	}
	if f.RoomC != nil {
		parts = append(parts, u.Celsius(*f.RoomC))
	}
	return withNote(strings.Join(parts, " · "), f.Note)
}

// readingWords say a reading in one line.
func readingWords(r *journal.Reading, f *journal.Feeding, u measure.Units) string {
	var parts []string
	if r.Mould {
		parts = append(parts, lang.L("Mould"))
	}
	if r.Tint {
		parts = append(parts, lang.L("Pink or orange"))
	}
	if rise, ok := histories.Rise(r, f); ok {
		parts = append(parts, times(u, rise))
	} else if r.HeightMM != nil {
		parts = append(parts, millimetres(u).Write(*r.HeightMM))
	}
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
	if r.Temp != nil {
		parts = append(parts, u.Celsius(*r.Temp))
	}
	if r.PH != nil {
		parts = append(parts, "pH "+u.FormatNumber(*r.PH, 2))
	}
	if r.TTA != nil {
		parts = append(parts, lang.L("{{.ML}} ml titrated", map[string]any{"ML": u.FormatNumber(*r.TTA, 1)}))
	}
	if len(parts) == 0 && r.Note == "" {
		parts = append(parts, lang.L("A look at the jar"))
	}
	return withNote(strings.Join(parts, " · "), r.Note)
}

// moveWords say a move in one line.
func moveWords(m *journal.Move, u measure.Units) string {
	var s string
	switch m.To {
	case journal.Refrigerator:
		s = lang.L("Into the refrigerator")
	case journal.WarmSpot:
		s = lang.L("To a warm spot")
	default:
		s = lang.L("Out on the counter")
	}
	if m.Temp != nil {
		s += " · " + u.Celsius(*m.Temp)
	}
	return withNote(s, m.Note)
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
