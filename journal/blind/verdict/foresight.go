package verdict

import (
	"fmt"
	"math/rand/v2"
	"sort"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
)

// Foresight is what a plan can find, told before anybody tastes.
type Foresight struct {
	// Answers is how many answers the plan brings in.
	Answers int
	// Critical is the fewest that would show something; 0 when not even all
	// would.
	Critical int
	// Power is the chance to show a difference that is noticed half of the
	// time (in scaling: one of two points).
	Power float64
	// Needed is how many answers it takes to make that chance eight in ten; 0
	// when that is out of reach.
	Needed int
	// Words say it, one sentence each.
	Words []string
}

// What a plan is judged by.
const (
	halfOfTheTime = 0.5
	eightInTen    = 0.8
)

// What a scaling plan is judged by: common practice, no source.
const (
	scalingShift  = 2.0
	scalingSpread = 2.0
	mostPairs     = 60
)

// Foresee tells what a plan can and cannot find.
func Foresee(plan blind.Plan) Foresight {
	if plan.Method == blind.Scaling {
		return foreseeScaling(plan)
	}
	test := sensory.TestOf(plan)
	f := Foresight{Answers: plan.Answers(), Power: test.Power(plan.Answers(), halfOfTheTime)}
	critical, possible := test.Critical(f.Answers)
	needed, reachable := test.Needed(halfOfTheTime, eightInTen)
	if reachable {
		f.Needed = needed
	}
	if !possible {
		f.Words = append(f.Words, fmt.Sprintf("%s cannot show anything: even if every answer agreed, that would come up by guessing %s.", sizeOf(plan), byChance(test.P(f.Answers, f.Answers))))
	} else {
		f.Critical = critical
		f.Words = append(f.Words,
			fmt.Sprintf("%s will show something if at least %d of %s.", sizeOf(plan), critical, agreeing(plan, f.Answers)),
			fmt.Sprintf("With %s, %s will be shown to do so %s.", answersOf(plan, f.Answers), whoTells(plan), timesIn(f.Power)))
	}
	return f.withNeeded(plan)
}

func foreseeScaling(plan blind.Plan) Foresight {
	f := scalingFound(plan, plan.Answers())
	return f.withNeeded(plan)
}

// scalingFound tells what n pairs of scores can find.
func scalingFound(plan blind.Plan, n int) Foresight {
	// A fixed seed: the same plan shows the same figure each time.
	alpha := plan.Risk() / float64(max(1, len(plan.Attributes)))
	power := func(n int) float64 {
		return sensory.ScalingPower(n, scalingShift, scalingSpread, alpha, rand.NewPCG(9, 5))
	}
	f := Foresight{Answers: n, Power: power(n)}
	if needed := sort.Search(mostPairs, func(n int) bool { return power(n) >= eightInTen }); needed < mostPairs {
		f.Needed = needed
	}
	if f.Power == 0 {
		f.Words = append(f.Words, fmt.Sprintf("%s cannot show anything: there are too few pairs of scores for %s.", sentenceCase(answersOf(plan, n)), counted(len(plan.Attributes), "attribute", "attributes")))
	} else {
		f.Words = append(f.Words, fmt.Sprintf("With %s, a true difference of two points on the scale, when scores scatter by as much, will be shown %s.", answersOf(plan, n), timesIn(f.Power)))
	}
	return f
}

func (f Foresight) withNeeded(plan blind.Plan) Foresight {
	f.Words = append(f.Words, f.neededWords(plan))
	if plan.Rounds > 1 {
		f.Words = append(f.Words, "Several rounds by one taster count for “is there a difference”, not for “there is none”.")
	}
	return f
}

// neededWords says what it takes to make the power eight in ten. It follows the
// sentence that says how large it is.
func (f Foresight) neededWords(plan blind.Plan) string {
	switch {
	case f.Needed == 0:
		return "To show that much eight times in ten would take more than anybody can taste."
	case f.Power == 0:
		return fmt.Sprintf("%s would be shown eight times in ten with %s.", sentenceCase(whatIsThere(plan)), answersOf(plan, f.Needed))
	case f.Needed <= f.Answers:
		return fmt.Sprintf("Eight times in ten takes %s: this plan has enough.", answersOf(plan, f.Needed))
	}
	return fmt.Sprintf("To make that eight times in ten takes %s.", answersOf(plan, f.Needed))
}

// sizeOf names the plan's size as a subject.
func sizeOf(plan blind.Plan) string {
	if len(plan.Tasters) == 1 {
		return counted(plan.Rounds, "round", "rounds")
	}
	return fmt.Sprintf("%d tasters with %s each", len(plan.Tasters), counted(plan.Rounds, "round", "rounds"))
}

// answersOf names a number of answers: rounds where one tastes.
func answersOf(plan blind.Plan, n int) string {
	if len(plan.Tasters) == 1 {
		return counted(n, "round", "rounds")
	}
	return counted(n, "answer", "answers")
}

func agreeing(plan blind.Plan, n int) string {
	switch {
	case plan.Method.Discriminates():
		return fmt.Sprintf("%d answers are right", n)
	case plan.Expected != 0:
		return fmt.Sprintf("%d answers name “%s”", n, plan.Loaves[plan.Expected-1].Name)
	}
	return fmt.Sprintf("%d answers name the same loaf", n)
}

func whoTells(plan blind.Plan) string {
	many := len(plan.Tasters) > 1
	switch {
	case plan.Method == blind.Paired && plan.Attribute == "" && many:
		return "tasters of whom three in four like the same loaf better"
	case plan.Method == blind.Paired && plan.Attribute == "":
		return "a taster who likes the same loaf better three times in four"
	case many:
		return "tasters who can tell them apart half of the time"
	}
	return "a taster who can tell them apart half of the time"
}

// whatIsThere names what a plan is judged by, as a thing that can be shown.
func whatIsThere(plan blind.Plan) string {
	switch {
	case plan.Method == blind.Scaling:
		return "a true difference of two points on the scale"
	case plan.Method == blind.Paired && plan.Attribute == "":
		return "a liking for the same loaf three times in four"
	}
	return "a difference that is noticed half of the time"
}
