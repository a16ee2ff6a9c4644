package ferment

import (
	"math"
	"slices"
	"time"

	"twinloaf/journal/say"
)

// Thresholds say when a culture counts as ready to bake with.
type Thresholds struct {
	Rise   Rise          // a feeding counts if it rises to this
	Within time.Duration // of the feeding
	InARow int           // feedings, one after the other
	MinAge time.Duration
	Smells []Smell // the last smell noted is one of these
}

// UsualThresholds are common practice, no source: doubled within eight hours on
// three feedings in a row, a week old, smelling sour, fruity or milky.
func UsualThresholds() Thresholds {
	return Thresholds{
		Rise: 2, Within: 8 * time.Hour, InARow: 3, MinAge: 7 * 24 * time.Hour,
		Smells: []Smell{SmellSour, SmellFruity, SmellMilky},
	}
}

// ConditionCode names one condition of readiness.
type ConditionCode string

// The conditions, in the order in which they are listed.
const (
	ConditionSafe  ConditionCode = "no danger sign"
	ConditionRises ConditionCode = "rises in time"
	ConditionAge   ConditionCode = "old enough"
	ConditionSmell ConditionCode = "smells right"
	ConditionAcid  ConditionCode = "sour enough" // listed only where a pH or an acidity tells
)

// Line names the condition within a sentence.
func (c ConditionCode) Line() say.Line {
	switch c {
	case ConditionSafe:
		return say.Of("no danger sign")
	case ConditionRises:
		return say.Of("rises in time")
	case ConditionAge:
		return say.Of("old enough")
	case ConditionAcid:
		return say.Of("sour enough")
	}
	return say.Of("smells right")
}

// Verdict is whether a condition is met. The zero value is "cannot be told".
type Verdict int

// The verdicts.
const (
	Unknown Verdict = iota
	NotMet
	Met
)

// Condition is one condition of readiness with what it rests on.
type Condition struct {
	Code     ConditionCode
	Verdict  Verdict
	Have     float64  // feedings in a row, days of age, pH, or ml per 10 g; else 0
	Want     float64  // the threshold in the same unit; else 0
	Titrated bool     // Have and Want are an acidity, not a pH
	Evidence []string // IDs of the feedings or readings it rests on
}

// Readiness is whether a culture is ready, condition by condition. It is no
// score: a culture is ready when every condition is met.
type Readiness struct {
	Ready      bool
	Conditions []Condition
	Feedings   []FeedingTest // newest last
}

// FeedingTest is how one feeding stands to the threshold of rise.
type FeedingTest struct {
	ID      string
	Verdict Verdict // Unknown: not read, or still within its time
	Best    Rise    // highest reading within the time; 0 if none
}

// Life is what is known of a culture until now.
type Life struct {
	Born    time.Time
	Courses []Course // in any order
	Now     time.Time

	// Cleared is when the baker said that what was noted as mould or a tint until then was
	// something else; zero if never. Inherited are such readings of the culture that this
	// one was split from.
	Cleared   time.Time
	Inherited []Reading
}

// sorted are the courses begun until now, in order of time. They must not be altered.
func (l Life) sorted() []Course {
	all := inOrder(l.Courses, func(a, b Course) int { return a.Feeding.At.Compare(b.Feeding.At) })
	if later := slices.IndexFunc(all, func(c Course) bool { return c.Feeding.At.After(l.Now) }); later >= 0 {
		return all[:later:later]
	}
	return all
}

// Ready works out readiness from the record. A feeding that nobody read, or
// whose time is not up, neither counts nor breaks a row.
func Ready(l Life, th Thresholds) Readiness {
	var r Readiness
	courses := l.sorted()
	for _, c := range courses {
		r.Feedings = append(r.Feedings, test(c, th, l.Now))
	}
	r.Conditions = []Condition{
		safe(l), rises(r.Feedings, th), aged(l, th), smells(courses, th, l.Now),
	}
	if acid, measured := sour(courses, l.Now); measured {
		r.Conditions = append(r.Conditions, acid)
	} else if acid, known := titrated(courses, r.Feedings, l.Now); known {
		r.Conditions = append(r.Conditions, acid)
	}
	r.Ready = !slices.ContainsFunc(r.Conditions, func(c Condition) bool { return c.Verdict != Met })
	return r
}

// ThresholdTemp is the temperature that "within eight hours" is said for (common
// practice, no source: a warm kitchen).
const ThresholdTemp Celsius = 24

// within is the time that a feeding has by the clock: the threshold's at ThresholdTemp, and
// longer where it stands cooler. Where it stands warmer, or no temperature was written
// down, the threshold is taken as it is. A kitchen of 18 °C is given half as long again and
// more by the same yeast.
func (th Thresholds) within(c Course) time.Duration {
	sum, n := 0.0, 0.0
	for _, p := range c.temperatures(c.Feeding.At.Add(th.Within)) {
		sum, n = sum+float64(p.Temp), n+1
	}
	if n == 0 || c.Feeding.Place == Refrigerator {
		return th.Within
	}
	const usual = 2 // the middling one of Heats
	heat := heats()[usual].Growth
	here := pace(heat, Celsius(sum/n))
	if here <= asleepPace || Celsius(sum/n) >= ThresholdTemp {
		return th.Within
	}
	return time.Duration(float64(th.Within) * min(3, pace(heat, ThresholdTemp)/here))
}

func test(c Course, th Thresholds, now time.Time) FeedingTest {
	t := FeedingTest{ID: c.Feeding.ID}
	before := Reading{At: c.Feeding.At, Rise: 1}
	within := th.within(c)
	deadline := c.Feeding.At.Add(within)
	closed := false // a reading near or past the deadline settles the question
	for _, r := range c.after() {
		if r.Rise <= 0 || r.At.After(now) {
			continue
		}
		if t.Verdict != Met && r.Rise >= th.Rise {
			at := r.At
			if r.Rise > before.Rise { // when the threshold was reached, on a straight line between readings
				share := clamp(float64((th.Rise-before.Rise)/(r.Rise-before.Rise)), 0, 1)
				at = before.At.Add(time.Duration(share * float64(r.At.Sub(before.At))))
			}
			if !at.After(deadline) {
				t.Verdict = Met
			}
		}
		if !r.At.After(deadline) {
			t.Best = max(t.Best, r.Rise)
		}
		// A reading in the last quarter of the time, or any after it, would have
		// caught a rise that was under way.
		closed = closed || r.At.Sub(c.Feeding.At) >= within*3/4
		before = r
	}
	if t.Verdict != Met && closed && !now.Before(deadline) {
		t.Verdict = NotMet
	}
	return t
}

func rises(tests []FeedingTest, th Thresholds) Condition {
	c := Condition{Code: ConditionRises, Want: float64(th.InARow)}
	var broke *FeedingTest
	for i := len(tests) - 1; i >= 0 && len(c.Evidence) < th.InARow; i-- {
		if tests[i].Verdict == NotMet {
			broke = &tests[i]
			break
		}
		if tests[i].Verdict == Met {
			c.Evidence = append(c.Evidence, tests[i].ID)
		}
	}
	slices.Reverse(c.Evidence)
	c.Have = float64(len(c.Evidence))
	switch {
	case len(c.Evidence) >= th.InARow:
		c.Verdict = Met
	case broke != nil:
		c.Verdict = NotMet
		c.Evidence = append([]string{broke.ID}, c.Evidence...)
	case len(c.Evidence) > 0:
		c.Verdict = NotMet
	}
	return c
}

func aged(l Life, th Thresholds) Condition {
	age := max(0, l.Now.Sub(l.Born)) // a clock that was set back
	c := Condition{Code: ConditionAge, Verdict: NotMet, Have: math.Floor(age.Hours() / 24), Want: th.MinAge.Hours() / 24}
	if age >= th.MinAge {
		c.Verdict = Met
	}
	if l.Born.IsZero() {
		return Condition{Code: ConditionAge, Want: c.Want}
	}
	return c
}

func smells(courses []Course, th Thresholds, now time.Time) Condition {
	c := Condition{Code: ConditionSmell}
	var last Reading
	for _, course := range courses {
		for _, r := range course.after() {
			if r.Smell != "" && !r.At.After(now) && !r.At.Before(last.At) {
				last = r
			}
		}
	}
	if last.Smell == "" {
		return c
	}
	c.Evidence = []string{last.ID}
	c.Verdict = NotMet
	if slices.Contains(th.Smells, last.Smell) {
		c.Verdict = Met
	}
	return c
}

// ripePH is what the pH of a ripe culture comes down to (common practice, no source). One
// wheat sourdough was at 4.26 four hours after mixing and at 3.89 mature ([AcidityWords]).
const ripePH = 4.3

// acidKept is for how long a measured pH speaks for a culture.
const acidKept = 14 * 24 * time.Hour

// sour is the condition that a pH measured in the last two weeks sets: the lowest of the
// latest feeding in which one was. False where none was.
func sour(courses []Course, now time.Time) (Condition, bool) {
	for _, c := range slices.Backward(courses) {
		lowest := Reading{}
		for _, r := range c.after() {
			plausible := r.PH >= 2 && r.PH <= 9 && !r.At.After(now) && now.Sub(r.At) <= acidKept
			if plausible && (lowest.PH == 0 || r.PH < lowest.PH) {
				lowest = r
			}
		}
		if lowest.PH == 0 {
			continue
		}
		out := Condition{Code: ConditionAcid, Verdict: NotMet, Have: lowest.PH, Want: ripePH, Evidence: []string{lowest.ID}}
		if lowest.PH <= ripePH {
			out.Verdict = Met
		}
		return out, true
	}
	return Condition{}, false
}

// ownAcid is the share of the acidity that a culture's feedings usually come to which counts
// as sour, and fewAcid on how many feedings that rests at least (our own choice).
const (
	ownAcid = 0.8
	fewAcid = 2
)

// titrated is the condition that titrations set where no pH was measured: the greatest of
// the latest feeding in which there was one, against the middle of the greatest of those
// feedings before it that rose in time, titrated alike. What others' cultures come to is no
// measure, since samples and end points differ. False where there is too little to compare.
func titrated(courses []Course, tests []FeedingTest, now time.Time) (Condition, bool) {
	latest := -1
	var last Reading
	var own []float64
	for i, c := range slices.Backward(courses) {
		most := Reading{}
		for _, r := range c.after() {
			ml, ok := r.Acid.PerTenGrams()
			before, _ := most.Acid.PerTenGrams()
			if ok && ml > before && !r.At.After(now) && (latest < 0 || r.Acid.Comparable(last.Acid)) {
				most = r
			}
		}
		ml, ok := most.Acid.PerTenGrams()
		switch {
		case !ok || ml == 0:
		case latest < 0:
			if now.Sub(most.At) > acidKept {
				return Condition{}, false
			}
			latest, last = i, most
		case tests[i].Verdict == Met:
			own = append(own, ml)
		}
	}
	if latest < 0 || len(own) < fewAcid {
		return Condition{}, false
	}
	slices.Sort(own)
	usual := (own[(len(own)-1)/2] + own[len(own)/2]) / 2
	ml, _ := last.Acid.PerTenGrams()
	out := Condition{Code: ConditionAcid, Verdict: NotMet, Have: ml, Want: ownAcid * usual, Titrated: true, Evidence: []string{last.ID}}
	if ml >= out.Want {
		out.Verdict = Met
	}
	return out, true
}

func safe(l Life) Condition {
	c := Condition{Code: ConditionSafe, Verdict: Met}
	if d := l.Dangers(); len(d) > 0 {
		c.Verdict = NotMet
		for _, r := range d {
			c.Evidence = append(c.Evidence, r.ID)
		}
	}
	return c
}

// Open lists the conditions that are not met; it says nothing if all are.
func (r Readiness) Open() say.Line {
	var open []say.Line
	for _, c := range r.Conditions {
		if c.Verdict != Met {
			open = append(open, c.Code.Line())
		}
	}
	return say.And(open...)
}

// Sentence says in one line whether the culture is ready and, if not, what for.
func (r Readiness) Sentence() say.Line {
	if r.Ready {
		return say.Of("Ready: every condition is met.")
	}
	for _, c := range r.Conditions {
		if c.Code == ConditionSafe && c.Verdict == NotMet {
			return ThrowAway()
		}
	}
	return say.Of("Not ready yet; still open: {{.What}}.", say.With{"What": r.Open()})
}
