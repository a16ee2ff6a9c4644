package pages

import (
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/shelf"
)

// RoleWord says a role of an ingredient in the baker's language.
func RoleWord(r formula.Role) string {
	switch r {
	case formula.Flour:
		return lang.L("flour")
	case formula.Water:
		return lang.L("water")
	case formula.Salt:
		return lang.L("salt")
	case formula.Culture:
		return lang.L("culture")
	case formula.Liquid:
		return lang.L("liquid")
	case formula.Fat:
		return lang.L("fat")
	case formula.Sugar:
		return lang.L("sweet")
	case formula.Seeds:
		return lang.L("seeds, fruit")
	case formula.SoakWater:
		return lang.L("soaking water")
	case formula.Yeast:
		return lang.L("yeast")
	}
	return lang.L("other")
}

// SeasonWord names a quarter by its months, which are the same in both hemispheres.
func SeasonWord(s shelf.Season) string {
	switch s {
	case 3:
		return lang.L("March to May")
	case 6:
		return lang.L("June to August")
	case 9:
		return lang.L("September to November")
	}
	return lang.L("December to February")
}

// A Grain is what a flour is milled from: as records have it, and in the baker's language.
type Grain struct{ Key, Word string }

// Grains are those that are offered.
func Grains() []Grain {
	return []Grain{
		{"wheat", lang.L("wheat")}, {"rye", lang.L("rye")}, {"spelt", lang.L("spelt")}, {"einkorn", lang.L("einkorn")},
		{"emmer", lang.L("emmer")}, {"khorasan", lang.L("khorasan")}, {"durum", lang.L("durum")}, {"barley", lang.L("barley")},
		{"buckwheat", lang.L("buckwheat")}, {"oat", lang.L("oat")}, {"maize", lang.L("maize")}, {"rice", lang.L("rice")},
	}
}

// GrainWord says a grain of a record; one that the baker named otherwise stays as it was typed.
func GrainWord(key string) string {
	for _, g := range Grains() {
		if g.Key == key {
			return g.Word
		}
	}
	return key
}

// GrainOf is the grain of a record that a word is for.
func GrainOf(typed string) string {
	typed = strings.ToLower(strings.TrimSpace(typed))
	for _, g := range Grains() {
		if strings.ToLower(g.Word) == typed {
			return g.Key
		}
	}
	return typed
}

// StepWord says what a kind of step is called.
func StepWord(k plan.Kind) string { return measure.Units{}.Say(k.Line()) }

// StepTitle is what a step is called: by its own name, or else by its kind.
func StepTitle(k plan.Kind, name string) string {
	return measure.Units{}.Say(plan.Step{Kind: k, Name: name}.Line())
}

// Weekday names a day as a schedule does: "Saturday 28 Nov".
func Weekday(t, now time.Time, u measure.Units) string {
	t = t.In(now.Location())
	return lang.L(t.Weekday().String()) + " " + u.Day(t, now)
}

// PlannedClock is when a moment was meant to be, beside when it was: the clock, with its
// day where that is another.
func PlannedClock(planned, at, now time.Time, u measure.Units) string {
	planned, at = planned.In(now.Location()), at.In(now.Location())
	if u.Day(planned, now) != u.Day(at, now) {
		return u.Moment(planned, now)
	}
	return u.Clock(planned)
}

// TastingName is what a tasting is called: the baker's own word, and else its question.
func TastingName(t *journal.Tasting) string {
	if name := strings.TrimSpace(t.Name); name != "" {
		return name
	}
	s, err := t.Setting()
	if err != nil {
		return lang.L("Tasting") // its page tells what is wrong with it
	}
	return Asked(s.Plan)
}

// Asked words the question of a plan.
func Asked(p blind.Plan) string {
	switch {
	case p.Method == blind.Scaling:
		return lang.L("How does each score?")
	case p.Method.Directional() && p.Attribute != "":
		return lang.L("Which is more {{.What}}?", map[string]any{"What": p.Attribute})
	case p.Method == blind.Paired:
		return lang.L("Which is liked better?")
	}
	return lang.L("Can they be told apart?")
}
