package cultures

import (
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// A feedForm is a feeding as it is being written down. Weights are in grams.
type feedForm struct {
	at                      time.Time
	kept, flour, water      float64
	baked, given, discarded float64
	waterC, roomC           *float64
	startMM                 *float64
	note                    string
}

// formOf fills a form from a feeding, to alter it.
func formOf(f *journal.Feeding) feedForm {
	out := feedForm{at: f.At, kept: float64(f.Kept), flour: float64(f.Flour), water: float64(f.Water), note: f.Note, startMM: f.StartMM}
	for _, t := range f.Taken {
		switch usedFor(t) {
		case journal.Baked:
			out.baked += float64(t.Grams)
		case journal.Given:
			out.given += float64(t.Grams)
		default:
			out.discarded += float64(t.Grams)
		}
	}
	if f.WaterC != nil {
		out.waterC = new(float64(*f.WaterC))
	}
	if f.RoomC != nil {
		out.roomC = new(float64(*f.RoomC))
	}
	return out
}

// likeLast is a form for the next feeding: the amounts of the last one, what is left
// over taken off. Without a last one the form is empty.
func likeLast(l *histories.CultureHistory, now time.Time) feedForm {
	out := feedForm{at: now}
	last := lastFeeding(l, now)
	if last == nil {
		return out
	}
	out.kept, out.flour, out.water = float64(last.Kept), float64(last.Flour), float64(last.Water)
	if out.kept == 0 { // after the first mix a third of it is kept (common practice)
		out.kept = roundGrams(float64(last.Flour+last.Water) / 3)
	}
	if last.RoomC != nil {
		out.roomC = new(float64(*last.RoomC))
	}
	if jar, ok := l.Jar(now); ok {
		out.discarded = max(0, roundGrams(float64(jar.Mix.Total())-out.kept))
	}
	return out
}

func roundGrams(g float64) float64 { return float64(int(g + 0.5)) }

// lastFeeding is the latest feeding until now that was none but a taking.
func lastFeeding(l *histories.CultureHistory, now time.Time) *journal.Feeding {
	for _, f := range slices.Backward(l.Feedings) {
		if !f.At.After(now) && !histories.Taking(f) {
			return f
		}
	}
	return nil
}

// write puts the form into a feeding.
func (f feedForm) write(rec *journal.Feeding) {
	rec.At, rec.Note, rec.StartMM = f.at, f.note, f.startMM
	rec.Kept, rec.Flour, rec.Water = formula.Grams(f.kept), formula.Grams(f.flour), formula.Grams(f.water)
	rec.Taken = slices.Concat(takenFor(rec.Taken, f.baked, journal.Baked), takenFor(rec.Taken, f.given, journal.Given),
		takenFor(rec.Taken, f.discarded, journal.Discarded))
	rec.WaterC, rec.RoomC = celsius(f.waterC), celsius(f.roomC)
}

// usedFor is what something left the jar for, of the three that are asked for.
func usedFor(t journal.TakenOff) string {
	if t.For == journal.Baked || t.For == journal.Given {
		return t.For
	}
	return journal.Discarded
}

// takenFor is what left the jar for something, as it was written down if its weight is the same.
// Which bake it went into is not asked here, and must not be lost.
func takenFor(was []journal.TakenOff, grams float64, why string) []journal.TakenOff {
	var same []journal.TakenOff
	off, sum := journal.TakenOff{Grams: formula.Grams(grams), For: why}, 0.0
	for _, old := range was {
		if usedFor(old) == why {
			same, sum = append(same, old), sum+float64(old.Grams)
			off.Bake, off.Rest = old.Bake, old.Rest
		}
	}
	switch {
	case sum == grams:
		return same
	case grams <= 0:
		return nil
	}
	return []journal.TakenOff{off}
}

func celsius(v *float64) *formula.Celsius {
	if v == nil {
		return nil
	}
	return new(formula.Celsius(*v))
}

// after is what stands in the jar after the feeding.
func (f feedForm) after(l *histories.CultureHistory, before ferment.State) ferment.State {
	return l.Fed(before, &journal.Feeding{Kept: formula.Grams(f.kept), Flour: formula.Grams(f.flour), Water: formula.Grams(f.water)})
}

// total is the weight after the feeding.
func (f feedForm) total() float64 { return f.kept + f.flour + f.water }

// takenOff is what leaves the jar.
func (f feedForm) takenOff() float64 { return f.baked + f.given + f.discarded }

// ratio is the feeding as the trade says it, "1:2:2"; empty if nothing is kept.
func (f feedForm) ratio(u measure.Units) string {
	if f.kept <= 0 {
		return ""
	}
	return "1:" + u.FormatNumber(f.flour/f.kept, 2) + ":" + u.FormatNumber(f.water/f.kept, 2)
}

// parseRatio reads "1:2:2" as parts kept, of flour and of water, and gives flour and
// water for the weight kept: see [shorthand.Style.Ratio].
func parseRatio(text string, kept float64, u measure.Units) (flour, water float64, err error) {
	k, f, w, err := u.Shorthand().Ratio(text)
	if err != nil {
		return 0, 0, err
	}
	for _, parts := range []float64{k, f, w} {
		if err := limit.Check(limit.Parts, parts); err != nil {
			return 0, 0, err
		}
	}
	return kept * f / k, kept * w / k, nil
}

// A doubt is something to say about a form before it is kept.
type doubt struct {
	Sentence string
	Ends     bool // the culture would end here: ask before it is done
}

// doubts looks at a form against what is in the jar.
func (f feedForm) doubts(before ferment.State, known bool, u measure.Units) []doubt {
	var out []doubt
	data := map[string]any{"Have": grams(u, before.Mix.Total())}
	switch {
	case f.kept <= 0 && known && f.flour+f.water <= 0:
		out = append(out, doubt{lang.L("Everything is used up and nothing is kept back: the culture ends here. A spoonful is enough to go on with."), true})
	case f.kept <= 0 && known:
		out = append(out, doubt{lang.L("Nothing is kept: what stands in the jar afterwards is a new mix of flour and water."), true})
	}
	// Scales and jars lose a little: half a tenth more is no mistake.
	if known && f.kept+f.takenOff() > 1.05*float64(before.Mix.Total())+2 {
		out = append(out, doubt{lang.L("By the record only {{.Have}} are in the jar.", data), false})
	}
	return out
}

// grams writes a weight with its unit, without decimals that no kitchen scale has.
func grams[T ~float64](u measure.Units, weight T) string {
	g := float64(weight)
	if !u.Ounces && g >= 10 {
		g = roundGrams(g)
	}
	return u.Weight().Write(g)
}

// shareWords writes a share of one in percent, however small.
func shareWords(u measure.Units, s float64) string {
	pct := 100 * s
	switch {
	case pct >= 10:
		return u.FormatNumber(pct, 0) + " %"
	case pct >= 0.1:
		return u.FormatNumber(pct, 1) + " %"
	case pct >= 0.001:
		return u.FormatNumber(pct, 4) + " %"
	}
	return lang.L("almost none")
}

// amountsWords says a feeding in one line: "keep 30 g, 60 g flour, 60 g water".
func (f feedForm) amountsWords(u measure.Units) string {
	return lang.L("keep {{.Kept}}, {{.Flour}} flour, {{.Water}} water", map[string]any{
		"Kept": grams(u, f.kept), "Flour": grams(u, f.flour), "Water": grams(u, f.water)})
}
