package plan

import (
	"testing"
	"time"
)

// A day is gone through by its one key: a step whose length matters takes one press to begin
// and one to end, any other takes one. What runs says so until it is said to be over, or goes
// on by the clock where no hands are needed.
func TestTheDayByOneKey(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	p := Plan{ID: "a", Start: start, Steps: CountryLoaf()}
	at := func(minutes int) time.Time { return start.Add(time.Duration(minutes) * time.Minute) }
	stands := func(now time.Time, step string, turn int, runs, byClock bool, until time.Time) Stand {
		t.Helper()
		s, ok := p.Stand(now)
		if !ok || s.Step != step || s.Turn != turn || s.Runs != runs || s.ByClock != byClock || !s.Until.Equal(until) {
			t.Fatalf("at %v: %+v", now, s)
		}
		return s
	}
	press := func(now time.Time) {
		t.Helper()
		s, _ := p.Stand(now)
		next, err := p.Press(s, now)
		if err != nil {
			t.Fatal(err)
		}
		p = next
	}
	stands(at(0), "mix", 0, false, false, at(0))
	press(at(0))
	stands(at(5), "rest", 0, false, false, at(15)) // mixing takes one key
	s := stands(at(20), "rest", 0, true, true, at(45))
	if !s.Since().Equal(at(15)) || s.Then.Step != "turns" {
		t.Errorf("since %v, then %v", s.Since(), s.Then.Ref)
	}
	began, err := p.Done(s.Ref, at(20)) // it only begins now
	if err != nil {
		t.Fatal(err)
	}
	p = began
	stands(at(20), "rest", 0, true, false, at(50))
	press(at(40)) // over, ten minutes early: what follows goes by that
	stands(at(41), "turns", 1, false, false, at(70))
	for n := 1; n <= 6; n++ {
		press(at(40 + 30*n))
	}
	stands(at(221), "bulk", 0, true, true, at(280))
	s = stands(at(300), "bulk", 0, true, true, at(280)) // still running, twenty minutes over
	if s.Left(at(300)) != -20*time.Minute {
		t.Errorf("left %v", s.Left(at(300)))
	}
	press(at(301))
	stands(at(302), "shape", 0, false, false, at(301))
	press(at(310)) // shaping takes one key
	stands(at(311), "cold", 0, false, false, at(340))
	press(at(330)) // into the cold early
	stands(at(331), "cold", 0, true, false, at(330+12*60))
	press(at(330 + 12*60))
	press(at(335 + 12*60)) // the oven
	press(at(400 + 12*60)) // in
	stands(at(401+12*60), "covered", 0, true, false, at(420+12*60))
	press(at(420 + 12*60))
	stands(at(420+12*60), "uncovered", 0, false, false, at(420+12*60))
	press(at(421 + 12*60))
	press(at(450 + 12*60))
	stands(at(450+12*60), "cool", 0, false, false, at(450+12*60))
	press(at(450 + 12*60))
	if s, ok := p.Stand(at(600 + 12*60)); ok {
		t.Errorf("when all is over: %+v", s)
	}
}
