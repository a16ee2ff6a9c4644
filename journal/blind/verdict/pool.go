package verdict

import (
	"fmt"
	"slices"

	"twinloaf/journal/blind"
	"twinloaf/journal/say"
)

// ErrPool is wrapped by every reason why tastings cannot be added up.
var ErrPool = say.NewError("these tastings cannot be added up")

// Pool adds up tastings that asked the same question by the same method: their
// counts are summed, in scaling their pairs are put together, and the sum is
// judged once. loafOne tells, for each tasting, whether its loaf 1 plays the
// part that loaf 1 plays in the first (true) or its loaf 2 does (false), so
// that "Harbour" is "Harbour" in each. A taster who answered in more than one
// tasting makes replicates. Looking again after every tasting until it comes
// out makes a false alarm likelier than p says; the cautions say so. How the bakes of the
// first differed otherwise its own verdict tells: of the others it is told what is not
// the same.
func Pool(tastings []Input, loafOne []bool) (Verdict, error) {
	if len(tastings) < 2 || len(loafOne) != len(tastings) {
		return Verdict{}, cannotPool(say.Of("at least two are needed, each with its loaves matched"))
	}
	first := tastings[0].Opened.Setting.Plan
	sum := Verdict{P: 1}
	answered := map[string]int{}
	var told []caution
	var lines []AttributeResult
	for i, in := range tastings {
		plan := in.Opened.Setting.Plan
		if err := sameQuestion(first, plan, loafOne[i]); err != nil {
			return Verdict{}, fmt.Errorf("tasting %d: %w", i+1, err)
		}
		v, err := Of(in)
		if err != nil {
			return Verdict{}, fmt.Errorf("add up tasting %d: %w", i+1, err)
		}
		sum.Tally.add(v.Tally, plan, loafOne[i])
		for _, s := range v.Tally.PerTaster {
			answered[s.Taster] += s.Counted
		}
		for _, c := range v.Cautions {
			if c.String() != replicates().String() { // it is said of the sum
				told = note(told, c, false, i)
			}
		}
		for _, u := range v.Unfair {
			told = note(told, u, true, i)
		}
		lines = addLines(lines, v.Attributes, loafOne[i], sum.Tally.placesOf(v.Tally))
	}
	everybody := first
	everybody.Tasters = nil
	for _, s := range sum.Tally.PerTaster {
		everybody.Tasters = append(everybody.Tasters, s.Taster)
		sum.Replicates = sum.Replicates || answered[s.Taster] > 1
	}
	if first.Method == blind.Scaling {
		sum.Attributes = tested(lines, first.Risk())
		sum.sayScaling(everybody)
	} else {
		sum.count(everybody)
		sum.estimate(everybody)
		sum.say(everybody)
	}
	sum.Cautions = []say.Line{say.Of("{{.Tastings}} tastings are added up. Decide beforehand how many: adding until it comes out makes a false alarm more likely than the p-value says.",
		say.With{"Tastings": len(tastings)})}
	if sum.Replicates {
		sum.Cautions = append(sum.Cautions, say.Of("Some tasters answered more than once. That is valid for “is there a difference”, not for “there is none”."))
	}
	for _, c := range told {
		if !c.unfair {
			sum.Cautions = append(sum.Cautions, c.lines(len(tastings))...)
		}
	}
	sum.Cautions = append(sum.Cautions, differed(told, len(tastings))...)
	return sum, nil
}

// A caution is what takes from some of the tastings that are added up.
type caution struct {
	line   say.Line
	unfair bool  // it tells of the bakes
	in     []int // the tastings, from 0
}

// note adds what takes from tasting i, once where several say the same.
func note(told []caution, line say.Line, unfair bool, i int) []caution {
	for k, c := range told {
		if c.unfair == unfair && c.line.String() == line.String() {
			told[k].in = append(told[k].in, i)
			return told
		}
	}
	return append(told, caution{line, unfair, []int{i}})
}

// lines says it for all of the tastings at once, or for each of those that it is
// about.
func (c caution) lines(of int) (out []say.Line) {
	if len(c.in) == of {
		return []say.Line{say.Of("Each time: {{.Caution}}", say.With{"Caution": c.line})}
	}
	for _, i := range c.in {
		out = append(out, say.Of("Tasting {{.Which}}: {{.Caution}}", say.With{"Which": i + 1, "Caution": c.line}))
	}
	return out
}

// differed says how the bakes of so many tastings differed otherwise, beside those of the
// first: each difference once.
func differed(told []caution, of int) (out []say.Line) {
	first := 0                // how many differences the first has
	shared := make([]int, of) // and how many of them each has too
	for _, c := range told {
		if c.unfair && slices.Contains(c.in, 0) {
			first++
			for _, i := range c.in {
				shared[i]++
			}
		}
	}
	alike := func(i int) bool { return first > 0 && shared[i] == first }
	everywhere := !slices.ContainsFunc(shared, func(n int) bool { return n < first }) && first > 0
	if everywhere {
		out = append(out, say.Of("In every tasting the bakes differed as shown for tasting 1."))
	}
	for i := 1; i < of; i++ {
		which := say.With{"Which": i + 1}
		if alike(i) && !everywhere {
			out = append(out, say.Of("Tasting {{.Which}}: the bakes differed as shown for tasting 1.", which))
		}
		for _, c := range told {
			if c.unfair && slices.Contains(c.in, i) && !(alike(i) && slices.Contains(c.in, 0)) {
				out = append(out, say.Of("Tasting {{.Which}}: the bakes differed in another way too. {{.Difference}}", say.With{"Which": i + 1, "Difference": c.line}))
			}
		}
	}
	return out
}

// cannotPool makes an error of the kind ErrPool with its reason.
func cannotPool(why say.Line) error {
	return &say.Error{Said: say.Of("these tastings cannot be added up: {{.Why}}", say.With{"Why": why}), Err: ErrPool}
}

func sameQuestion(a, b blind.Plan, loafOne bool) error {
	expected := b.Expected
	if !loafOne && expected != 0 {
		expected = 3 - expected
	}
	switch {
	case a.Method != b.Method:
		return cannotPool(say.Of("{{.One}} and {{.Other}} are different methods", say.With{"One": say.Of(a.Method.Title()), "Other": say.Of(b.Method.Title())}))
	case a.Attribute != b.Attribute:
		return cannotPool(say.Of("they asked for different attributes"))
	case a.Expected != expected:
		return cannotPool(say.Of("they expected different things beforehand"))
	case a.Risk() != b.Risk():
		return cannotPool(say.Of("they took different risks of a false alarm"))
	case len(a.Attributes) != len(b.Attributes):
		return cannotPool(say.Of("they scored different attributes"))
	}
	for i := range a.Attributes {
		if a.Attributes[i].Name != b.Attributes[i].Name {
			return cannotPool(say.Of("they scored different attributes"))
		}
	}
	return nil
}

// add sums another tally up, turned round where the loaves are.
func (t *Tally) add(other Tally, plan blind.Plan, loafOne bool) {
	turn := plan.Method == blind.Paired && plan.Expected == 0 && !loafOne
	agreeing := func(k, n int) int {
		if turn {
			return n - k
		}
		return k
	}
	t.Planned += other.Planned
	t.Missing += other.Missing
	t.Never += other.Never
	t.Ties += other.Ties
	t.Counted += other.Counted
	t.Agreeing += agreeing(other.Agreeing, other.Counted)
	t.SkippedRinses += other.SkippedRinses
	t.OnPaper += other.OnPaper
	t.Stopped = append(t.Stopped, other.Stopped...)
	for _, s := range other.PerTaster {
		s.Agreeing = agreeing(s.Agreeing, s.Counted)
		t.addTaster(s)
	}
}

func (t *Tally) addTaster(s Share) {
	for i := range t.PerTaster {
		if t.PerTaster[i].Taster == s.Taster {
			t.PerTaster[i].Counted += s.Counted
			t.PerTaster[i].Agreeing += s.Agreeing
			return
		}
	}
	t.PerTaster = append(t.PerTaster, s)
}

// placesOf finds the tasters of a tally that was added in the sum.
func (t Tally) placesOf(added Tally) []int {
	places := make([]int, len(added.PerTaster))
	for i, s := range added.PerTaster {
		places[i] = slices.IndexFunc(t.PerTaster, func(mine Share) bool { return mine.Taster == s.Taster })
	}
	return places
}

// addLines puts scaling pairs together, by attribute; places are those of their
// tasters in the sum.
func addLines(lines, more []AttributeResult, loafOne bool, places []int) []AttributeResult {
	if lines == nil {
		lines = make([]AttributeResult, len(more))
	}
	for i, r := range more {
		lines[i].Attribute = r.Attribute
		for _, pair := range r.Pairs {
			pair.Taster = places[pair.Taster]
			if !loafOne {
				pair.First, pair.Second = pair.Second, pair.First
			}
			lines[i].Pairs = append(lines[i].Pairs, pair)
		}
	}
	return lines
}
