package bakeday

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// weighing is what stands on the scale in one step of a bake: the lines to be ticked off,
// in the order in which they go in.
type weighing struct {
	bake  journal.ID
	step  journal.ID
	title string // the dough's name
	what  string // what the step is called
	rows  []weighRow
}

// weighRow is one thing to weigh.
type weighRow struct {
	key    string // of the line, as the record ticks it off
	amount string // "375 g"
	name   string
	aside  string // "at 31 °C"
	done   bool
}

// left counts what is still to be weighed.
func (w weighing) left() int {
	n := 0
	for _, r := range w.rows {
		if !r.done {
			n++
		}
	}
	return n
}

// ahead is how long before the step that runs is over the next is weighed for.
const ahead = time.Hour

// weighingStep is the step that is weighed for at now: the next, unless another runs for
// long, or the one under hand while it lasts; nil when nothing is weighed.
func weighingStep(b *journal.Bake, now time.Time) *journal.Step {
	weighs := func(s *journal.Step) bool {
		k := plan.Kind(s.Kind)
		return k == plan.Levain && len(b.Levains) > 0 || k == plan.Mix && len(b.Ingredients) > 0
	}
	day, _ := b.Day()
	if m, more := day.Next(now); more && m.Left(now) <= ahead || more && !runs(day, now) {
		for i := range b.Steps {
			if s := &b.Steps[i]; string(s.ID) == m.Step && m.Ref.Turn == 0 && weighs(s) {
				return s
			}
		}
	}
	s := underHand(b, now)
	if s == nil || s.At.IsZero() || !weighs(s) || plan.Kind(s.Kind) != plan.Mix && s.Length() > 0 {
		return nil
	}
	if most := max(s.Planned, 20*time.Minute); plan.Kind(s.Kind) == plan.Levain && now.Sub(s.At) > 30*time.Minute || now.Sub(s.At) > most && plan.Kind(s.Kind) == plan.Mix {
		return nil // what is not ticked off by now was weighed without us
	}
	return s
}

func runs(day plan.Plan, now time.Time) bool {
	s, more := day.Stand(now)
	return more && s.Runs
}

// goesIn is the order in which things go into the bowl: water and what dissolves in it,
// the leaven, flour, then what is worked in (common practice, no source).
var goesIn = []formula.Role{formula.Water, formula.Culture, formula.Yeast, formula.Liquid, formula.Sugar, formula.Flour,
	formula.Salt, formula.Fat, formula.SoakWater, formula.Seeds, formula.Other}

// weigh lists what is weighed in a step. water is how warm the water should be, if known.
func weigh(b *journal.Bake, s *journal.Step, water *formula.Celsius, u measure.Units) weighing {
	w := weighing{bake: b.ID, step: s.ID, title: cmp.Or(b.Name, lang.L("A dough")), what: pages.StepTitle(plan.Kind(s.Kind), s.Name)}
	if plan.Kind(s.Kind) == plan.Levain {
		water = nil // it is worked out for the dough
	}
	add := func(key, name, aside string, g formula.Grams) {
		w.rows = append(w.rows, weighRow{key: key, name: name, aside: aside, amount: u.Weight().Write(rounded(g)), done: slices.Contains(s.Weighed, key)})
	}
	lines := func(all []journal.Ingredient) {
		for _, role := range goesIn {
			for _, in := range all {
				of := cmp.Or(in.Role, formula.Other)
				if of != role || in.Grams <= 0 {
					continue
				}
				aside := ""
				if role == formula.Water && water != nil {
					aside = lang.L("at {{.When}}", map[string]any{"When": u.Temperature().Write(math.Round(float64(*water)))})
				}
				name := cmp.Or(in.Name, pages.RoleWord(in.Role))
				add(string(in.ID), name, aside, in.Grams)
			}
		}
	}
	if plan.Kind(s.Kind) == plan.Levain {
		for _, l := range b.Levains {
			lines(l.Lines)
		}
		return w
	}
	whole := b.Dough()
	for i, l := range whole.Levains {
		name := cmp.Or(b.Levains[i].Name, lang.L("Levain"))
		if g := l.Used(); g > 0 {
			add("levain "+strconv.Itoa(i+1), name, "", g)
		}
	}
	levains := w.rows
	w.rows = nil
	lines(b.Ingredients)
	// The levains go in after the water.
	at := 0
	for at < len(w.rows) && isWaterLine(b, w.rows[at].key) {
		at++
	}
	w.rows = slices.Insert(w.rows, at, levains...)
	return w
}

func isWaterLine(b *journal.Bake, key string) bool {
	return slices.ContainsFunc(b.Ingredients, func(in journal.Ingredient) bool { return string(in.ID) == key && in.Role == formula.Water })
}

// rounded leaves out what no kitchen scale shows: below 20 g a tenth, else the gram.
func rounded(g formula.Grams) float64 {
	if g < 20 {
		return math.Round(float64(g)*10) / 10
	}
	return math.Round(float64(g))
}

// tick says that a line was weighed, or takes that back.
func (a actor) tick(id, step journal.ID, key, name string) {
	pages.ChangeDay(a.env, id, lang.L("{{.Name}}: weighed", map[string]any{"Name": name}), func(b *journal.Bake) error {
		for i := range b.Steps {
			if s := &b.Steps[i]; s.ID == step {
				if at := slices.Index(s.Weighed, key); at >= 0 {
					s.Weighed = slices.Delete(slices.Clone(s.Weighed), at, at+1)
				} else {
					s.Weighed = append(slices.Clone(s.Weighed), key)
				}
			}
		}
		return nil
	})
}

// pouredAt is how warm the water of a dough should be, as the plan's page advises it.
func pouredAt(b *journal.Bake, kitchen *formula.Celsius, l learned, u measure.Units) *formula.Celsius {
	return byWeight(adviseWater(b.Water, b.Dough().Bowl().HasLevain(), kitchen, l, poured(dough.SideOf(b).Mix), u), b, kitchen, l, u).Water
}

// needs says what else the step under hand asks of the baker, with the key for it: a
// temperature or a height to read, a photo to take, the folds that are left.
func needs(b *journal.Bake, now time.Time) []string {
	var out []string
	s := underHand(b, now)
	if s == nil || s.At.IsZero() {
		return nil
	}
	read := func(missing bool, words string) {
		if missing {
			out = append(out, words)
		}
	}
	switch plan.Kind(s.Kind) {
	case plan.Mix, plan.Rest:
		read(s.Dough == nil && b.Water.Dough == nil, lang.L("Read the dough's temperature (T)"))
	case plan.Turns, plan.Bulk:
		if left := s.Times - len(s.Done) - len(s.Missed); s.Times > 0 && left > 0 {
			out = append(out, lang.N("{{.N}} folds left", left, map[string]any{"N": left}))
		}
		read(s.Dough == nil, lang.L("Read the dough's temperature (T)"))
		read(s.Rise == nil, lang.L("Read how far it has risen (R)"))
	case plan.Proof, plan.ColdRest:
		read(s.Air == nil, lang.L("Read the temperature around it (T)"))
	case plan.BakeUncovered, plan.Cool:
		out = append(out, lang.L("Take a photo of the crust (P)"))
	}
	return out
}
