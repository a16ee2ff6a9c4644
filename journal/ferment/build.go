package ferment

import (
	"cmp"
	"fmt"
	"math"
	"time"

	"twinloaf/journal/say"
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
	Feedings  int   // past feedings the times rest on; 0 is a guess
}

// Words say the plan: a line for each feeding, and one for the hour it is ripe.
func (b Build) Words() []say.Line {
	var out []say.Line
	for _, s := range b.Steps {
		g := say.With{"Keep": weighed(s.Kept), "Flour": weighed(s.Flour), "Water": weighed(s.Water), "Total": weighed(s.Total()), "Off": weighed(s.ThrowAway)}
		line := say.Of("Keep {{.Keep}}, add {{.Flour}} flour and {{.Water}} water; there will be {{.Total}}.", g)
		if s.ThrowAway >= 0.5 {
			line = say.Join(line, say.Of("Take out {{.Off}} first: bake with it or discard it.", g))
		}
		out = append(out, line)
	}
	g := say.With{"Amount": weighed(b.Amount), "Back": weighed(b.KeepBack)}
	if b.KeepBack <= 0 {
		return append(out, say.Of("Ripe. Take {{.Amount}}. Nothing is kept back: keep a piece of the culture elsewhere.", g))
	}
	return append(out, say.Of("Ripe. Take {{.Amount}} and keep {{.Back}} back.", g))
}

// Rests says what the hours of the plan rest on, and what it leaves over.
func (b Build) Rests() say.Line {
	with := say.With{"N": b.Feedings, "Off": weighed(b.ThrowAway)}
	if b.Feedings == 0 {
		return say.Of("A guess, approximate: no feeding of this culture has been read. {{.Off}} are left over in all.", with)
	}
	return say.Of("From its own past feedings ({{.N}}), approximate. {{.Off}} are left over in all.", with)
}

// weighed is a weight without decimals that no kitchen scale has.
func weighed(g Grams) say.Quantity {
	if g >= 10 {
		return say.Grams(math.Round(float64(g)), 0)
	}
	return say.Quantity{Number: say.Round(g, 1), Unit: "g"}
}

// Obstacle is why a build cannot be had.
type Obstacle string

// The obstacles.
const (
	TooSoon    Obstacle = "too soon"
	TooLate    Obstacle = "too late"
	NoTimeLeft Obstacle = "no time left"
	TooLittle  Obstacle = "too little"
	WrongTemp  Obstacle = "wrong temperature"
)

// Line says in words why the build cannot be had.
func (o Obstacle) Line() say.Line { return obstacles[o] }

var obstacles = map[Obstacle]say.Line{
	TooSoon:    say.Of("there is too little time: even with most kept it is not ripe by then"),
	TooLate:    say.Of("the feeding times lie so early that it would be past its ripe window"),
	NoTimeLeft: say.Of("no feeding time is left between now and then outside the hours of sleep"),
	TooLittle:  say.Of("there is too little culture in the jar for the feedings that fit"),
	WrongTemp:  say.Of("at this temperature the culture is as good as asleep"),
}

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

func (e *InfeasibleError) Error() string { return "planning a build: " + e.Line().String() }

// Line says it in a sentence, without what is nearest.
func (e *InfeasibleError) Line() say.Line {
	return say.Of("That cannot be done: {{.Why}}.", say.With{"Why": e.Obstacle.Line()})
}

// PlanBuild finds the fewest feedings with which the ask is met, and among those
// the ones with the mildest ratios and the surest hour.
//
// Errors: [*InfeasibleError], or a sentence on an ask that makes no sense.
func PlanBuild(f *Forecaster, ask BuildAsk) (Build, error) {
	if err := ask.check(); err != nil {
		return Build{}, err
	}
	ask.Hydration = cmp.Or(ask.Hydration, 1)
	ask.Limits = ask.Limits.orUsual()
	plan, obstacle := search(f, ask)
	if obstacle == "" {
		return plan, nil
	}
	return Build{}, &InfeasibleError{Obstacle: obstacle, Nearest: nearest(f, ask)}
}

func (a BuildAsk) check() error {
	wrong := func(line say.Line) error { return fmt.Errorf("planning a build: %w", &say.Error{Said: line}) }
	numbers := []float64{float64(a.Amount), float64(a.KeepBack), a.Hydration, float64(a.Temp), float64(a.Culture.Flour), float64(a.Culture.Water)}
	switch {
	case !allFinite(numbers):
		return wrong(say.Of("a number is missing"))
	case a.Amount <= 0 || a.KeepBack < 0 || a.Amount+a.KeepBack > 1e6:
		return wrong(say.Of("{{.Amount}} and {{.Back}} kept back cannot be made", say.With{"Amount": weighed(a.Amount), "Back": weighed(a.KeepBack)}))
	case a.Hydration < 0 || a.Hydration > 5 || (a.Hydration > 0 && a.Hydration < 0.4):
		return wrong(say.Of("a hydration of {{.Hydration}} is no culture", say.With{"Hydration": say.Percent(100*a.Hydration, 0)}))
	case a.Culture.Flour <= 0 || a.Culture.Water < 0:
		return wrong(say.Of("there is no culture in the jar"))
	case !a.RipeAt.After(a.Now):
		return wrong(say.Of("the hour it is wanted ripe has passed"))
	case a.RipeAt.Sub(a.Now) > 14*24*time.Hour:
		return wrong(say.Of("more than two weeks ahead; plan it nearer the day"))
	}
	return nil
}
