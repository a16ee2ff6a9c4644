package plan

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

func zone(t interface{ Fatal(...any) }, name string) *time.Location {
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

var sleep = Night{From: At(22, 30), To: At(6, 30)}

// anySteps draws steps that make a plan: fixed and movable, with and without
// hands, turns among them.
func anySteps(t *rapid.T) []Step {
	n := rapid.IntRange(1, 8).Draw(t, "steps")
	out := make([]Step, n)
	for i := range out {
		s := Step{
			ID: fmt.Sprintf("s%d", i), Kind: Rest,
			Length: Minutes(rapid.IntRange(0, 600).Draw(t, "length")),
			Hands:  rapid.SampledFrom([]Hands{HandsOff, HandsAtStart, HandsThroughout}).Draw(t, "hands"),
		}
		if s.Hands == HandsThroughout {
			s.Length /= 10
		}
		if rapid.IntRange(0, 3).Draw(t, "turns?") == 0 {
			s.Kind, s.Turns, s.Every = Turns, rapid.IntRange(1, 6).Draw(t, "turns"), Minutes(rapid.IntRange(1, 45).Draw(t, "every"))
			s.Length = max(s.Length, Minutes(s.Turns)*s.Every)
		}
		if rapid.Bool().Draw(t, "movable") {
			less, more := Minutes(rapid.IntRange(0, 300).Draw(t, "less")), Minutes(rapid.IntRange(0, 600).Draw(t, "more"))
			if s.Hands == HandsThroughout {
				less, more = less/10, more/10
			}
			s.Min, s.Max = max(s.Length-less, Minutes(s.Turns)*s.Every), s.Length+more
		}
		out[i] = s
	}
	return out
}

func anyTime(t *rapid.T) time.Time {
	loc := zone(t, rapid.SampledFrom([]string{"UTC", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"}).Draw(t, "zone"))
	return time.Date(2026, 1, 1, 0, rapid.IntRange(0, 366*24*60).Draw(t, "minute"), 0, 0, loc)
}

// anyNight begins and ends outside the hours that come twice or not at all when
// clocks change; those have a test of their own.
func anyNight(t *rapid.T) Night {
	return Night{From: ClockTime(rapid.IntRange(210, 1439).Draw(t, "from")), To: ClockTime(rapid.IntRange(210, 1439).Draw(t, "to"))}
}

// keepsBounds holds a plan's steps against those it was made of.
func keepsBounds(t *rapid.T, before []Step, p Plan) {
	for i, s := range p.Steps {
		least, most := before[i].Bounds()
		if s.Length < least || s.Length > most {
			t.Fatalf("%s of %d min left its bounds %d to %d", s.ID, s.Length, least, most)
		}
		if least == most && s.Length != before[i].Length {
			t.Fatalf("fixed %s went from %d to %d min", s.ID, before[i].Length, s.Length)
		}
		s.Length = before[i].Length
		if s != before[i] {
			t.Fatalf("more than the length of %s was changed", s.ID)
		}
	}
}

func TestAPlanKeepsFixedStepsAndBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps, at, night := anySteps(t), anyTime(t), anyNight(t)
		backward := rapid.Bool().Draw(t, "backward")
		var s Schedule
		var err error
		if backward {
			s, err = Backward(steps, at, time.Time{}, night)
		} else {
			s, err = Forward(steps, at, night)
		}
		if err != nil {
			t.Fatal(err)
		}
		keepsBounds(t, steps, s.Plan)
		end := s.Plan.Start
		if backward {
			end = s.Plan.ReadyAt()
		}
		if !end.Equal(at) {
			t.Fatalf("asked for %v, got %v", at, end)
		}
		// What the schedule calls broken is what an independent look finds.
		if got, want := len(s.Broken), handsAtNight(s.Plan, night); got != want {
			t.Fatalf("%d broken, %d in the night", got, want)
		}
		if (len(said(s)) == 0) != (s.OK() && len(s.Changes) == 0) {
			t.Fatalf("says %q of %d changes and %d broken", said(s), len(s.Changes), len(s.Broken))
		}
		if s.Nearest != nil {
			keepsBounds(t, steps, *s.Nearest)
			if n := handsAtNight(*s.Nearest, night); n != 0 || s.Away == 0 {
				t.Fatalf("the nearest plan, %d min away, has %d moments in the night", s.Away, n)
			}
		}
	})
}

// said is what a schedule says in English.
func said(s Schedule) []string {
	var out []string
	for _, l := range s.Words() {
		out = append(out, l.String())
	}
	return out
}

// handsAtNight counts by the wall clock alone, minute by minute.
func handsAtNight(p Plan, night Night) int {
	asleep := func(at time.Time) bool {
		if night.From == night.To {
			return false
		}
		c := ClockTime(at.Hour()*60 + at.Minute())
		if night.From < night.To {
			return c >= night.From && c < night.To
		}
		return c >= night.From || c < night.To
	}
	n := 0
	count := func(from time.Time, length Minutes) {
		for m := Minutes(0); m == 0 || m < length; m++ {
			if asleep(from.Add(m.Duration())) {
				n++
				return
			}
		}
	}
	at := p.Start
	for _, s := range p.Steps {
		switch s.Hands {
		case HandsAtStart:
			count(at, 0)
		case HandsThroughout:
			count(at, s.Length)
		}
		for i := range s.Turns {
			count(at.Add((Minutes(i+1) * s.Every).Duration()), 0)
		}
		at = at.Add(s.Length.Duration())
	}
	return n
}

// On small plans every combination of lengths is tried: none is better.
func TestNoPlanChangesLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, night := anyTime(t), anyNight(t)
		steps := make([]Step, 3)
		for i := range steps {
			least := Minutes(rapid.IntRange(0, 300).Draw(t, "least"))
			room := Minutes(rapid.IntRange(0, 25).Draw(t, "room"))
			steps[i] = Step{
				ID: fmt.Sprint(i), Kind: Rest, Min: least, Max: least + room,
				Length: least + Minutes(rapid.IntRange(0, int(room)).Draw(t, "length")),
				Hands:  rapid.SampledFrom([]Hands{HandsOff, HandsAtStart, HandsThroughout}).Draw(t, "hands"),
			}
		}
		backward := rapid.Bool().Draw(t, "backward")
		s, err := Forward(steps, at, night)
		if backward {
			s, err = Backward(steps, at, time.Time{}, night)
		}
		if err != nil {
			t.Fatal(err)
		}
		changed := func(p Plan) (sum Minutes) {
			for i := range p.Steps {
				d := p.Steps[i].Length - steps[i].Length
				sum += max(d, -d)
			}
			return sum
		}
		got, gotChanged := handsAtNightQuick(s.Plan, night), changed(s.Plan)
		for a := steps[0].Min; a <= steps[0].Max; a++ {
			for b := steps[1].Min; b <= steps[1].Max; b++ {
				for c := steps[2].Min; c <= steps[2].Max; c++ {
					p := Plan{Start: at, Steps: append([]Step{}, steps...)}
					p.Steps[0].Length, p.Steps[1].Length, p.Steps[2].Length = a, b, c
					if backward {
						p.Start = at.Add(-p.Length().Duration())
					}
					if changed(p) >= gotChanged {
						continue
					}
					if n := handsAtNightQuick(p, night); n <= got {
						t.Fatalf("changes %d min with %d at night; %d, %d, %d changes %d with %d", gotChanged, got, a, b, c, changed(p), n)
					}
				}
			}
		}
	})
}

func handsAtNightQuick(p Plan, night Night) int { return len(p.AtNight(night, time.Time{})) }

func lengthOf(p Plan, id string) Minutes {
	for _, s := range p.Steps {
		if s.ID == id {
			return s.Length
		}
	}
	return -1
}

func TestLoavesForSaturdayAtEight(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	ready := time.Date(2026, 11, 28, 8, 0, 0, 0, berlin)
	s, err := Backward(CountryLoaf(), ready, time.Time{}, sleep)
	if err != nil {
		t.Fatal(err)
	}
	// Heating at 5:30 would be too early; a loaf that cools for an hour cannot
	// be ready at eight by anyone who sleeps till half past six.
	if s.OK() || len(s.Broken) == 0 || s.Nearest == nil {
		t.Fatalf("eight o'clock is called possible: %+v", s)
	}
	if s.Away != 60 || s.Nearest.ReadyAt().Format("15:04") != "09:00" {
		t.Errorf("nearest is %d min away, ready at %v; want 60 min, 09:00", s.Away, s.Nearest.ReadyAt())
	}
	words := strings.Join(said(s), "\n")
	for _, want := range []string{
		"Heat the oven at Sat 05:30 and Bake, lid on at Sat 06:15 fall within the sleep hours from 22:30 to 06:30",
		"The nearest plan that can be kept is ready 1 h later, at Sat 09:00, and begins at Fri",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not said in:\n%s", want, words)
		}
	}
}

func TestColdRestIsLengthenedOverTheNight(t *testing.T) {
	// From noon, shaping is done at 17:15 and twelve hours later it is 5:15.
	start := time.Date(2026, 11, 27, 12, 0, 0, 0, zone(t, "Europe/Berlin"))
	s, err := Forward(CountryLoaf(), start, sleep)
	if err != nil {
		t.Fatal(err)
	}
	if !s.OK() || len(s.Changes) != 1 || lengthOf(s.Plan, "cold") != 12*60+75 {
		t.Fatalf("ok %v, changes %v, broken %v", s.OK(), s.Changes, s.Broken)
	}
	if want := "Cold proof is lengthened from 12 h to 13 h 15 min."; said(s)[0] != want {
		t.Errorf("says %q, want %q", said(s)[0], want)
	}
}

func TestNoNightMeansNoChange(t *testing.T) {
	start := time.Date(2026, 11, 27, 23, 0, 0, 0, time.UTC)
	for _, night := range []Night{{}, {From: At(3, 0), To: At(3, 0)}} {
		s, err := Forward(CountryLoaf(), start, night)
		if err != nil || !s.OK() || len(s.Changes) != 0 {
			t.Errorf("night %v: %v, changes %v, broken %v", night, err, s.Changes, s.Broken)
		}
	}
}

func TestTheWholeDayAsleep(t *testing.T) {
	s, err := Forward(CountryLoaf(), time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC), Night{From: At(6, 1), To: At(6, 0)})
	if err != nil {
		t.Fatal(err)
	}
	words := said(s)
	if s.OK() || s.Nearest != nil || words[len(words)-1] != "No plan of these steps that can be kept was found within two days." {
		t.Errorf("says %q", words)
	}
}

func TestNotBeforeNow(t *testing.T) {
	now := time.Date(2026, 11, 27, 20, 0, 0, 0, time.UTC)
	s, err := Backward(CountryLoaf(), now.Add(5*time.Hour), now, Night{})
	if err != nil {
		t.Fatal(err)
	}
	if s.OK() || !s.TooSoon || s.Nearest == nil || s.Nearest.Start.Before(now) {
		t.Fatalf("too soon %v, nearest %+v", s.TooSoon, s.Nearest)
	}
	// Shortest: 15+20+180+30+30+480+45+20+25+60 min is 15 h 5 min.
	if s.Away != 10*60+5 || s.Plan.Length() != 15*60+5 {
		t.Errorf("%v away, shortest %v; want 10 h 5 min and 15 h 5 min", s.Away, s.Plan.Length())
	}
	if want := "even at its shortest the day takes 15 h 5 min"; !strings.Contains(said(s)[0]+said(s)[len(s.Changes)], want) {
		t.Errorf("%q is not said in %q", want, said(s))
	}
}

// A plan begun, or ready, nearer to the time asked for than the nearest cannot
// be kept.
func TestNothingIsNearerThanTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps, at, night := anySteps(t), anyTime(t), anyNight(t)
		backward := rapid.Bool().Draw(t, "backward")
		plan := func(at time.Time) Schedule {
			s, err := Forward(steps, at, night)
			if backward {
				s, err = Backward(steps, at, time.Time{}, night)
			}
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		s := plan(at)
		if s.OK() {
			return
		}
		reach := twoDays
		if s.Nearest != nil {
			reach = max(s.Away, -s.Away) - 1
		}
		least := -reach
		if !backward {
			least = 0
		}
		for range 5 {
			away := Minutes(rapid.IntRange(int(least), int(reach)).Draw(t, "away"))
			if plan(at.Add(away.Duration())).OK() {
				t.Fatalf("a plan %d min away can be kept, the nearest is %d away (found: %v)", away, s.Away, s.Nearest != nil)
			}
		}
	})
}

func TestStepsThatMakeNoPlan(t *testing.T) {
	ok := Step{ID: "a", Length: 10}
	tests := map[string][]Step{
		"no steps":              {},
		"no mark":               {{Length: 10}},
		"the mark of the end":   {{ID: "ready", Length: 10}},
		"the same mark twice":   {ok, ok},
		"below its bounds":      {{ID: "a", Length: 10, Min: 20, Max: 30}},
		"above its bounds":      {{ID: "a", Length: 40, Min: 20, Max: 30}},
		"a negative length":     {{ID: "a", Length: -1}},
		"more than a fortnight": {{ID: "a", Length: 15 * 24 * 60}},
		"room for a month":      {{ID: "a", Length: 1, Max: longest}, {ID: "b", Length: 1, Max: longest}},
		"kneading for a day":    {{ID: "a", Length: 60, Min: 1, Max: 24 * 60, Hands: HandsThroughout}},
		"turns beyond number":   {{ID: "a", Kind: Turns, Length: 1001, Turns: 1001, Every: 1}},
		"turns in a rest":       {{ID: "a", Kind: Rest, Length: 60, Turns: 1, Every: 30}},
		"turns without time":    {{ID: "a", Kind: Turns, Length: 60, Turns: 1}},
		"turns that do not fit": {{ID: "a", Kind: Turns, Length: 60, Min: 50, Max: 60, Turns: 2, Every: 30}},
	}
	for name, steps := range tests {
		if _, err := Forward(steps, time.Time{}, Night{}); !errors.Is(err, ErrSteps) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Forward([]Step{ok}, time.Time{}, Night{From: 1440}); err == nil {
		t.Error("minute 1440 of the day is accepted")
	}
}

func BenchmarkBackward(b *testing.B) {
	ready := time.Date(2026, 11, 28, 8, 0, 0, 0, time.UTC)
	steps := append([]Step{LevainBuild()}, CountryLoaf()...)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Backward(steps, ready, time.Time{}, sleep); err != nil {
			b.Fatal(err)
		}
	}
}
