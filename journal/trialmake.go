package journal

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"twinloaf/journal/blind/fair"
	"twinloaf/journal/formula"
)

// What a trial can vary that the journal knows how to enter. Anything else may
// be varied too: then only the value's words are written down.
const (
	VaryCulture  = "culture"
	VaryFlour    = "flour"
	VarySalt     = "salt"
	VaryColdRest = "hours of cold rest"
)

// A TrialPlan says how a trial is begun: from which formula or bake, and what
// differs.
type TrialPlan struct {
	From     Ref // a formula or a bake
	Name     string
	Question string
	Varied   string
	// Values has one value of what is varied for each bake, two or more.
	Values []string
	// Cultures are those named by Values, where the culture is varied.
	Cultures []ID
	// Marks are words for marks on bowls, at least as many as there are values.
	Marks []string
	At    time.Time // when mixing begins
}

// NewTrial makes a trial and its bakes, and draws which dough is mixed first,
// which bowl mark it gets and which is baked first.
func NewTrial(tx *Tx, p TrialPlan) (*Trial, error) {
	if len(p.Values) < 2 || len(p.Marks) < len(p.Values) {
		return nil, fmt.Errorf("a trial needs two bakes, each with its value and a mark")
	}
	lots, err := fair.DrawLots(len(p.Values), randomOf{tx.j})
	if err != nil {
		return nil, err
	}
	t := &Trial{Name: p.Name, At: p.At, Question: p.Question, Varied: p.Varied}
	if err := Put(tx, t); err != nil {
		return nil, err
	}
	for i, value := range p.Values {
		b, err := PlannedFrom(tx, p.From)
		if err != nil {
			return nil, fmt.Errorf("beginning a trial: %w", err)
		}
		b.Trial, b.At, b.Mark = t.ID, p.At, p.Marks[lots.BowlMarks[i]]
		b.Name = strings.TrimSpace(b.Name + ", " + value)
		if p.Varied == VaryCulture && i < len(p.Cultures) {
			b.Culture = p.Cultures[i]
		}
		b.vary(p.Varied, value)
		if day, ok := b.Day(); ok {
			day.Start = p.At
			b.SetPlan(day)
		}
		if err := Put(tx, b); err != nil {
			return nil, err
		}
		t.Arms = append(t.Arms, Arm{
			Bake: b.ID, Value: value, Mark: b.Mark,
			MixOrder: 1 + slices.Index(lots.MixOrder, i), BakeOrder: 1 + slices.Index(lots.BakeOrder, i),
		})
	}
	return t, Put(tx, t)
}

// PlannedFrom gives a bake, planned and not begun, that follows a formula or repeats
// a bake.
func PlannedFrom(r Reader, from Ref) (*Bake, error) {
	if from.Kind == KindBake {
		b, err := Get[Bake](r, from.ID)
		if err != nil {
			return nil, err
		}
		return b.Again(), nil
	}
	f, err := Get[Formula](r, from.ID)
	if err != nil {
		return nil, err
	}
	return PlanBake(f), nil
}

var numberIn = regexp.MustCompile(`\d+(?:[.,]\d+)?`)

// firstNumber reads the first number in words such as "12 h" or "2,2 %".
func firstNumber(words string) (float64, bool) {
	n, err := strconv.ParseFloat(strings.ReplaceAll(numberIn.FindString(words), ",", "."), 64)
	return n, err == nil
}

// vary sets in one bake what a trial varies.
func (b *Bake) vary(varied, value string) {
	switch varied {
	case VaryCulture:
		b.eachLine(func(in *Ingredient) {
			if in.Role == formula.Culture {
				in.Name = value
			}
		})
	case VaryFlour:
		if most := b.mostFlour(); most != nil {
			most.Name, most.Flour, most.Lot = value, nil, ""
			most.Allergens = formula.Corrections{}
		}
	case VarySalt:
		n, ok := firstNumber(value)
		is := b.Dough().Metrics()
		b.eachLine(func(in *Ingredient) {
			switch {
			case in.Role != formula.Salt || !ok:
			case is.Salt > 0: // each salt keeps its share
				in.Grams *= formula.Grams(formula.Percent(n) / is.Salt)
			default: // the first is all of it
				in.Grams, ok = formula.Percent(n).Of(is.Flour), false
			}
		})
	case VaryColdRest:
		n, ok := firstNumber(value)
		for i := range b.Steps {
			if s := &b.Steps[i]; ok && s.Kind == StepCold {
				s.Planned = time.Duration(n * float64(time.Hour))
				s.Min, s.Max = 0, 0
			}
		}
	}
}

func (b *Bake) eachLine(fn func(*Ingredient)) {
	for i := range b.Ingredients {
		fn(&b.Ingredients[i])
	}
	for l := range b.Levains {
		for i := range b.Levains[l].Lines {
			fn(&b.Levains[l].Lines[i])
		}
	}
}

// mostFlour is the heaviest line of flour of the dough itself.
func (b *Bake) mostFlour() *Ingredient {
	var most *Ingredient
	for i := range b.Ingredients {
		in := &b.Ingredients[i]
		if in.Role == formula.Flour && (most == nil || in.Grams > most.Grams) {
			most = in
		}
	}
	return most
}

// ForBoth enters what is done to every bake of a trial alike.
func (j *Journal) ForBoth(trial ID, label string, fn func(*Bake)) error {
	return j.Do(label, func(tx *Tx) error {
		t, err := Get[Trial](tx, trial)
		if err != nil {
			return err
		}
		for _, arm := range t.Arms {
			if err := Change(tx, arm.Bake, fn); err != nil {
				return err
			}
		}
		return nil
	})
}

// StepLike finds the step of a bake that is the nth (from 0) of its kind and
// name; nil if there is none.
func (b *Bake) StepLike(kind, name string, nth int) *Step {
	for i := range b.Steps {
		if s := &b.Steps[i]; s.Kind == kind && s.Name == name {
			if nth == 0 {
				return s
			}
			nth--
		}
	}
	return nil
}
