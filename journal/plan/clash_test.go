package plan

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Two country loaves of one evening, half an hour apart, want the oven at one time and the
// baker twice; the second is eased by its cold proof alone, the least there is.
func TestTwoDoughsAndOneOven(t *testing.T) {
	evening := time.Date(2026, 3, 4, 15, 0, 0, 0, time.UTC)
	first, second := Plan{ID: "a", Start: evening, Steps: CountryLoaf()}, Plan{ID: "b", Start: evening.Add(20 * time.Minute), Steps: CountryLoaf()}
	now := evening.Add(-time.Hour)
	clashes := second.Clashes(now, first)
	wants := map[Want]int{}
	for _, c := range clashes {
		wants[c.Want]++
		if !c.From.Before(c.To) || c.With != 0 {
			t.Errorf("%+v", c)
		}
	}
	// Shaping takes half an hour; lid on and lid off are one stretch in the oven.
	if wants[Oven] != 1 || wants[Baker] != 1 {
		t.Errorf("clashes %v", clashes)
	}
	if line := clashes[len(clashes)-1].Line("Deck rye").String(); line != "From Thu 09:20 to 09:45 this dough and Deck rye both need the oven." {
		t.Errorf("it says %q", line)
	}
	// The whole kitchen on one clock: two doughs in the refrigerator at a time are no clash.
	names := []string{"Deck rye", "Ferry loaf", "Focaccia"}
	third := Plan{ID: "c", Start: evening.Add(-48 * time.Hour), Steps: CountryLoaf()}
	uses := map[Want]int{}
	for _, u := range Kitchen(now, first, second, third) {
		uses[u.Want]++
		if !u.From.Before(u.To) || u.Want == Fridge && u.To.Sub(u.From) != 12*time.Hour {
			t.Errorf("%+v", u)
		}
	}
	if uses[Oven] != 3 || uses[Fridge] != 3 || uses[Baker] != 6 {
		t.Errorf("the kitchen is wanted %v", uses)
	}
	meetings := Meetings(now, first, second, third)
	if len(meetings) != 2 || meetings[0].Want != Baker || meetings[1].Want != Oven || meetings[1].Plan != 0 || meetings[1].With != 1 {
		t.Fatalf("%+v", meetings)
	}
	if line := meetings[1].Line(names).String(); line != "From Thu 09:20 to 09:45 Deck rye and Ferry loaf both need the oven." {
		t.Errorf("it says %q", line)
	}
	// Three at one time are said in one sentence, and two in theirs.
	twins := Meetings(now, first, first, first)
	for i, want := range []string{
		"From Wed 15:00 to 15:15 you are needed in several places: Mix for Deck rye, Mix for Ferry loaf and Mix for Focaccia.",
		"From Wed 19:45 to 20:15 you are needed in several places: Divide and shape for Deck rye, Divide and shape for Ferry loaf and Divide and shape for Focaccia.",
		"From Thu 09:00 to 09:45 Deck rye, Ferry loaf and Focaccia all want the oven.",
	} {
		if lines := MeetingLines(twins, names); len(lines) != 3 || lines[i].String() != want {
			t.Errorf("%d lines, not %q: %v", len(lines), want, lines)
		}
	}
	if lines := MeetingLines(meetings, names); len(lines) != 2 || lines[1].String() != "From Thu 09:20 to 09:45 Deck rye and Ferry loaf both need the oven." {
		t.Errorf("it says %v", lines)
	}
	// What comes next in all of them, in the order of the clock.
	for i, next := range Merge(evening, first, second) {
		if want := []string{"mix", "rest", "mix", "rest"}; i < len(want) && (next.Step != want[i] || next.Plan != []int{0, 0, 1, 1}[i]) {
			t.Errorf("%d: %s of dough %d", i, next.Step, next.Plan)
		}
	}
	// Once the first is shaped, the oven is left.
	alone := Plan{ID: "b", Start: evening.Add(40 * time.Minute), Steps: CountryLoaf()}
	if got := alone.Clashes(now, first); len(got) != 1 || got[0].Want != Oven {
		t.Fatalf("%+v", got)
	}
	e, ok := alone.Ease(now, sleep, first)
	if !ok || len(e.Moves) != 1 || e.Moves[0].Giving.Kind != ColdRest && e.Moves[0].Giving.Kind != Cool || e.Moves[0].By != 5 {
		t.Errorf("eased by %+v", e)
	}
	if len(e.Plan.Clashes(now, first)) > 0 {
		t.Error("it still clashes")
	}
	// A plan that is yet to be made goes to the nearest hour at which the oven is free.
	s, found, err := Ask{Steps: CountryLoaf(), At: alone.Start, NotBefore: now, Night: sleep}.Beside(first)
	if err != nil || len(found) != 1 || s.Nearest == nil || len(s.Nearest.Clashes(now, first)) > 0 || s.Away != 15 && s.Away != -15 {
		t.Errorf("away %v: %v, %v, %v", s.Away, found, s.Nearest, err)
	}
}

// What is said of two days is looked for within two days, beside other doughs too.
func TestTheNearestHourIsLookedForWithinTwoDays(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	loaf := []Step{{ID: "bake", Kind: BakeUncovered, Length: 45, Min: 45, Max: 45}, {ID: "cool", Kind: Cool, Length: 60, Min: 60, Max: 60}}
	all := Plan{ID: "a", Start: start.Add(-40 * time.Hour), Steps: []Step{{ID: "dry", Kind: BakeUncovered, Length: 70 * 60, Min: 70 * 60, Max: 70 * 60}}}
	s, found, err := Ask{Steps: loaf, At: start, NotBefore: start, Night: sleep}.Beside(all)
	if err != nil || len(found) != 1 || s.Nearest == nil || s.Away != 30*60 {
		t.Errorf("away %v: %v, %v, %v", s.Away, found, s.Nearest, err)
	}
}

// Put off by three hours, the oven would be heated after bedtime: the cold proof gives way.
func TestADelayIntoSleep(t *testing.T) {
	p := Plan{ID: "a", Start: time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC), Steps: CountryLoaf()}
	now := p.Start
	if len(p.AtNight(sleep, now)) == 0 {
		t.Fatal("begun at nine, twelve hours of cold end in the night")
	}
	e, ok := p.Ease(now, sleep)
	if !ok || len(e.Moves) != 1 || e.Moves[0].Giving.Kind != ColdRest || len(e.Plan.AtNight(sleep, now)) > 0 {
		t.Fatalf("%+v, %v", e, ok)
	}
	if words := e.Moves[0].Line().String(); words != "Lengthen Cold proof by 4 h 15 min: Heat the oven at Thu 06:30" {
		t.Errorf("it says %q", words)
	}
	if _, again := e.Plan.Ease(now, sleep); again {
		t.Error("eased, it is eased again")
	}
}

// Where shaping and oven are both wanted twice, by a dough whose bulk has no more room to
// give, no step alone is enough: one after another gives, and all is well.
func TestStepAfterStepGives(t *testing.T) {
	start := time.Date(2026, 3, 4, 15, 0, 0, 0, time.UTC)
	late := Plan{ID: "a", Start: start, Steps: CountryLoaf()}
	for i := range late.Steps {
		if late.Steps[i].Kind == Bulk {
			late.Steps[i].Max = 90 // thirty more: enough to shape after the other, and not to bake
		}
	}
	other := Plan{ID: "b", Start: start, Steps: CountryLoaf()}
	now := start.Add(20 * time.Minute)
	for _, p := range []*Plan{&late, &other} {
		*p, _ = p.Done(Ref{Step: "mix"}, start)
	}
	e, ok := late.Ease(now, sleep, other)
	if !ok || len(e.Moves) != 2 || len(e.Plan.Clashes(now, other)) > 0 || len(e.Plan.AtNight(sleep, now)) > 0 {
		t.Fatalf("%+v, %v", e.Moves, ok)
	}
	for i, want := range []string{"Lengthen Bulk by 30 min: Divide and shape at Wed 20:15", "Lengthen Cold proof by 15 min: Heat the oven at Thu 09:00"} {
		if got := e.Moves[i].Line().String(); got != want {
			t.Errorf("it says %q, want %q", got, want)
		}
	}
	// Not begun yet, it begins later.
	fresh := Plan{ID: "c", Start: now.Add(-2 * time.Hour), Steps: CountryLoaf()}
	twin := Plan{ID: "d", Start: fresh.Start, Steps: CountryLoaf()}
	if e, ok := fresh.Ease(now, Night{}, twin); !ok || e.Moves[0].Giving.ID != "" || len(e.Plan.Clashes(now, twin)) > 0 ||
		e.Moves[0].Line().String() != "Begin later: Mix at Wed 16:05" {
		t.Errorf("%+v, %v", e.Moves, ok)
	}
}

// What is eased can be kept: nothing at night, no clash, the step that gives within its
// bounds, and nothing moved that was before it.
func TestEaseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := time.Date(2026, 3, 4, 0, rapid.IntRange(0, 1439).Draw(t, "start"), 0, 0, time.UTC)
		p := Plan{ID: "a", Start: start, Steps: CountryLoaf()}
		other := Plan{ID: "b", Start: start.Add(Minutes(rapid.IntRange(-300, 300).Draw(t, "other")).Duration()), Steps: CountryLoaf()}
		now := start.Add(Minutes(rapid.IntRange(0, 600).Draw(t, "now")).Duration())
		for _, m := range p.Timeline(time.Time{}) {
			if m.Due.Before(now) && m.Ref != Ready {
				p, _ = p.Done(m.Ref, m.Due)
			}
		}
		e, ok := p.Ease(now, sleep, other)
		if !ok {
			return
		}
		helpless := func(c Clash) bool { return c.Mine.State != Pending } // its own step has begun
		if len(e.Plan.AtNight(sleep, now)) > 0 || len(slices.DeleteFunc(e.Plan.Clashes(now, other), helpless)) > 0 {
			t.Fatal("eased it cannot be kept")
		}
		for _, m := range e.Moves {
			if m.Giving.ID == "" {
				continue // it begins later
			}
			least, most := m.Giving.Bounds()
			if length := m.Giving.Length + m.By; length < least || length > most {
				t.Fatalf("%s of %v", m.Giving.Kind, length)
			}
		}
		was, is := p.Timeline(now), e.Plan.Timeline(now)
		for i := range was {
			if was[i].Ref == e.Moves[0].Ref {
				break
			}
			if !was[i].Due.Equal(is[i].Due) || was[i].State != is[i].State {
				t.Fatalf("%s moved", was[i].Title)
			}
		}
	})
}
