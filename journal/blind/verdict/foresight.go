package verdict

import (
	"math"
	"math/rand/v2"
	"sort"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
	"twinloaf/journal/say"
)

// Foresight is what a plan can find, told before anybody tastes.
type Foresight struct {
	// Answers is how many the plan brings in of what the test counts: answers, or
	// tasters (see [Verdict.Votes]).
	Answers int
	// Critical is the fewest that would show something; 0 when not even all
	// would.
	Critical int
	// Power is the chance to show a difference that is noticed half of the
	// time (in scaling: one of two points).
	Power float64
	// Needed is how many answers it takes for that chance never again to fall below
	// eight in ten; 0 when that is out of reach. It goes up in a saw-tooth, so fewer can
	// happen to have it. In scaling it is simulated: the fewest found.
	Needed int
	// Words say it, one sentence each.
	Words []say.Line
}

// What a plan is judged by.
const (
	halfOfTheTime = 0.5
	eightInTen    = 0.8
)

// What a scaling plan is judged by: common practice, no source. Scores of one
// bread scatter by scalingSpread, so the differences of two scatter by the root
// of two more.
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
	f := Foresight{Answers: countedIn(plan)}
	f.Power = test.Power(f.Answers, halfOfTheTime)
	critical, possible := test.Critical(f.Answers)
	needed, reachable := test.Needed(halfOfTheTime, eightInTen)
	if reachable {
		f.Needed = needed
	}
	if !possible {
		f.Words = append(f.Words, say.Of("{{.Plan}} cannot show anything: even if every answer agreed, that would come up by guessing {{.Often}}.",
			say.With{"Plan": sizeOf(plan), "Often": byChance(test.P(f.Answers, f.Answers))}))
	} else {
		f.Critical = critical
		with := say.With{"Plan": sizeOf(plan), "Least": critical, "Agreeing": agreeing(plan, f.Answers)}
		shows := say.Of("{{.Plan}} will show something if at least {{.Least}} of {{.Agreeing}}.", with)
		if critical == f.Answers {
			shows = say.Of("{{.Plan}} will show something if all {{.Agreeing}}.", with)
		}
		f.Words = append(f.Words, shows, powerWords(plan, f.Answers, f.Power))
	}
	return f.withNeeded(plan)
}

func foreseeScaling(plan blind.Plan) Foresight {
	f := scalingFound(plan, countedIn(plan))
	return f.withNeeded(plan)
}

// scalingFound tells what n pairs of scores can find.
func scalingFound(plan blind.Plan, n int) Foresight {
	// A fixed seed: the same plan shows the same figure each time.
	alpha := plan.Risk() / float64(max(1, len(plan.Attributes)))
	power := func(n int) float64 {
		return sensory.ScalingPower(n, scalingShift, math.Sqrt2*scalingSpread, alpha, rand.NewPCG(9, 5))
	}
	f := Foresight{Answers: n, Power: power(n)}
	if needed := sort.Search(mostPairs, func(n int) bool { return power(n) >= eightInTen }); needed < mostPairs {
		f.Needed = needed
	}
	if f.Power == 0 {
		f.Words = append(f.Words, say.Begin(say.Of("{{.Answers}} cannot show anything: there are too few pairs of scores for {{.Attributes}}.",
			say.With{"Answers": countedOf(plan, n), "Attributes": say.N("{{.N}} attribute", "{{.N}} attributes", len(plan.Attributes))})))
	} else {
		f.Words = append(f.Words, say.Of("With {{.Answers}}, a true difference of two points on the scale, when the scores of one bread scatter by as much, will be shown {{.Often}}.",
			say.With{"Answers": countedOf(plan, n), "Often": timesIn(f.Power)}))
	}
	return f
}

func (f Foresight) withNeeded(plan blind.Plan) Foresight {
	f.Words = append(f.Words, f.neededWords(plan))
	switch {
	case countsTasters(plan) && plan.Rounds > 1:
		f.Words = append(f.Words, say.Of("One taster's rounds are not separate evidence, so each taster counts once, however many rounds: one round each and more tasters find more."))
	case plan.Rounds > 1:
		f.Words = append(f.Words, say.Of("Several rounds by one taster count for “is there a difference”, not for “there is none”."))
	}
	return f
}

// powerWords says how often n answers will show what is there.
func powerWords(plan blind.Plan, n int, power float64) say.Line {
	with := say.With{"Answers": countedOf(plan, n), "Often": timesIn(power)}
	many := len(plan.Tasters) > 1
	switch {
	case plan.Method == blind.Paired && plan.Attribute == "" && many:
		return say.Of("With {{.Answers}}, tasters of whom three in four like the same loaf better will be shown to do so {{.Often}}.", with)
	case plan.Method == blind.Paired && plan.Attribute == "":
		return say.Of("With {{.Answers}}, a taster who likes the same loaf better three times in four will be shown to do so {{.Often}}.", with)
	case many:
		return say.Of("With {{.Answers}}, tasters who can tell them apart half of the time will be shown to do so {{.Often}}.", with)
	}
	return say.Of("With {{.Answers}}, a taster who can tell them apart half of the time will be shown to do so {{.Often}}.", with)
}

// neededWords says what it takes to make the power eight in ten. It follows the
// sentence that says how large it is.
func (f Foresight) neededWords(plan blind.Plan) say.Line {
	with := say.With{"Answers": countedOf(plan, f.Needed)}
	switch {
	case f.Needed == 0:
		return say.Of("To show that much eight times in ten would take more than anybody can taste.")
	case f.Power == 0:
		return whatIsThere(plan, with)
	case plan.Method == blind.Scaling && f.Needed <= f.Answers:
		return say.Of("About {{.Answers}} make that eight times in ten: this plan has enough.", with)
	case plan.Method == blind.Scaling: // simulated
		return say.Of("About {{.Answers}} make that eight times in ten.", with)
	case f.Needed <= f.Answers:
		return say.Of("From {{.Answers}} on it is always at least eight times in ten: this plan has enough.", with)
	}
	return say.Of("From {{.Answers}} on it is always at least eight times in ten.", with)
}

// sizeOf names the plan's size as a subject.
func sizeOf(plan blind.Plan) say.Line {
	if len(plan.Tasters) == 1 {
		return rounds(plan.Rounds)
	}
	return say.Of("{{.Tasters}} tasters with {{.Rounds}} each", say.With{"Tasters": len(plan.Tasters), "Rounds": rounds(plan.Rounds)})
}

// countsTasters reports whether the test counts tasters and not answers: where
// several say which loaf they like better, or score.
func countsTasters(plan blind.Plan) bool {
	return len(plan.Tasters) > 1 && (plan.AsksLiking() || plan.Method == blind.Scaling)
}

// countedIn is how many of what the test counts a plan brings in.
func countedIn(plan blind.Plan) int {
	if countsTasters(plan) {
		return len(plan.Tasters)
	}
	return plan.Answers()
}

// countedOf names a number of what the test counts: rounds where one tastes.
func countedOf(plan blind.Plan, n int) say.Line {
	switch {
	case len(plan.Tasters) == 1:
		return rounds(n)
	case countsTasters(plan):
		return say.N("{{.N}} taster", "{{.N}} tasters", n)
	}
	return answers(n)
}

func agreeing(plan blind.Plan, n int) say.Line {
	switch {
	case plan.Method.Discriminates():
		return say.N("{{.N}} answer is right", "{{.N}} answers are right", n)
	case countsTasters(plan):
		return say.N("{{.N}} taster likes the same loaf better", "{{.N}} tasters like the same loaf better", n)
	case plan.Expected != 0:
		return say.N("{{.N}} answer names “{{.Loaf}}”", "{{.N}} answers name “{{.Loaf}}”", n, say.With{"Loaf": plan.Loaves[plan.Expected-1].Name})
	}
	return say.N("{{.N}} answer names the same loaf", "{{.N}} answers name the same loaf", n)
}

// whatIsThere says what would be shown with enough answers: what a plan is
// judged by, as a thing that can be shown.
func whatIsThere(plan blind.Plan, with say.With) say.Line {
	switch {
	case plan.Method == blind.Scaling:
		return say.Of("A true difference of two points on the scale would be shown about eight times in ten with {{.Answers}}.", with)
	case plan.Method == blind.Paired && plan.Attribute == "":
		return say.Of("A liking for the same loaf three times in four would be shown at least eight times in ten with {{.Answers}} or more.", with)
	}
	return say.Of("A difference that is noticed half of the time would be shown at least eight times in ten with {{.Answers}} or more.", with)
}
