package ferment

import (
	"errors"
	"fmt"
	"time"
)

// Sleep is a span of the day in which nobody feeds, as time after midnight. It
// may reach over midnight: 22:30 to 06:30.
type Sleep struct {
	From, To time.Duration
}

// holds says whether the clock of t stands within the span, its end left out.
func (s Sleep) holds(t time.Time) bool {
	clock := time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute + time.Duration(t.Second())*time.Second
	if s.From <= s.To {
		return clock >= s.From && clock < s.To
	}
	return clock >= s.From || clock < s.To
}

// BuildAsk is what is wanted of a build. Times are read on the clock of
// RipeAt's zone.
type BuildAsk struct {
	Amount    Grams     // wanted ripe
	KeepBack  Grams     // wanted beside it, to go on with
	RipeAt    time.Time // when
	Hydration float64   // of the build, 1 for 100 %; 0 means 1
	Temp      Celsius   // where it will stand
	Culture   Mix       // what is in the jar
	Now       time.Time // no feeding before this

	FeedAt []time.Time // times at which feeding is possible; none means any half hour
	Sleep  []Sleep     // none at these, whatever FeedAt says

	Limits BuildLimits // zero fields take the usual
}

// BuildLimits bound a build. The usual values are common practice, no source.
type BuildLimits struct {
	LeastDilution float64 // weight after a feeding over weight kept; usual 2 (1:½:½)
	MostDilution  float64 // usual 21 (1:10:10)
	Feedings      int     // at most; usual 3
	LeastKept     Grams   // smallest piece worth weighing; usual 2
	LeastMade     Grams   // smallest feeding between; usual 20
}

func (l BuildLimits) orUsual() BuildLimits {
	pick := func(v *float64, usual float64) {
		if *v <= 0 {
			*v = usual
		}
	}
	pick(&l.LeastDilution, 2)
	pick(&l.MostDilution, 21)
	if l.Feedings <= 0 {
		l.Feedings = 3
	}
	if l.LeastKept <= 0 {
		l.LeastKept = 2
	}
	if l.LeastMade <= 0 {
		l.LeastMade = 20
	}
	return l
}

// BuildStep is one feeding of a build.
type BuildStep struct {
	At        time.Time
	ThrowAway Grams // taken off before it, to be discarded or used otherwise
	Refreshment
	Expect struct{ RipeFrom, Peak, RipeTo time.Time }
}

// Total is the weight after the feeding.
func (s BuildStep) Total() Grams { return s.Kept + s.Flour + s.Water }

// Build is a plan: feedings in order, the last of which is ripe when asked.
// It is as approximate as the forecast it rests on.
type Build struct {
	Steps     []BuildStep
	RipeAt    time.Time
	Amount    Grams
	KeepBack  Grams
	ThrowAway Grams // over all feedings
	Feedings  int   // past feedings the times rest on; 0 is a guess from published rates
}

// Sentences say the plan in words, one per feeding and one for the end.
func (b Build) Sentences() []string {
	var out []string
	for _, s := range b.Steps {
		line := fmt.Sprintf("%s: keep %.0f g, add %.0f g flour and %.0f g water; there will be %.0f g.",
			s.At.Format("Mon 15:04"), float64(s.Kept), float64(s.Flour), float64(s.Water), float64(s.Total()))
		if s.ThrowAway >= 0.5 {
			line += fmt.Sprintf(" %.0f g are taken off: bake with them or throw them away.", float64(s.ThrowAway))
		}
		out = append(out, line)
	}
	end := fmt.Sprintf("%s: ripe; take %.0f g", b.RipeAt.Format("Mon 15:04"), float64(b.Amount))
	if b.KeepBack > 0 {
		end += fmt.Sprintf(" and keep %.0f g back", float64(b.KeepBack))
	} else {
		end += "; nothing is kept back, so keep a piece of the culture elsewhere"
	}
	return append(out, end+" (approximate).")
}

// Obstacle says why a build cannot be had.
type Obstacle string

// The obstacles.
const (
	TooSoon    Obstacle = "there is too little time: even with most kept it is not ripe by then"
	TooLate    Obstacle = "the feeding times lie so early that it would be past its ripe window"
	NoTimeLeft Obstacle = "no feeding time is left between now and then outside the hours of sleep"
	TooLittle  Obstacle = "there is too little culture in the jar for the feedings that fit"
	WrongTemp  Obstacle = "at this temperature the culture is as good as asleep"
)

// Nearest is a change to the ask with which it can be done.
type Nearest struct {
	RipeAt time.Time // differs if the hour has to move
	Temp   Celsius   // differs if the place has to change
	Amount Grams     // differs if there has to be less
	Plan   Build
}

// InfeasibleError tells that an ask cannot be met, and what nearly the same can.
type InfeasibleError struct {
	Obstacle Obstacle
	Nearest  []Nearest // smallest change of hour, of temperature, of amount, as far as any works
}

func (e *InfeasibleError) Error() string {
	s := "this build cannot be had: " + string(e.Obstacle)
	for i, n := range e.Nearest {
		lead := "; possible would be"
		if i > 0 {
			lead = ", or"
		}
		s += fmt.Sprintf("%s %.0f g at %s at %.1f °C", lead, float64(n.Amount), n.RipeAt.Format("Mon 15:04"), float64(n.Temp))
	}
	return s
}

// PlanBuild finds the fewest feedings with which the ask is met, and among those
// the ones with the mildest ratios and the surest hour.
//
// Errors: [*InfeasibleError], or a sentence on an ask that makes no sense.
func PlanBuild(f *Forecaster, ask BuildAsk) (Build, error) {
	if err := ask.check(); err != nil {
		return Build{}, err
	}
	if ask.Hydration == 0 {
		ask.Hydration = 1
	}
	ask.Limits = ask.Limits.orUsual()
	plan, obstacle := search(f, ask)
	if obstacle == "" {
		return plan, nil
	}
	return Build{}, &InfeasibleError{Obstacle: obstacle, Nearest: nearest(f, ask)}
}

func (a BuildAsk) check() error {
	numbers := []float64{float64(a.Amount), float64(a.KeepBack), a.Hydration, float64(a.Temp), float64(a.Culture.Flour), float64(a.Culture.Water)}
	switch {
	case !allFinite(numbers):
		return errors.New("planning a build: a number is missing")
	case a.Amount <= 0 || a.KeepBack < 0 || a.Amount+a.KeepBack > 1e6:
		return fmt.Errorf("planning a build: %.0f g and %.0f g kept back cannot be made", float64(a.Amount), float64(a.KeepBack))
	case a.Hydration < 0 || a.Hydration > 5 || (a.Hydration > 0 && a.Hydration < 0.4):
		return fmt.Errorf("planning a build: a hydration of %.0f %% is no culture", 100*a.Hydration)
	case a.Culture.Flour <= 0 || a.Culture.Water < 0:
		return errors.New("planning a build: there is no culture in the jar")
	case !a.RipeAt.After(a.Now):
		return errors.New("planning a build: the hour it is wanted ripe has passed")
	case a.RipeAt.Sub(a.Now) > 14*24*time.Hour:
		return errors.New("planning a build: more than two weeks ahead; plan it nearer the day")
	}
	return nil
}
