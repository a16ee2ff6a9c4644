package journal

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"twinloaf/journal/blind/fair"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// How far two recorded figures may lie apart and still count as the same: about
// what a kitchen thermometer, clock and scale can tell. Common practice, no
// source.
const (
	sameTemp    = 0.4 // °C
	sameMinutes = 10.0
	sameShare   = 0.5 // of an ingredient, in percent of the flour
	samePiece   = 0.03
)

// fairFigures lists what two bakes could have recorded alike, in the order of
// a bake. varied is what the trial means to differ.
func fairFigures(a, b *Bake, cultures [2]string, varied string) []fair.Metric {
	f := figureList{a: a, b: b, varied: strings.ToLower(strings.TrimSpace(varied))}
	f.words(say.Of("culture"), cultures[0], cultures[1], "culture")
	f.ingredients()
	f.temp(say.Of("flour temperature"), a.Water.Flour, b.Water.Flour)
	f.temp(say.Of("room temperature at mixing"), a.Water.Room, b.Water.Room)
	f.temp(say.Of("culture's temperature"), a.Water.Levain, b.Water.Levain)
	f.temp(say.Of("water temperature"), a.Water.Water, b.Water.Water)
	f.temp(say.Of("dough temperature"), a.Water.Dough, b.Water.Dough)
	f.steps()
	f.oven()
	f.weight(say.Of("weight of dough"), a.Outcome.DoughWeight, b.Outcome.DoughWeight)
	f.temp(say.Of("core temperature"), a.Outcome.Inside, b.Outcome.Inside)
	f.minutes(say.Of("time to cool"), a.Outcome.CooledFor, b.Outcome.CooledFor)
	return f.out
}

type figureList struct {
	a, b   *Bake
	varied string
	out    []fair.Metric
}

// meant reports whether what is varied speaks of any of the words.
func (f *figureList) meant(words ...string) bool {
	return f.varied != "" && slices.ContainsFunc(words, func(w string) bool {
		w = strings.ToLower(w)
		return w != "" && (strings.Contains(f.varied, w) || strings.Contains(w, f.varied))
	})
}

func (f *figureList) words(name say.Line, first, second string, meant ...string) {
	value := func(s string) fair.Value {
		if s == "" {
			return fair.Value{}
		}
		return fair.Text(s)
	}
	f.values(name, value(first), value(second), meant...)
}

func (f *figureList) values(name say.Line, first, second fair.Value, meant ...string) {
	f.out = append(f.out, fair.Metric{Name: name, First: first, Second: second, Intended: f.meant(append(meant, name.String())...)})
}

func (f *figureList) number(name say.Line, unit string, first, second fair.Value, same float64, meant ...string) {
	f.out = append(f.out, fair.Metric{Name: name, Unit: unit, First: first, Second: second, Tolerance: same, Intended: f.meant(append(meant, name.String())...)})
}

func (f *figureList) temp(name say.Line, first, second *formula.Celsius) {
	f.number(name, "°C", known(first), known(second), sameTemp)
}

func (f *figureList) weight(name say.Line, first, second *formula.Grams) {
	var same float64
	if first != nil && second != nil {
		same = samePiece * math.Max(float64(*first), float64(*second))
	}
	f.number(name, "g", known(first), known(second), same)
}

func (f *figureList) minutes(name say.Line, first, second time.Duration, meant ...string) {
	value := func(d time.Duration) fair.Value {
		if d <= 0 {
			return fair.Value{}
		}
		return fair.Number(math.Round(d.Minutes()))
	}
	f.number(name, "min", value(first), value(second), sameMinutes, meant...)
}

func known[T ~float64](x *T) fair.Value {
	if x == nil {
		return fair.Value{}
	}
	return fair.Number(float64(*x))
}

// clock compares two moments. They are written as times of day, with the day
// where that differs.
func (f *figureList) clock(name say.Line, first, second time.Time, meant ...string) {
	if first.IsZero() && second.IsZero() {
		return
	}
	if !first.IsZero() && !second.IsZero() && second.Sub(first).Abs().Minutes() <= sameMinutes {
		return
	}
	form := say.Clock
	if first.Format(time.DateOnly) != second.Format(time.DateOnly) {
		form = say.DayClock
	}
	write := func(t time.Time) fair.Value {
		if t.IsZero() {
			return fair.Value{}
		}
		return fair.Value{Known: true, Text: t.Format(time.RFC3339), Said: say.Moment{At: t, As: form}}
	}
	f.values(name, write(first), write(second), meant...)
}

// ingredients compares what was weighed, in percent of the flour.
func (f *figureList) ingredients() {
	type line struct {
		name   say.Line
		role   formula.Role
		shares [2]float64
		known  [2]bool
	}
	lines, order := map[string]*line{}, []string(nil)
	for i, b := range []*Bake{f.a, f.b} {
		var flour formula.Grams
		for _, in := range b.everyLine() {
			if in.Role == formula.Flour {
				flour += in.Grams
			}
		}
		for _, in := range b.everyLine() {
			if in.Grams <= 0 || flour <= 0 || strings.TrimSpace(in.Name) == "" {
				continue
			}
			name := strings.TrimSpace(in.Name)
			said := say.Of("{{.Ingredient}}", say.With{"Ingredient": name})
			if in.Role == formula.Culture {
				said = say.Of("weight of culture") // its name is compared apart
				name = said.String()
			}
			l := lines[name]
			if l == nil {
				l = &line{name: said, role: in.Role}
				lines[name], order = l, append(order, name)
			}
			l.shares[i] += float64(in.Grams.PercentOf(flour))
			l.known[i] = true
		}
	}
	for _, name := range order {
		l := lines[name]
		value := func(i int) fair.Value {
			if !l.known[i] {
				return fair.Value{}
			}
			return fair.Number(math.Round(l.shares[i]*10) / 10)
		}
		f.number(l.name, "% of flour", value(0), value(1), sameShare, string(l.role))
	}
}

// steps compares how long each step took, how warm the dough was, and how
// often it was turned.
func (f *figureList) steps() {
	if len(f.a.Steps) == 0 || len(f.b.Steps) == 0 {
		return
	}
	for _, pair := range MatchSteps(f.a.Steps, f.b.Steps) {
		a, b := pair[0], pair[1]
		if a == nil || b == nil {
			continue
		}
		name := strings.ToLower(a.Title())
		step := say.With{"Step": stepName(*a)}
		f.minutes(say.Of("length of {{.Step}}", step), a.Length(), b.Length(), a.Kind, name)
		f.temp(say.Of("dough temperature in {{.Step}}", step), a.Dough, b.Dough)
		if !isOven(a.Kind) {
			f.temp(say.Of("temperature around the dough in {{.Step}}", step), a.Air, b.Air)
		}
		if len(a.Done) > 0 || len(b.Done) > 0 {
			f.number(say.Of("folds in {{.Step}}", step), "", fair.Number(float64(len(a.Done))), fair.Number(float64(len(b.Done))), 0)
		}
		if a.Skipped != b.Skipped {
			f.values(say.Of("{{.Step}}", step), leftOut(a.Skipped), leftOut(b.Skipped), a.Kind)
		}
	}
}

// stepName is what a step is called in the middle of a sentence: the baker's own
// name for it as it is written, since in German a noun keeps its capital, or its kind.
func stepName(s Step) any {
	if s.Name != "" {
		return s.Name
	}
	return say.Of(strings.ToLower(s.Title()))
}

// leftOut says whether a step was left out.
func leftOut(skipped bool) fair.Value {
	said := say.Of("done")
	if skipped {
		said = say.Of("left out")
	}
	return fair.Value{Known: true, Text: said.String(), Said: said}
}

// oven compares when the loaves were baked and how hot it was.
func (f *figureList) oven() {
	first := func(b *Bake) (at time.Time, air *formula.Celsius) {
		for _, s := range b.Steps {
			if isOven(s.Kind) {
				return s.At, s.Air
			}
		}
		return time.Time{}, nil
	}
	atA, airA := first(f.a)
	atB, airB := first(f.b)
	f.temp(say.Of("oven temperature"), airA, airB)
	f.clock(say.Of("time into the oven"), atA, atB, "cold rest", "oven")
}

func isOven(kind string) bool {
	return kind == string(plan.BakeCovered) || kind == string(plan.BakeUncovered)
}

// Title is the step's name, or what its kind is called when it has none.
func (s Step) Title() string { return plan.Step{Kind: plan.Kind(s.Kind), Name: s.Name}.Title() }

// MatchSteps pairs the steps of two bakes: the second turns of one with the
// second turns of the other. A step that the other has not is paired with nil.
func MatchSteps(a, b []Step) [][2]*Step {
	key := func(seen map[string]int, s Step) string {
		k := s.Kind + "\x00" + s.Name
		seen[k]++
		return fmt.Sprint(k, seen[k])
	}
	at, seen := map[string]int{}, map[string]int{}
	var out [][2]*Step
	for i := range a {
		at[key(seen, a[i])] = len(out)
		out = append(out, [2]*Step{&a[i], nil})
	}
	seen = map[string]int{}
	for i := range b {
		k := key(seen, b[i])
		if n, ok := at[k]; ok {
			out[n][1] = &b[i]
		} else {
			out = append(out, [2]*Step{nil, &b[i]})
		}
	}
	return out
}
