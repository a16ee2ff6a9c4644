package plan

import (
	"testing"
	"time"
)

// At makes a time of day.
func At(hour, minute int) ClockTime { return ClockTime(hour*60 + minute) }

func holds(n Night, t time.Time) bool { return n.between(t, t).touches(t, t) }

// In the night of 25 October 2026 the clocks of Berlin go back at three: the
// night has an hour more, and so must the cold rest. In New York they go
// forward on 8 March.
func TestTheNightFollowsTheWallClockOverAChange(t *testing.T) {
	tests := []struct {
		zone  string
		start time.Time
		want  Minutes
	}{
		{"Europe/Berlin", time.Date(2026, 10, 23, 12, 0, 0, 0, zone(t, "Europe/Berlin")), 13*60 + 15},
		{"Europe/Berlin", time.Date(2026, 10, 24, 12, 0, 0, 0, zone(t, "Europe/Berlin")), 14*60 + 15},
		{"America/New_York", time.Date(2026, 3, 7, 12, 0, 0, 0, zone(t, "America/New_York")), 12*60 + 15},
	}
	for _, tt := range tests {
		s, err := Forward(CountryLoaf(), tt.start, sleep)
		if err != nil {
			t.Fatal(err)
		}
		if got := lengthOf(s.Plan, "cold"); got != tt.want || !s.OK() {
			t.Errorf("%s from %v: cold rest %v, want %v; broken %v", tt.zone, tt.start, got, tt.want, s.Broken)
		}
		for _, m := range s.Plan.Timeline(time.Time{}) {
			if m.Kind == Heat && m.Due.Format("15:04") != "06:30" {
				t.Errorf("%s: the oven is heated at %v", tt.zone, m.Due)
			}
		}
	}
}

// In Berlin 2:00 to 3:00 comes twice on 25 October 2026, and not on 29 March.
func TestNightThatBeginsOrEndsInTheHourOfTheChange(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	utc := func(month time.Month, day, hour, minute int) time.Time {
		return time.Date(2026, month, day, hour, minute, 0, 0, time.UTC).In(berlin)
	}
	tests := []struct {
		what  string
		night Night
		at    time.Time
		want  bool
	}{
		{"2:29 for the first time", Night{At(2, 30), At(8, 0)}, utc(10, 25, 0, 29), false},
		{"2:30 for the first time", Night{At(2, 30), At(8, 0)}, utc(10, 25, 0, 30), true},
		{"2:10 for the second time", Night{At(2, 30), At(8, 0)}, utc(10, 25, 1, 10), true},
		{"2:40 for the first time, up at 2:30", Night{At(22, 0), At(2, 30)}, utc(10, 25, 0, 40), true},
		{"2:29 for the second time, up at 2:30", Night{At(22, 0), At(2, 30)}, utc(10, 25, 1, 29), true},
		{"2:30 for the second time, up at 2:30", Night{At(22, 0), At(2, 30)}, utc(10, 25, 1, 30), false},
		{"3:10 when 2:30 was left out, to bed at 2:30", Night{At(2, 30), At(8, 0)}, utc(3, 29, 1, 10), true},
		{"1:00 before that", Night{At(2, 30), At(8, 0)}, utc(3, 29, 0, 0), false},
		{"3:10, up at 2:30", Night{At(22, 0), At(2, 30)}, utc(3, 29, 1, 10), true},
		{"3:30, up at 2:30", Night{At(22, 0), At(2, 30)}, utc(3, 29, 1, 30), false},
		{"half past six is an hour later by the sun", sleep, utc(10, 25, 5, 29), true},
		{"up at half past six", sleep, utc(10, 25, 5, 30), false},
	}
	for _, tt := range tests {
		if got := holds(tt.night, tt.at); got != tt.want {
			t.Errorf("%s (%v): held is %v", tt.what, tt.at, got)
		}
	}
}

func TestNightHolds(t *testing.T) {
	at := func(h, m int) time.Time { return time.Date(2026, 11, 27, h, m, 0, 0, time.UTC) }
	tests := []struct {
		night Night
		at    time.Time
		want  bool
	}{
		{sleep, at(22, 29), false}, {sleep, at(22, 30), true}, {sleep, at(0, 0), true}, {sleep, at(6, 29), true}, {sleep, at(6, 30), false},
		{Night{At(13, 0), At(14, 0)}, at(13, 30), true}, {Night{At(13, 0), At(14, 0)}, at(14, 0), false},
		{Night{At(0, 0), At(6, 0)}, at(0, 0), true}, {Night{At(18, 0), At(0, 0)}, at(23, 59), true}, {Night{At(18, 0), At(0, 0)}, at(0, 0), false},
		{Night{}, at(0, 0), false},
	}
	for _, tt := range tests {
		if got := holds(tt.night, tt.at); got != tt.want {
			t.Errorf("%s to %s holds %s: %v", tt.night.From, tt.night.To, tt.at.Format("15:04"), got)
		}
	}
}

func TestWhatALateDayBringsIntoTheNight(t *testing.T) {
	night := Night{From: At(15, 0), To: At(20, 0)}
	titles := func(p Plan, now string) (out []string) {
		for _, m := range p.AtNight(night, clock(now)) {
			out = append(out, m.Title.String())
		}
		return out
	}
	p := day() // the bake is due at 15:05, shaping at 14:45
	if got := titles(p, "12:00"); len(got) != 1 || got[0] != "Bake, lid on" {
		t.Errorf("at noon %q, want the bake", got)
	}
	p = do(t, p, act{"12:20", "done", Ref{"mix", 0}})
	if got := titles(p, "12:20"); len(got) != 2 || got[0] != "Divide and shape" {
		t.Errorf("twenty minutes late %q, want shaping and the bake", got)
	}
	p = do(t, p, act{"15:10", "done", Ref{"bake", 0}})
	if got := titles(p, "15:10"); len(got) != 0 {
		t.Errorf("when it is done %q, want nothing", got)
	}
}

// What needed hands at noon and was not done falls into the night only once it is night.
func TestWhatIsOverdueFallsIntoTheNightNow(t *testing.T) {
	noon := time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)
	p := Plan{Start: noon, Steps: []Step{{ID: "shape", Kind: Divide, Length: 15, Hands: HandsThroughout}}}
	night := Night{At(23, 0), At(6, 0)}
	if got := p.AtNight(night, noon.Add(9*time.Hour)); len(got) != 0 {
		t.Errorf("at nine in the evening %+v falls into the night", got)
	}
	late := noon.Add(11*time.Hour + 50*time.Minute)
	if got := p.AtNight(night, late); len(got) != 1 || !got[0].Due.Equal(late) {
		t.Errorf("at ten to midnight it is %+v", got)
	}
}
