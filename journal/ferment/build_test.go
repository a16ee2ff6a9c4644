package ferment

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"pgregory.net/rapid"
)

// carryOut does by plain arithmetic what a plan says.
func carryOut(t interface{ Fatalf(string, ...any) }, culture Mix, b Build) State {
	s := NewState(culture)
	for _, step := range b.Steps {
		if off := float64(s.Mix.Total() - step.Kept - step.ThrowAway); math.Abs(off) > 1e-6 {
			t.Fatalf("before %v: %.3f g are neither kept nor taken off", step.At, off)
		}
		next, err := s.Feed(step.Refreshment)
		if err != nil {
			t.Fatalf("carrying out: %v", err)
		}
		s = next
	}
	return s
}

func saturdayAsk() BuildAsk {
	saturday := time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)
	return BuildAsk{
		Amount: 180, KeepBack: 20, RipeAt: saturday, Temp: 24, Culture: MixOf(60, 1),
		Now:    saturday.Add(-40 * time.Hour),
		FeedAt: []time.Time{saturday.Add(-25 * time.Hour), saturday.Add(-12 * time.Hour)}, // Friday at eight, and at nine in the evening
		Sleep:  []Sleep{{From: 22*time.Hour + 30*time.Minute, To: 6 * time.Hour}},
	}
}

func TestBuildForSaturdayAtNine(t *testing.T) {
	ask := saturdayAsk()
	b, err := PlanBuild(NewForecaster(UsualAssumptions(), nil), ask)
	if err != nil {
		t.Fatal(err)
	}
	s := carryOut(t, ask.Culture, b)
	if got := s.Mix.Total() - b.KeepBack; math.Abs(float64(got-180)) > 1e-6 {
		t.Errorf("%v g come out, 180 were asked", got)
	}
	if math.Abs(s.Mix.Hydration()-1) > 0.02 {
		t.Errorf("hydration %v", s.Mix.Hydration())
	}
	last := b.Steps[len(b.Steps)-1]
	if last.Expect.RipeFrom.After(ask.RipeAt) || last.Expect.RipeTo.Before(ask.RipeAt) {
		t.Errorf("ripe from %v to %v", last.Expect.RipeFrom, last.Expect.RipeTo)
	}
	if w := b.Words(); len(w) != len(b.Steps)+1 || w[len(w)-1].String() != "Ripe. Take 180 g and keep 20 g back." {
		t.Errorf("%q", w)
	}
}

// Whatever is asked: a plan, carried out by arithmetic, yields it, and no feeding
// lies in the hours of sleep, before now or at an hour not offered; or else it is
// refused, and what is offered instead does work.
func TestBuildCarriedOutYieldsWhatWasAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ask := BuildAsk{
			Amount:    Grams(rapid.Float64Range(5, 3000).Draw(t, "amount")),
			KeepBack:  Grams(rapid.IntRange(0, 60).Draw(t, "keep back")),
			RipeAt:    monday.Add(time.Duration(rapid.IntRange(0, 47).Draw(t, "ripe")) * 30 * time.Minute),
			Hydration: rapid.SampledFrom([]float64{0, 0.5, 0.65, 1, 1.25}).Draw(t, "hydration"),
			Temp:      Celsius(rapid.Float64Range(17, 30).Draw(t, "temp")),
			Culture:   MixOf(Grams(rapid.Float64Range(5, 200).Draw(t, "culture")), rapid.SampledFrom([]float64{0.5, 1}).Draw(t, "its hydration")),
			Sleep:     []Sleep{{22 * time.Hour, 6 * time.Hour}, {13 * time.Hour, 14 * time.Hour}},
		}
		ask.Now = ask.RipeAt.Add(-time.Duration(rapid.IntRange(1, 40).Draw(t, "lead")) * time.Hour)
		for range rapid.IntRange(0, 4).Draw(t, "offers") {
			ask.FeedAt = append(ask.FeedAt, ask.Now.Add(time.Duration(rapid.IntRange(0, 40*60).Draw(t, "offer"))*time.Minute))
		}
		f := NewForecaster(UsualAssumptions(), nil)
		b, err := PlanBuild(f, ask)
		var no *InfeasibleError
		switch {
		case err == nil:
			proper(t, ask, b)
		case errors.As(err, &no):
			for _, n := range no.Nearest {
				other := ask
				other.RipeAt, other.Temp, other.Amount = n.RipeAt, n.Temp, n.Amount
				proper(t, other, n.Plan)
			}
		default:
			t.Fatal(err)
		}
	})
}

func proper(t *rapid.T, ask BuildAsk, b Build) {
	s := carryOut(t, ask.Culture, b)
	if off := float64(s.Mix.Total() - ask.KeepBack - ask.Amount); math.Abs(off) > 1e-6 {
		t.Fatalf("%.6f g more than asked", off)
	}
	want := ask.Hydration
	if want == 0 {
		want = 1
	}
	// Whole grams: half a gram of flour more or less.
	if math.Abs(float64(s.Mix.Flour-MixOf(s.Mix.Total(), want).Flour)) > 0.51+0.51*float64(len(b.Steps)-1) {
		t.Fatalf("hydration %v, asked %v", s.Mix.Hydration(), want)
	}
	if !b.RipeAt.Equal(ask.RipeAt) || len(b.Steps) == 0 {
		t.Fatalf("%+v", b)
	}
	for i, step := range b.Steps {
		if step.Kept <= 0 || step.Flour < 0 || step.Water < 0 || step.ThrowAway < -1e-9 {
			t.Fatalf("step %+v", step)
		}
		for _, sleep := range ask.Sleep {
			if sleep.holds(step.At) {
				t.Fatalf("feeding at %v, an hour of sleep", step.At)
			}
		}
		if step.At.Before(ask.Now) || (len(ask.FeedAt) > 0 && !slices.ContainsFunc(ask.FeedAt, step.At.Equal)) {
			t.Fatalf("feeding at %v was not offered", step.At)
		}
		next := ask.RipeAt
		if i+1 < len(b.Steps) {
			next = b.Steps[i+1].At
		}
		if next.Before(step.Expect.RipeFrom) || next.After(step.Expect.RipeTo) {
			t.Fatalf("step %d is not ripe when it is used", i+1)
		}
	}
}

func TestInfeasibleBuildsSayWhyAndWhatIsNearest(t *testing.T) {
	f := NewForecaster(UsualAssumptions(), nil)
	cases := []struct {
		name     string
		change   func(*BuildAsk)
		want     Obstacle
		nearest  bool
		sentence string
	}{
		{"in one hour", func(a *BuildAsk) { a.Now = a.RipeAt.Add(-time.Hour); a.FeedAt = nil }, TooSoon, true, "too little time"},
		{"fed a day and a half before", func(a *BuildAsk) { a.FeedAt = []time.Time{a.RipeAt.Add(-39 * time.Hour)} }, TooLate, true, "past its ripe window"},
		{"only at night", func(a *BuildAsk) { a.FeedAt = []time.Time{a.RipeAt.Add(-6 * time.Hour)} }, NoTimeLeft, false, "no feeding time is left"},
		{"a crumb of culture for a bakery", func(a *BuildAsk) { a.Culture = MixOf(2, 1); a.Amount = 50000 }, TooLittle, true, "too little culture"},
		{"on the ice", func(a *BuildAsk) { a.Temp = -5 }, WrongTemp, false, "asleep"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			ask := saturdayAsk()
			c.change(&ask)
			_, err := PlanBuild(f, ask)
			var no *InfeasibleError
			if !errors.As(err, &no) {
				t.Fatalf("got %v", err)
			}
			if no.Obstacle != c.want || (len(no.Nearest) > 0) != c.nearest || !strings.Contains(no.Error(), c.sentence) {
				t.Errorf("%v", no)
			}
		})
	}
	for name, change := range map[string]func(*BuildAsk){
		"nothing asked":   func(a *BuildAsk) { a.Amount = 0 },
		"the past":        func(a *BuildAsk) { a.Now = a.RipeAt },
		"no culture":      func(a *BuildAsk) { a.Culture = Mix{} },
		"not a number":    func(a *BuildAsk) { a.Temp = Celsius(math.NaN()) },
		"soup":            func(a *BuildAsk) { a.Hydration = 9 },
		"the year is out": func(a *BuildAsk) { a.Now = a.RipeAt.AddDate(-1, 0, 0) },
	} {
		ask := saturdayAsk()
		change(&ask)
		_, err := PlanBuild(f, ask)
		var no *InfeasibleError
		if err == nil || errors.As(err, &no) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// RFC 5545: CRLF, UID and DTSTAMP in each event, times in UTC, no line longer
// than 75 octets.
func TestCalendarOfABuild(t *testing.T) {
	ask := saturdayAsk()
	b, err := PlanBuild(NewForecaster(UsualAssumptions(), nil), ask)
	if err != nil {
		t.Fatal(err)
	}
	stamp := time.Date(2026, 3, 5, 12, 0, 0, 0, time.UTC)
	file := b.Calendar(CalendarOptions{Culture: "Harbour; the dark, old one", UID: "build-7", Stamp: stamp, Alarm: 15 * time.Minute})
	for _, line := range strings.Split(strings.TrimSuffix(file, "\r\n"), "\r\n") {
		if len(line) > 75 || strings.ContainsAny(line, "\r\n") {
			t.Errorf("line %q", line)
		}
	}
	back, err := ics.ParseCalendar(strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	events := back.Events()
	if len(events) != len(b.Steps)+1 {
		t.Fatalf("%d events", len(events))
	}
	for i, e := range events {
		at, err := e.GetStartAt()
		want := b.RipeAt
		if i < len(b.Steps) {
			want = b.Steps[i].At
		}
		if err != nil || !at.Equal(want) || len(e.Alarms()) != 1 {
			t.Errorf("event %d at %v, want %v (%v)", i, at, want, err)
		}
		if made, err := e.GetDtStampTime(); err != nil || !made.Equal(stamp) {
			t.Errorf("stamp %v (%v)", made, err)
		}
		if title := e.GetProperty(ics.ComponentPropertySummary).Value; !strings.Contains(title, "Harbour; the dark, old one") {
			t.Errorf("title %q", title)
		}
	}
	if again := b.Calendar(CalendarOptions{Culture: "Harbour; the dark, old one", UID: "build-7", Stamp: stamp, Alarm: 15 * time.Minute}); again != file {
		t.Error("the same plan gave another file")
	}
}

func BenchmarkOneBuild(b *testing.B) {
	ask := saturdayAsk()
	ask.FeedAt = nil
	f := NewForecaster(UsualAssumptions(), nil)
	for b.Loop() {
		if _, err := PlanBuild(f, ask); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkInfeasibleBuildWithNearest(b *testing.B) {
	ask := saturdayAsk()
	ask.FeedAt, ask.Now = nil, ask.RipeAt.Add(-time.Hour)
	f := NewForecaster(UsualAssumptions(), nil)
	for b.Loop() {
		if _, err := PlanBuild(f, ask); err == nil {
			b.Fatal("feasible after all")
		}
	}
}
