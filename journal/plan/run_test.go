package plan

import (
	"errors"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var noon = time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)

// day is a plan of mix (15 min), rest (30), three turns in two hours, shape
// (20, hands at its start) and a bake (40, hands at its start), from noon.
func day() Plan {
	return Plan{ID: "01", Name: "Ferry loaf", Start: noon, Steps: []Step{
		{ID: "mix", Kind: Mix, Length: 15, Hands: HandsThroughout},
		{ID: "rest", Kind: Rest, Length: 30},
		{ID: "turns", Kind: Turns, Length: 120, Turns: 3, Every: 30},
		{ID: "shape", Kind: Divide, Length: 20, Hands: HandsAtStart},
		{ID: "bake", Kind: BakeCovered, Length: 40, Hands: HandsAtStart},
	}}
}

func clock(s string) time.Time {
	t, err := time.Parse("15:04", s)
	if err != nil {
		panic(err)
	}
	return time.Date(2026, 11, 27, t.Hour(), t.Minute(), 0, 0, time.UTC)
}

// act is something the baker does at a time of day.
type act struct {
	at   string
	what string // done, skip, or later by ten minutes
	ref  Ref
}

func do(t *testing.T, p Plan, acts ...act) Plan {
	t.Helper()
	for _, a := range acts {
		var err error
		switch a.what {
		case "done":
			p, err = p.Done(a.ref, clock(a.at))
		case "skip":
			p, err = p.Skip(a.ref, clock(a.at))
		case "later":
			p, err = p.Shift(a.ref, 10)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return p
}

func TestTheDayMovesWithWhatHappens(t *testing.T) {
	mix, turn1, turn2, turn3 := Ref{"mix", 0}, Ref{"turns", 1}, Ref{"turns", 2}, Ref{"turns", 3}
	tests := []struct {
		name string
		acts []act
		now  string
		due  map[Ref]string
		next Ref
		left time.Duration
	}{
		{
			name: "before it begins", now: "11:50", next: mix, left: 10 * time.Minute,
			due: map[Ref]string{mix: "12:00", {"rest", 0}: "12:15", {"turns", 0}: "12:45", turn1: "13:15", turn3: "14:15", {"shape", 0}: "14:45", {"bake", 0}: "15:05", Ready: "15:45"},
		},
		{
			name: "a late start moves all", now: "12:20", acts: []act{{"12:10", "done", mix}},
			due: map[Ref]string{{"rest", 0}: "12:25", turn1: "13:25", Ready: "15:55"}, next: Ref{"rest", 0}, left: 5 * time.Minute,
		},
		{
			name: "a rest begins by itself", now: "12:30", acts: []act{{"12:00", "done", mix}},
			due: map[Ref]string{turn1: "13:15"}, next: Ref{"turns", 0}, left: 15 * time.Minute,
		},
		{
			name: "a late turn moves neither the next nor shaping", now: "13:30", acts: []act{{"12:00", "done", mix}, {"13:27", "done", turn1}},
			due: map[Ref]string{turn2: "13:45", {"shape", 0}: "14:45"}, next: turn2, left: 15 * time.Minute,
		},
		{
			name: "very late it leaves half the time to the next", now: "13:45", acts: []act{{"12:00", "done", mix}, {"13:41", "done", turn1}},
			due: map[Ref]string{turn2: "13:56", turn3: "14:15", {"shape", 0}: "14:45"}, next: turn2, left: 11 * time.Minute,
		},
		{
			name: "each turn eight minutes late", now: "14:30", acts: []act{{"12:00", "done", mix}, {"13:23", "done", turn1}, {"13:53", "done", turn2}, {"14:23", "done", turn3}},
			due: map[Ref]string{{"shape", 0}: "14:45", Ready: "15:45"}, next: Ref{"shape", 0}, left: 15 * time.Minute,
		},
		{
			name: "a skipped turn moves nothing", now: "13:20", acts: []act{{"12:00", "done", mix}, {"13:18", "skip", turn1}},
			due: map[Ref]string{turn2: "13:45", Ready: "15:45"}, next: turn2, left: 25 * time.Minute,
		},
		{
			name: "later by ten minutes", now: "13:00", acts: []act{{"12:00", "done", mix}, {"13:00", "later", turn1}},
			due: map[Ref]string{turn1: "13:25", turn2: "13:45", Ready: "15:45"}, next: turn1, left: 25 * time.Minute,
		},
		{
			name: "an overdue turn holds back the next, and not shaping", now: "13:40", acts: []act{{"12:00", "done", mix}},
			due: map[Ref]string{turn1: "13:15", turn2: "13:55", {"shape", 0}: "14:45"}, next: turn1, left: -25 * time.Minute,
		},
		{
			name: "a turn nobody noted does not", now: "13:50", acts: []act{{"12:00", "done", mix}, {"13:45", "done", turn2}},
			due: map[Ref]string{turn1: "13:15", turn3: "14:15"}, next: turn3, left: 25 * time.Minute,
		},
		{
			name: "a skipped step takes no time", now: "12:50", acts: []act{{"12:00", "done", mix}, {"12:50", "skip", Ref{"turns", 0}}},
			due: map[Ref]string{{"shape", 0}: "12:45", {"bake", 0}: "13:10"}, next: Ref{"shape", 0}, left: -5 * time.Minute,
		},
		{
			name: "all done, cooling", now: "15:30", acts: []act{{"15:05", "done", Ref{"bake", 0}}},
			due: map[Ref]string{Ready: "15:45"}, next: Ready, left: 15 * time.Minute,
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := do(t, day(), tt.acts...)
			seen := 0
			for _, m := range p.Timeline(clock(tt.now)) {
				if want, ok := tt.due[m.Ref]; ok {
					seen++
					if got := m.Due.Format("15:04"); got != want {
						t.Errorf("%s is due at %s, want %s", m.Title, got, want)
					}
				}
			}
			if seen != len(tt.due) {
				t.Errorf("%d of %d moments are in the timeline", seen, len(tt.due))
			}
			next, ok := p.Next(clock(tt.now))
			if !ok || next.Ref != tt.next || next.Left(clock(tt.now)) != tt.left {
				t.Errorf("next is %v in %v, want %v in %v", next.Ref, next.Left(clock(tt.now)), tt.next, tt.left)
			}
			if !reflect.DeepEqual(p.Steps, day().Steps) || !p.Start.Equal(noon) {
				t.Error("what was planned was changed")
			}
		})
	}
}

func TestADayThatIsOver(t *testing.T) {
	p := do(t, day(),
		act{"12:05", "done", Ref{"mix", 0}}, act{"13:20", "done", Ref{"turns", 1}}, act{"13:55", "skip", Ref{"turns", 2}},
		act{"14:20", "done", Ref{"turns", 3}}, act{"15:00", "done", Ref{"shape", 0}}, act{"15:15", "done", Ref{"bake", 0}})
	_, before := p.Next(clock("15:54"))
	if _, after := p.Next(clock("15:55")); !before || after {
		t.Error("it is over at another time than 15:55")
	}
	by := map[Ref]Deviation{}
	for _, d := range p.Deviations() {
		by[d.Ref] = d
	}
	if d := by[Ref{"shape", 0}]; !d.Noted() || d.By() != 15*time.Minute {
		t.Errorf("shaping was %v late, want 15 min", d.By())
	}
	if d := by[Ref{"turns", 2}]; !d.Skipped || d.Noted() {
		t.Errorf("turn 2: %+v, want skipped", d)
	}
	if d := by[Ref{"rest", 0}]; d.Noted() || d.By() != 0 {
		t.Errorf("the rest was not noted and is %v late", d.By())
	}
}

// anyDay draws a plan with some marks and shifts.
func anyDay(t *rapid.T) Plan {
	p := Plan{ID: "01", Start: anyTime(t), Steps: anySteps(t)}
	refs := p.refs()
	for range rapid.IntRange(0, 5).Draw(t, "acts") {
		ref := rapid.SampledFrom(refs).Draw(t, "ref")
		at := p.Start.Add(Minutes(rapid.IntRange(0, 3000).Draw(t, "at")).Duration())
		switch rapid.IntRange(0, 2).Draw(t, "act") {
		case 0:
			p, _ = p.Done(ref, at)
		case 1:
			p, _ = p.Skip(ref, at)
		case 2:
			p, _ = p.Shift(ref, Minutes(rapid.IntRange(-60, 120).Draw(t, "by")))
		}
	}
	return p
}

func TestOppositeShiftsRestoreThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyDay(t)
		ref := rapid.SampledFrom(p.refs()).Draw(t, "shifted")
		by := Minutes(rapid.IntRange(-120, 120).Draw(t, "minutes"))
		moved, err := p.Shift(ref, by)
		if errors.Is(err, ErrTooEarly) || errors.Is(err, ErrDealtWith) {
			if !reflect.DeepEqual(moved, p) {
				t.Fatal("a refused shift changed the plan")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		back, err := moved.Shift(ref, -by)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back, p) {
			t.Fatalf("restored to\n%+v, not\n%+v", back, p)
		}
	})
}

// A turn moves alone: those after it move no further than it, and while they fit into
// their step no later step moves at all.
func TestAShiftMovesAllThatFollowsAndNothingBefore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Plan{Start: anyTime(t), Steps: anySteps(t)}
		at := rapid.IntRange(0, len(p.refs())-1).Draw(t, "shifted")
		by := Minutes(rapid.IntRange(0, 90).Draw(t, "minutes"))
		moved, err := p.Shift(p.refs()[at], by)
		if err != nil {
			t.Fatal(err)
		}
		was, is := p.Timeline(time.Time{}), moved.Timeline(time.Time{})
		turn, next := was[at].Turn > 0, at+1
		for next < len(was) && was[next].Step == was[at].Step {
			next++
		}
		within := !turn || !is[next-1].Due.After(was[next].Due) // the turns still fit into their step
		for i := range was {
			want := was[i].Due
			if i == at || i > at && !turn {
				want = want.Add(by.Duration())
			}
			if turn && i > at && (i < next || !within) {
				if is[i].Due.Before(want) || is[i].Due.After(want.Add(by.Duration())) {
					t.Fatalf("%s moved from %v to %v", was[i].Title, was[i].Due, is[i].Due)
				}
				continue
			}
			if !is[i].Due.Equal(want) {
				t.Fatalf("%s moved from %v to %v", was[i].Title, was[i].Due, is[i].Due)
			}
		}
	})
}

// A step is over once the next has begun, however long it was to last; one that goes by
// the clock, too.
func TestAStepIsOverOnceTheNextHasBegun(t *testing.T) {
	p := do(t, day(), act{"12:00", "done", Ref{"mix", 0}}, act{"12:05", "done", Ref{"rest", 0}}, act{"12:20", "done", Ref{"turns", 0}},
		act{"12:50", "done", Ref{"turns", 1}}, act{"13:00", "done", Ref{"shape", 0}})
	want := map[string]string{"mix": "12:05", "rest": "12:20", "turns": "13:00", "shape": "13:20"}
	for _, m := range p.Timeline(clock("13:05")) {
		if at, told := want[m.Step]; told && m.Turn == 0 && !m.End.Equal(clock(at)) {
			t.Errorf("%s is over at %v, want %s", m.Step, m.End, at)
		}
	}
}

func TestTheTimelineNeverRunsBackward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyDay(t)
		now := p.Start.Add(Minutes(rapid.IntRange(-100, 6000).Draw(t, "now")).Duration())
		pending := false
		var last Moment
		for i, m := range p.Timeline(now) {
			if i > 0 && m.Due.Before(last.when(time.Time{})) {
				t.Fatalf("%s at %v comes before %s at %v", m.Title, m.Due, last.Title, last.Due)
			}
			if pending && m.State != Pending {
				t.Fatalf("%s is %v after a moment that is pending", m.Title, m.State)
			}
			if m.State == Pending && !m.Hands && !pending && m.Due.Before(now) {
				t.Fatalf("%s needs no hands and waits", m.Title)
			}
			pending, last = m.State == Pending, m
		}
	})
}

func TestAMarkCanBeTakenBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyDay(t)
		ref := rapid.SampledFrom(p.refs()).Draw(t, "marked")
		p = p.unmark(ref)
		marked, err := p.Done(ref, p.Start)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := marked.Done(ref, p.Start.Add(time.Hour)); err != nil || len(again.Marks) != len(marked.Marks) {
			t.Fatalf("marked twice: %v, %d marks", err, len(again.Marks))
		}
		if back := marked.unmark(ref); !reflect.DeepEqual(back, p) {
			t.Fatalf("restored to\n%+v, not\n%+v", back, p)
		}
	})
}

func TestMomentsThatCannotBeMoved(t *testing.T) {
	p := do(t, day(), act{"12:00", "done", Ref{"mix", 0}})
	tests := []struct {
		ref  Ref
		by   Minutes
		want error
	}{
		{Ref{"mix", 0}, 10, ErrDealtWith},
		{Ref{"turns", 4}, 10, ErrNoSuchMoment},
		{Ref{"proof", 0}, 10, ErrNoSuchMoment},
		{Ref{"turns", 1}, -31, ErrTooEarly},
		{Ref{"turns", 1}, -30, nil},
		{Ready, -40, nil},
		{Ready, -41, ErrTooEarly},
	}
	for _, tt := range tests {
		if _, err := p.Shift(tt.ref, tt.by); !errors.Is(err, tt.want) {
			t.Errorf("%v by %d: %v, want %v", tt.ref, tt.by, err, tt.want)
		}
	}
	if _, err := p.Done(Ref{"proof", 0}, noon); !errors.Is(err, ErrNoSuchMoment) {
		t.Errorf("marked what is not there: %v", err)
	}
}

func TestLaterCountsFromNowWhenOverdue(t *testing.T) {
	turn := Ref{"turns", 1} // due at 13:15
	p := do(t, day(), act{"12:00", "done", Ref{"mix", 0}})
	for _, tt := range []struct{ now, due string }{{"13:00", "13:25"}, {"13:15", "13:25"}, {"13:40", "13:50"}} {
		later, by, err := p.Later(turn, 10, clock(tt.now))
		if err != nil {
			t.Fatal(err)
		}
		if m, ok := later.Next(clock(tt.now)); !ok || m.Ref != turn || m.Due.Format("15:04") != tt.due {
			t.Errorf("at %s it is put off to %s, want %s", tt.now, m.Due.Format("15:04"), tt.due)
		}
		if back, err := later.Shift(turn, -by); err != nil || !reflect.DeepEqual(back, p) {
			t.Errorf("at %s: %v, not restored by %d minutes", tt.now, err, -by)
		}
	}
}

func BenchmarkTimeline(b *testing.B) {
	p := Plan{ID: "01", Start: noon, Steps: CountryLoaf()}
	b.ReportAllocs()
	for b.Loop() {
		p.Timeline(noon)
	}
}
