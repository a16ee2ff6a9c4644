package ferment

import (
	"math"
	"slices"
	"time"

	"twinloaf/journal/say"
)

// Stage is where a young culture is on its usual way.
type Stage string

// The stages. Spontaneous cultures pass from unwanted gas-making bacteria,
// through a lull as acid rises, to adapted lactic bacteria and yeasts, and are
// stable after about 5 to 7 daily refreshments in published studies (Van der
// Meulen 2007; Ercolini 2013), 7 to 14 days in home practice (common practice, no
// source).
const (
	StageUnread Stage = "not read yet"
	StageQuiet  Stage = "quiet beginning"
	StageBurst  Stage = "early burst"
	StageLull   Stage = "lull"
	StageWaking Stage = "waking"
	StageSteady Stage = "steady"
	StageSlow   Stage = "slow" // past its first weeks, and not rising well
	StageDanger Stage = "throw away"
	StageLong   Stage = "long lull"   // a lull that lasts longer than usual
	StageStill  Stage = "not started" // it ought to have stirred by now
	StageHot    Stage = "too warm"
	StageFoul   Stage = "foul" // a smell that the first days excuse and later ones do not
)

// What the guide looks for; our own reading of the usual course.
const (
	burstRise     = 1.5 // a rise to this in the first days is the burst
	burstLastDay  = 4   // it comes by this day of age
	lullShare     = 0.5 // the lull stays below this part of the burst's rise over the mark
	lullRise      = 1.35
	wakingRise    = 1.5
	steadyRise    = 2.0
	steadyInARow  = 3
	firstWeeksDay = 21 // from here on a low rise is no longer part of the beginning

	stirDay   = 8  // by now most cultures have stirred (common practice, no source)
	longLull  = 8  // days; the usual lull is shorter
	longDay   = 14 // of age; cultures are stable after 7 to 14 days in home practice
	unreadFor = 3  // days without a reading after which nothing is said of the present
	foulDay   = 5  // of age; up to here a foul smell is usual

	// tooWarm is a little below where the yeast of the published rules of thumb stops (35 °C,
	// growth_vs_temperature_points.csv; a quarter of its best rate is left at 34).
	tooWarm Celsius = 34
	// tooCool is where little stirs in a week: a quarter of the yeast's best rate is left at
	// 14 °C, half at 20 (the same points).
	tooCool Celsius = 18
)

// DayRise is the best rise of a day. Day 1 is the first 24 hours.
type DayRise struct {
	Day      int
	Rise     Rise
	Readings []string // IDs
}

// Lull is the pause after the early burst, by days of age.
type Lull struct {
	Found     bool
	First     int // first and last day with low readings
	Last      int
	Over      bool // a later reading shows it rising again
	BurstDay  int
	BurstRise Rise
}

func (l Lull) long() bool { return l.Last-l.First >= longLull }

// Guide is where a culture is on the day it is in. Cautions come before all else.
type Guide struct {
	Day      int // of age; 1 is the first 24 hours
	Stage    Stage
	Lull     Lull
	Cautions []say.Line // those that its last readings call for; [Standing] ones not
	Evidence []string   // IDs of the readings it rests on
	Days     []DayRise

	Warmth Temperature // mean of what was written down in the last three days
	Unread int         // whole days since the last height was read
	Foul   int         // days on which it smelled foul, past its first five; 0 if it smelled otherwise since
	Hungry bool        // liquid on top, or solvent, since the last feeding
}

// FirstWeeks reads the stage of a culture's beginning off its readings. Nothing
// is named that the readings do not look like.
func FirstWeeks(l Life) Guide {
	courses := l.sorted()
	g := Guide{Day: DayOfAge(l.Born, l.Now), Days: dayRises(l, courses)}
	if !l.Born.IsZero() {
		g.findLull()
	}
	if bad := l.Dangers(); len(bad) > 0 {
		g.Stage = StageDanger
		for _, r := range bad {
			g.Evidence = append(g.Evidence, r.ID)
		}
		g.Cautions = []say.Line{ThrowAway()}
		return g
	}
	foul := g.look(l, courses)
	g.Stage = g.judge()
	g.rest(foul)
	g.Cautions = noteworthy(courses, l.Now, g.Day)
	return g
}

// DayOfAge is the day of a culture's life that a time lies in; day 1 is the
// first 24 hours, 0 is before it was born.
func DayOfAge(born, t time.Time) int {
	if born.IsZero() || t.Before(born) {
		return 0
	}
	return int(math.Floor(t.Sub(born).Hours()/24)) + 1
}

// dayRises gives each feeding's highest reading to the day of the feeding. A
// first mix may stand for days before it is fed; its height counts for the day
// it was read. Of a culture whose birth is not known the days are those since its first feeding.
func dayRises(l Life, courses []Course) []DayRise {
	if l.Born.IsZero() && len(courses) > 0 {
		l.Born = courses[0].Feeding.At
	}
	byDay := map[int]*DayRise{}
	for _, c := range courses {
		for _, r := range c.after() {
			if r.Rise <= 0 || r.At.After(l.Now) {
				continue
			}
			day := DayOfAge(l.Born, c.Feeding.At)
			if c.Feeding.hoursSince(r.At) > 24 {
				day = DayOfAge(l.Born, r.At)
			}
			d := byDay[day]
			if d == nil {
				d = &DayRise{Day: day}
				byDay[day] = d
			}
			d.Rise = max(d.Rise, r.Rise)
			d.Readings = append(d.Readings, r.ID)
		}
	}
	var out []DayRise
	for _, d := range byDay {
		if d.Day > 0 {
			out = append(out, *d)
		}
	}
	slices.SortFunc(out, func(a, b DayRise) int { return a.Day - b.Day })
	return out
}

func (g *Guide) findLull() {
	burst := -1
	for i, d := range g.Days {
		if d.Day <= burstLastDay && d.Rise >= burstRise && (burst < 0 || d.Rise > g.Days[burst].Rise) {
			burst = i
		}
	}
	if burst < 0 {
		return
	}
	l := Lull{BurstDay: g.Days[burst].Day, BurstRise: g.Days[burst].Rise}
	for _, d := range g.Days[burst+1:] {
		low := d.Rise < lullRise && d.Rise-1 < lullShare*(l.BurstRise-1)
		switch {
		case low && !l.Over:
			if !l.Found {
				l.First = d.Day
			}
			l.Found, l.Last = true, d.Day
		case l.Found && d.Rise >= wakingRise:
			l.Over = true
		}
	}
	// A low rise only weeks later is no part of the beginning.
	if l.Found && l.First > l.BurstDay+7 {
		l.Found, l.First, l.Last, l.Over = false, 0, 0, false
	}
	g.Lull = l
}

func (g *Guide) stage() Stage {
	n := len(g.Days)
	if n == 0 {
		return StageUnread
	}
	last := g.Days[n-1]
	steady := n >= steadyInARow && last.Day > burstLastDay
	for _, d := range g.Days[max(0, n-steadyInARow):] {
		steady = steady && d.Rise >= steadyRise
	}
	switch {
	case steady && g.Days[n-steadyInARow].Day > g.Lull.BurstDay:
		return StageSteady
	case g.Lull.BurstDay > 0 && last.Day <= g.Lull.BurstDay:
		return StageBurst
	case g.Lull.Found && !g.Lull.Over && last.Day == g.Lull.Last:
		return StageLull
	case last.Rise >= wakingRise && last.Day > burstLastDay, g.Lull.Found && last.Rise >= lullRise:
		return StageWaking
	case last.Day >= firstWeeksDay:
		return StageSlow
	case g.Lull.BurstDay > 0 && !g.Lull.Found:
		return StageBurst
	default:
		return StageQuiet
	}
}

// look gathers what the stage depends on beside the heights, and gives the readings whose smell
// was foul when that is no longer usual.
func (g *Guide) look(l Life, courses []Course) (smelly []string) {
	sum, n, lastRise := 0.0, 0.0, time.Time{}
	foul := map[int]bool{}
	smelt := Reading{}
	for i, c := range courses {
		for _, p := range c.temperatures(l.Now) {
			if l.Now.Sub(p.At) <= 72*time.Hour {
				sum, n = sum+float64(p.Temp), n+1
			}
		}
		for _, r := range c.after() {
			if r.At.After(l.Now) {
				continue
			}
			if r.Rise > 0 {
				lastRise = r.At
			}
			if r.Smell != "" && !r.At.Before(smelt.At) {
				smelt = r
			}
			if day := DayOfAge(l.Born, r.At); r.Smell == SmellFoul && (day > foulDay || l.Born.IsZero()) {
				foul[day] = true
				smelly = append(smelly, r.ID)
			}
			if i == len(courses)-1 && (r.Smell == SmellSolvent || slices.Contains(r.Signs, SignGreyLiquid)) {
				g.Hungry = true
			}
		}
	}
	if n > 0 {
		g.Warmth = Measured(Celsius(sum / n))
	}
	if !lastRise.IsZero() {
		g.Unread = int(l.Now.Sub(lastRise).Hours() / 24)
	}
	if smelt.Smell == SmellFoul {
		g.Foul = len(foul)
	}
	return smelly
}

// judge is the stage with what the heights alone do not tell.
func (g *Guide) judge() Stage {
	stage := g.stage()
	rising := len(g.Days) > 0 && g.Days[len(g.Days)-1].Rise >= wakingRise
	switch {
	case g.Foul > 0:
		return StageFoul
	case g.Warmth.Known && g.Warmth.C >= tooWarm && !rising:
		return StageHot
	case stage != StageUnread && g.Unread >= unreadFor:
		return StageUnread
	case stage == StageLull && (g.Day >= longDay || g.Lull.long()):
		return StageLong
	case stage == StageQuiet && g.Day >= stirDay:
		return StageStill
	}
	return stage
}

// rest lists the readings that the stage rests on.
func (g *Guide) rest(foul []string) {
	if g.Stage == StageFoul {
		g.Evidence = foul
		return
	}
	from := max(0, len(g.Days)-steadyInARow)
	for i, d := range g.Days {
		inLull := g.Lull.Found && (d.Day == g.Lull.BurstDay || d.Day >= g.Lull.First && d.Day <= g.Lull.Last)
		if i >= from || inLull && g.Stage != StageSteady {
			g.Evidence = append(g.Evidence, d.Readings...)
		}
	}
}
