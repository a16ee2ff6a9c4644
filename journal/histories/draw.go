package histories

import (
	"math"
	"slices"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// A Draw is what a step of a bake takes out of a culture's jar, or puts back into it.
type Draw struct {
	Culture *journal.Culture
	Out     formula.Grams
	Back    formula.Grams // of a levain, kept back to carry the culture on
	Have    formula.Grams // in the jar before, by the record; 0 when no feeding tells
}

// short is how much of what is taken is not in the jar, by the record.
func (d Draw) short() formula.Grams { return max(0, d.Out-d.Have) }

// Wants lists what a step of a bake takes from jars and puts back, without what they hold:
// the seeds of levains when they are built, culture that goes into the dough as it is when
// that is mixed; and what is kept back of a levain, once it is ripe. Without a step for
// building the levain its seed is taken at mixing. A line is of the culture that it is named
// after, or else of the bake's.
func Wants(r journal.Reader, b *journal.Bake, kind plan.Kind) ([]Draw, error) {
	if kind != plan.Levain && kind != plan.Mix {
		return nil, nil
	}
	cultures, err := journal.All[journal.Culture](r)
	if err != nil {
		return nil, err
	}
	var out []Draw
	of := func(in journal.Ingredient) *Draw {
		c := b.CultureOf(cultures, in.Name)
		if in.Role != formula.Culture || c == nil || !c.Ended.IsZero() {
			return new(Draw)
		}
		for i := range out {
			if out[i].Culture.ID == c.ID {
				return &out[i]
			}
		}
		out = append(out, Draw{Culture: c})
		return &out[len(out)-1]
	}
	_, built := stepOf(b, plan.Levain)
	for _, l := range b.Levains {
		kept := l.Kept
		for _, in := range l.Lines {
			if in.Role != formula.Culture {
				continue
			}
			if kind == plan.Levain || !built {
				of(in).Out += in.Grams
			}
			if kind == plan.Mix {
				of(in).Back += kept // to the first culture in it
				kept = 0
			}
		}
	}
	if kind == plan.Mix {
		for _, in := range b.Ingredients {
			of(in).Out += in.Grams
		}
	}
	return slices.DeleteFunc(out, func(d Draw) bool { return d.Out <= 0 && d.Back <= 0 }), nil
}

// Draws is [Wants] with what the jars hold at a time, for which it reads the cultures' whole
// lives. Jars of which no feeding tells what is in them are left out.
func Draws(r journal.Reader, b *journal.Bake, kind plan.Kind, at time.Time) ([]Draw, error) {
	wants, err := Wants(r, b, kind)
	if err != nil {
		return nil, err
	}
	var known []Draw
	for _, d := range wants {
		l, err := read(r, d.Culture.ID)
		if err != nil {
			return nil, err
		}
		jar, ok := l.Jar(at)
		if !ok {
			continue
		}
		d.Have = jar.Mix.Total()
		known = append(known, d)
	}
	return known, nil
}

// stepOf finds the step of a kind.
func stepOf(b *journal.Bake, kind plan.Kind) (journal.Step, bool) {
	for _, s := range b.Steps {
		if plan.Kind(s.Kind) == kind && !s.Skipped {
			return s, true
		}
	}
	return journal.Step{}, false
}

// weighing is how exactly a jar is known: less than that is not missing.
const weighing formula.Grams = 1

// Settle writes into the histories of the cultures what a step of a bake took from their
// jars and what was put back, in the transaction that marks the step. A culture of which
// more is wanted than its jar has by the record is left alone: the scales know better.
// What was written down already as taken for this bake, or for one that was not named and
// as much within the last hours, is not taken twice.
func Settle(tx *journal.Tx, b *journal.Bake, kind plan.Kind, at time.Time) (made, short []Draw, err error) {
	draws, err := Draws(tx, b, kind, at)
	if err != nil {
		return nil, nil, err
	}
	for _, d := range draws {
		done, err := alreadyTaken(tx, b, d, at)
		if err != nil {
			return nil, nil, err
		}
		if done {
			d.Out = 0
		}
		if d.short() > weighing {
			short = append(short, d)
			d.Out = 0
		}
		left := max(0, d.Have-d.Out)
		if d.Out > 0 {
			f := &journal.Feeding{Culture: d.Culture.ID, At: at, Kept: left, Taken: []journal.TakenOff{{Grams: d.Out, For: journal.Baked, Bake: b.ID}}}
			if left <= 0 {
				short = append(short, d) // nothing would be kept: the culture would end unasked
				continue
			}
			if err := journal.Put(tx, f); err != nil {
				return nil, nil, err
			}
		}
		if d.Back > 0 {
			f := &journal.Feeding{Culture: d.Culture.ID, At: at.Add(time.Second), Kept: left + d.Back, Note: b.Name}
			if err := journal.Put(tx, f); err != nil {
				return nil, nil, err
			}
		}
		if d.Out > 0 || d.Back > 0 {
			made = append(made, d)
		}
	}
	return made, short, nil
}

// lately is how long before a step its culture may have been written down as taken.
const lately = 3 * time.Hour

// alreadyTaken says that what a step takes was written down, for that bake, or else for none
// yet: that is tied to the bake.
func alreadyTaken(tx *journal.Tx, b *journal.Bake, d Draw, at time.Time) (bool, error) {
	feedings, err := journal.Linked[journal.Feeding](tx, d.Culture.ID)
	if err != nil || d.Out <= 0 {
		return false, err
	}
	for _, of := range []journal.ID{b.ID, ""} {
		for _, f := range feedings {
			for i, t := range f.Taken {
				alike := math.Abs(float64(t.Grams-d.Out)) <= 0.1*float64(d.Out)
				switch {
				case t.For != journal.Baked || t.Bake != of || !alike || f.At.After(at) || f.At.Before(at.Add(-lately)):
				case of == b.ID:
					return true, nil
				default:
					f.Taken[i].Bake = b.ID
					return true, journal.Put(tx, f)
				}
			}
		}
	}
	return false, nil
}
