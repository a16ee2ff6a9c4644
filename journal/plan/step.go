package plan

import (
	"time"

	"twinloaf/journal/say"
)

// Minutes is a length in whole minutes: nobody plans dough by the second.
type Minutes int

// Duration gives the length as a duration.
func (m Minutes) Duration() time.Duration { return time.Duration(m) * time.Minute }

// Kind says what a step is.
type Kind string

// The kinds of steps.
const (
	Levain        Kind = "levain" // build the levain and let it ripen
	Mix           Kind = "mix"
	Rest          Kind = "rest" // covered, at room temperature
	Turns         Kind = "turns"
	Bulk          Kind = "bulk" // the rest of the bulk fermentation, left alone
	PreShape      Kind = "pre-shape"
	BenchRest     Kind = "bench rest" // from the first shaping to the last
	Divide        Kind = "divide and shape"
	Proof         Kind = "proof" // the final proof, in the warm
	ColdRest      Kind = "cold rest"
	Heat          Kind = "heat the oven"
	BakeCovered   Kind = "bake covered"
	BakeUncovered Kind = "bake uncovered"
	Cool          Kind = "cool"
	Other         Kind = "other"
)

// Kinds lists every kind in the order of a usual day.
func Kinds() []Kind {
	return []Kind{Levain, Mix, Rest, Turns, Bulk, PreShape, BenchRest, Divide, Proof, ColdRest, Heat, BakeCovered, BakeUncovered, Cool, Other}
}

// timed says that the length of such a step matters to the dough: that it is over is told
// as well as that it has begun. Of the others it is enough to know when they begin.
func (k Kind) timed() bool {
	switch k {
	case Levain, Rest, Bulk, BenchRest, Proof, ColdRest, BakeCovered, BakeUncovered:
		return true
	}
	return false
}

// Hands says when a step needs the baker.
type Hands string

// When a step needs hands. Turns need them at every turn, whatever is said here.
const (
	HandsOff        Hands = ""
	HandsAtStart    Hands = "start"
	HandsThroughout Hands = "throughout"
)

// Step is one part of the day.
type Step struct {
	// ID is unique in its plan and stays with the step as long as the plan
	// lives: marks and calendar entries refer to it.
	ID   string `json:"id"`
	Kind Kind   `json:"kind"`
	Name string `json:"name,omitzero"`
	Note string `json:"note,omitzero"`

	// Length is as planned. It may be changed to anything from Min to Max so
	// that the sleep hours stay free; with both 0, or both equal to Length,
	// the step is fixed.
	Length Minutes `json:"minutes"`
	Min    Minutes `json:"minMinutes,omitzero"`
	Max    Minutes `json:"maxMinutes,omitzero"`

	Hands Hands `json:"hands,omitzero"`

	// Turns and Every belong to a step of that kind: the first turn is Every
	// after the step begins, the last Turns*Every after it.
	Turns int     `json:"turns,omitzero"`
	Every Minutes `json:"everyMinutes,omitzero"`
}

// Bounds gives the least and the greatest length the step may have.
func (s Step) Bounds() (least, most Minutes) {
	if s.Min == 0 && s.Max == 0 {
		return s.Length, s.Length
	}
	return s.Min, s.Max
}

// The limits within which plans are made. A step of more than a fortnight is a
// slip of the keyboard; more room to move, or more turns, would only make the
// search for the best plan slow.
const (
	longest   Minutes = 14 * 24 * 60
	mostSteps         = 60
	mostTurns         = 1000
	// What steps that need hands throughout may move together: they are the
	// dearest to search, and no one kneads for twelve hours.
	mostHands Minutes = 12 * 60
)

// ErrSteps is wrapped by every complaint about steps that make no plan.
var ErrSteps = say.NewError("these steps make no plan")

// Check says what is wrong with the steps, naming the first step at fault.
func Check(steps []Step) error {
	if len(steps) == 0 {
		return &say.Error{Said: say.Of("there are no steps yet"), Err: ErrSteps}
	}
	if len(steps) > mostSteps {
		return noPlan(say.Of("there are {{.N}}, and {{.Most}} is the most", say.With{"N": len(steps), "Most": mostSteps}))
	}
	seen := make(map[string]bool, len(steps))
	for i, s := range steps {
		fault := s.fault()
		if fault.IsZero() && seen[s.ID] {
			fault = say.Of("another step has the same mark “{{.Mark}}”", say.With{"Mark": s.ID})
		}
		if !fault.IsZero() {
			return noPlan(say.Of("step {{.N}}, {{.Step}}: {{.Fault}}", say.With{"N": i + 1, "Step": s.Line(), "Fault": fault}))
		}
		seen[s.ID] = true
	}
	return checkRoom(steps)
}

// noPlan says why steps make no plan.
func noPlan(why say.Line) error {
	return &say.Error{Said: say.Of("these steps make no plan: {{.Why}}", say.With{"Why": why}), Err: ErrSteps}
}

// checkRoom says whether there is more to try out than a search should.
func checkRoom(steps []Step) error {
	var room, handsRoom Minutes
	turns := 0
	for _, s := range steps {
		least, most := s.Bounds()
		room += most - least
		if s.Hands == HandsThroughout {
			handsRoom += most - least
		}
		turns += s.Turns
	}
	switch {
	case room > longest:
		return noPlan(say.Of("together they may grow or shrink by more than a fortnight"))
	case handsRoom > mostHands:
		return noPlan(say.Of("those that need hands throughout may together grow or shrink by more than {{.Length}}", say.With{"Length": mostHands.Line()}))
	case turns > mostTurns:
		return noPlan(say.Of("there are {{.N}} folds, and {{.Most}} is the most", say.With{"N": turns, "Most": mostTurns}))
	}
	return nil
}

func (s Step) fault() say.Line {
	least, most := s.Bounds()
	switch {
	case s.ID == "" || s.ID == readyID:
		return say.Of("it needs a mark of its own, and has “{{.Mark}}”", say.With{"Mark": s.ID})
	case least < 0 || s.Length < least || s.Length > most:
		return say.Of("its length of {{.Length}} is not between {{.Least}} and {{.Most}}",
			say.With{"Length": s.Length.Line(), "Least": least.Line(), "Most": most.Line()})
	case most > longest:
		return say.Of("{{.Length}} are more than a fortnight", say.With{"Length": most.Line()})
	case s.Turns < 0 || s.Every < 0:
		return say.Of("folds cannot be fewer than none")
	case s.Turns > 0 && s.Kind != Turns:
		return say.Of("only a step “Folds” has folds")
	case s.Turns > 0 && s.Every == 0:
		return say.Of("folds need time between them")
	case Minutes(s.Turns)*s.Every > least:
		return say.N("one fold after {{.Every}} needs more than {{.Length}}", "{{.N}} folds, one every {{.Every}}, need more than {{.Length}}",
			s.Turns, say.With{"Every": s.Every.Line(), "Length": least.Line()})
	}
	return say.Line{}
}
