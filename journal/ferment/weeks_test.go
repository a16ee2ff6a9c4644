package ferment

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// beginning is a culture fed once a day at the hour it was born, its peak read
// six hours later. peaks[0] is day 1; 0 is a day nobody looked.
func beginning(peaks []Rise) Life {
	l := Life{Born: monday}
	for i, p := range peaks {
		at := monday.AddDate(0, 0, i)
		c := Course{Feeding: Feeding{ID: fmt.Sprintf("f%d", i+1), At: at, Kept: 50, Flour: 50, Water: 50}}
		if i == 0 {
			c.Feeding.Kept = 0
		}
		if p > 0 {
			c.Readings = []Reading{
				{ID: fmt.Sprintf("r%da", i+1), At: at.Add(2 * time.Hour), Rise: 1 + (p-1)/4},
				{ID: fmt.Sprintf("r%db", i+1), At: at.Add(6 * time.Hour), Rise: p},
			}
		}
		l.Courses = append(l.Courses, c)
		l.Now = at.Add(7 * time.Hour)
	}
	return l
}

// The order of stages is that of spontaneous cultures in published studies (Van
// der Meulen 2007; Ercolini 2013): gas, a lull, then a settled rise.
func TestFourteenDaysOfABeginning(t *testing.T) {
	peaks := []Rise{1.1, 2.0, 1.7, 1.1, 1.05, 1.1, 1.4, 1.6, 1.8, 2.0, 2.2, 2.3, 2.3, 2.4}
	want := []Stage{
		StageQuiet, StageBurst, StageBurst,
		StageLull, StageLull, StageLull,
		StageWaking, StageWaking, StageWaking, StageWaking, StageWaking,
		StageSteady, StageSteady, StageSteady,
	}
	for day := 1; day <= 14; day++ {
		g := FirstWeeks(beginning(peaks[:day]))
		if g.Day != day || g.Stage != want[day-1] {
			t.Errorf("day %d: stage %q on day %d, want %q", day, g.Stage, g.Day, want[day-1])
		}
		if len(g.Evidence) == 0 {
			t.Errorf("day %d rests on nothing", day)
		}
	}
	g := FirstWeeks(beginning(peaks))
	if l := g.Lull; !l.Found || !l.Over || l.First != 4 || l.Last != 6 || l.BurstDay != 2 {
		t.Errorf("lull %+v, want days 4 to 6 after a burst on day 2", l)
	}
	lull := FirstWeeks(beginning(peaks[:5]))
	if !slices.Contains(lull.Evidence, "r2b") || !slices.Contains(lull.Evidence, "r5b") {
		t.Errorf("the lull rests on the burst and the low days, got %v", lull.Evidence)
	}
}

func TestLullIsNotNamedWhereReadingsDoNotLookLikeIt(t *testing.T) {
	cases := []struct {
		name  string
		peaks []Rise
		stage Stage
	}{
		{"nobody looked", []Rise{0, 0, 0}, StageUnread},
		{"never rose", []Rise{1, 1.05, 1.1, 1.05, 1.1}, StageQuiet},
		{"rose and went on rising", []Rise{1.1, 1.8, 1.7, 1.8, 1.9, 1.8}, StageWaking},
		{"rose, and nobody looked since", []Rise{1.1, 1.9, 0, 0}, StageBurst},
		{"settled, then low after weeks", append(slices.Repeat([]Rise{1.1, 2.2}, 1), append(slices.Repeat([]Rise{2.2}, 22), 1.1)...), StageSlow},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g := FirstWeeks(beginning(c.peaks))
			if g.Lull.Found || g.Stage != c.stage {
				t.Errorf("stage %q, lull %+v", g.Stage, g.Lull)
			}
		})
	}
}

// A lull is found on the same days whatever is read inside it that stays low.
func TestUnreadDaysInsideALullDoNotEndIt(t *testing.T) {
	g := FirstWeeks(beginning([]Rise{1.1, 2, 1.1, 0, 0, 1.1, 1.7}))
	if l := g.Lull; l.First != 3 || l.Last != 6 || !l.Over {
		t.Errorf("lull %+v", l)
	}
}

func TestDangerStandsAboveAllElse(t *testing.T) {
	for _, sign := range []Sign{SignMould, SignPinkOrange} {
		l := beginning([]Rise{1.1, 2, 2.2, 2.3, 2.3, 2.2, 2.4, 2.3, 2.3})
		l.Courses[3].Readings[0].Signs = []Sign{sign}
		g := FirstWeeks(l)
		if g.Stage != StageDanger || g.Cautions[0].String() != ThrowAway().String() || !slices.Equal(g.Evidence, []string{"r4a"}) {
			t.Errorf("%s: %+v", sign, g)
		}
		if r := Ready(l, UsualThresholds()); r.Ready || r.Sentence().String() != ThrowAway().String() {
			t.Errorf("%s: ready %v, %q", sign, r.Ready, r.Sentence())
		}
		if due, _ := NextFeeding(NewForecaster(UsualAssumptions(), nil), l); due.Reason != DueNever {
			t.Errorf("%s: due %+v", sign, due)
		}
	}
	l := beginning([]Rise{1.1, 2, 1.1})
	l.Courses[2].Readings[0].Signs = []Sign{SignGreyLiquid}
	g := FirstWeeks(l)
	if g.Stage == StageDanger || !strings.Contains(g.Cautions[0].String(), "a sign of hunger") {
		t.Errorf("grey liquid: %q, %q", g.Stage, g.Cautions[0])
	}
}

func TestReadinessTurnsOnTheThirdDoublingInARow(t *testing.T) {
	th := UsualThresholds()
	peaks := []Rise{1.1, 2.0, 1.7, 1.1, 1.05, 1.1, 1.4, 2.1, 1.8, 2.1, 2.2, 2.3}
	for day := 8; day <= 12; day++ {
		l := beginning(peaks[:day])
		last := &l.Courses[day-1].Readings[1]
		last.Smell = SmellFruity
		l.Now = l.Now.Add(2 * time.Hour) // past the eight hours
		r := Ready(l, th)
		if want := day == 12; r.Ready != want {
			t.Errorf("day %d: ready %v: %s", day, r.Ready, r.Sentence())
		}
		if day == 12 {
			c := r.Conditions[1]
			if c.Code != ConditionRises || !slices.Equal(c.Evidence, []string{"f10", "f11", "f12"}) {
				t.Errorf("rests on %v", c.Evidence)
			}
		}
	}
}

// Nothing is younger than new, though the clock was set back behind its birth.
func TestNoCultureIsOfANegativeAge(t *testing.T) {
	c := aged(Life{Born: monday, Now: monday.AddDate(0, 0, -23)}, UsualThresholds())
	if c.Have != 0 || c.Verdict != NotMet {
		t.Errorf("it is %v days old: %v", c.Have, c.Verdict)
	}
}

func TestOneFeedingAgainstTheThreshold(t *testing.T) {
	th := UsualThresholds()
	at := func(h float64, rise Rise) Reading { return Reading{At: monday.Add(hours(h)), Rise: rise} }
	cases := []struct {
		name     string
		readings []Reading
		now      float64
		want     Verdict
	}{
		{"not read", nil, 12, Unknown},
		{"doubled in time", []Reading{at(4, 1.5), at(6, 2.2)}, 7, Met},
		{"doubled on the line between two readings", []Reading{at(4, 1.5), at(9, 2.5)}, 10, Met},
		{"too late", []Reading{at(7, 1.3), at(12, 2.2)}, 13, NotMet},
		{"low to the end", []Reading{at(4, 1.2), at(8, 1.4)}, 9, NotMet},
		{"read early only: who knows", []Reading{at(3, 1.6)}, 12, Unknown},
		{"still in its time", []Reading{at(7, 1.8)}, 7.5, Unknown},
		{"read after now", []Reading{at(6, 2.2)}, 5, Unknown},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := test(Course{Feeding: Feeding{At: monday}, Readings: c.readings}, th, monday.Add(hours(c.now)))
			if got.Verdict != c.want {
				t.Errorf("%+v", got)
			}
		})
	}
}

func TestConditionsThatCannotBeToldKeepACultureFromBeingReady(t *testing.T) {
	l := beginning(slices.Repeat([]Rise{2.2}, 10))
	l.Now = l.Now.Add(2 * time.Hour)
	r := Ready(l, UsualThresholds())
	if r.Ready || r.Conditions[3].Verdict != Unknown || !strings.Contains(r.Sentence().String(), "smells right") {
		t.Errorf("no smell noted: %s", r.Sentence())
	}
	l.Born = time.Time{}
	if c := Ready(l, UsualThresholds()).Conditions[2]; c.Verdict != Unknown {
		t.Errorf("age unknown: %+v", c)
	}
}

func TestNextFeeding(t *testing.T) {
	life := func(c Course) Life { return Life{Courses: []Course{c}, Now: monday.Add(5 * time.Hour)} }
	f := NewForecaster(UsualAssumptions(), nil)
	fed := Feeding{At: monday, Kept: 50, Flour: 50, Water: 50, Room: Measured(25)}
	if got, _ := NextFeeding(f, life(Course{Feeding: fed})); got.Reason != DueRipe || got.By.Sub(monday) < 5*time.Hour || got.By.Sub(monday) > 8*time.Hour {
		t.Errorf("on the counter: %+v", got)
	}
	hungry := Course{Feeding: fed, Readings: []Reading{{At: monday.Add(4 * time.Hour), Smell: SmellSolvent}}}
	if got, _ := NextFeeding(f, life(hungry)); got.Reason != DueSigns || !got.By.Equal(monday.Add(4*time.Hour)) {
		t.Errorf("hungry: %+v", got)
	}
	cold := fed
	cold.Place = Refrigerator
	if got, _ := NextFeeding(f, life(Course{Feeding: cold})); got.Reason != DueWeekly || !got.By.Equal(monday.AddDate(0, 0, 7)) {
		t.Errorf("in the refrigerator: %+v", got)
	}
	if got, _ := NextFeeding(f, life(Course{Feeding: Feeding{At: monday, Flour: 50, Water: 50}})); got.Reason != DueFirst {
		t.Errorf("a first mix: %+v", got)
	}
}

// Pink was seen yesterday, and written down after today's feeding: it stays, for the
// culture and for what was split off it, until the baker says it was something else.
func TestACultureToBeThrownAwayStaysSo(t *testing.T) {
	day := func(d float64) time.Time { return monday.Add(hours(24 * d)) }
	pink := Reading{ID: "pink", At: day(10), Told: day(11.2), Signs: []Sign{SignPinkOrange}}
	l := Life{Born: day(0), Now: day(11.5), Courses: []Course{
		{Feeding: Feeding{ID: "first", At: day(9.5), Kept: 20, Flour: 40, Water: 40}, Readings: []Reading{pink}},
		{Feeding: Feeding{ID: "today", At: day(11), Kept: 20, Flour: 40, Water: 40}, Readings: []Reading{{ID: "fine", At: day(11.3), Rise: 2}}},
	}}
	f := NewForecaster(UsualAssumptions(), nil)
	condemned := func(l Life) bool {
		due, _ := NextFeeding(f, l)
		stage, ready := FirstWeeks(l).Stage, Ready(l, UsualThresholds())
		yes := len(l.Dangers()) > 0
		if (due.Reason == DueNever) != yes || (stage == StageDanger) != yes || (ready.Conditions[0].Verdict == NotMet) != yes {
			t.Errorf("not of one mind: due %q, stage %q, safe %v, dangers %v", due.Reason, stage, ready.Conditions[0].Verdict, l.Dangers())
		}
		return yes
	}
	if !condemned(l) {
		t.Error("a later feeding made it good")
	}
	later := l
	later.Now = day(200)
	if !condemned(later) {
		t.Error("time made it good")
	}
	for split, want := range map[float64]bool{6: false, 8: true, 10.5: true, 30: true} {
		child := Life{Born: day(split), Now: day(40), Inherited: later.Passes(day(split))}
		if condemned(child) != want || later.TaintedAt(day(split)) != want {
			t.Errorf("split off on day %v: condemned %v, want %v", split, !want, want)
		}
		child.Cleared = day(39)
		if condemned(child) {
			t.Errorf("split off on day %v, cleared, and still condemned", split)
		}
	}
	cleared := l
	cleared.Cleared = day(11.1)
	if !condemned(cleared) {
		t.Error("cleared before it was written down")
	}
	cleared.Cleared = day(11.4)
	if condemned(cleared) {
		t.Error("the baker's word does not lift it")
	}
	cleared.Courses[1].Readings = append(cleared.Courses[1].Readings, Reading{ID: "mould", At: day(11.45), Signs: []Sign{SignMould}})
	if !condemned(cleared) {
		t.Error("what is seen after the baker's word does not count")
	}
}

// Where no pH was measured, titrations do: by what the culture's own feedings come to, and
// only those made alike are compared.
func TestTitrationsEnterReadiness(t *testing.T) {
	l := beginning([]Rise{1.1, 2, 1.7, 1.1, 1.1, 1.1, 1.6, 2.1, 2.2, 2.2, 2.3})
	n := len(l.Courses)
	last := &l.Courses[n-1].Readings[1]
	last.Smell = SmellSour
	for i, ml := range []float64{6.2, 6.6} {
		l.Courses[n-4+i].Readings[1].Acid = Titration{ML: ml, Sample: 10, EndPoint: 8.5}
	}
	for _, c := range []struct {
		acid Titration
		want Verdict // Unknown: the condition is not listed
	}{
		{Titration{}, Unknown},
		{Titration{ML: 6.0, Sample: 10, EndPoint: 8.5}, Met},
		{Titration{ML: 12.0, Sample: 20, EndPoint: 8.5}, Met},
		{Titration{ML: 4.1, Sample: 10, EndPoint: 8.5}, NotMet},
		{Titration{ML: 4.1, Sample: 10, EndPoint: 6.6}, Unknown},
		{Titration{ML: 4.1}, Unknown},
	} {
		last.Acid = c.acid
		r := Ready(l, UsualThresholds())
		got := Unknown
		if c := r.Conditions[len(r.Conditions)-1]; c.Code == ConditionAcid {
			got = c.Verdict
			if !c.Titrated || c.Want < 5.1 || c.Want > 5.15 {
				t.Errorf("%+v: %+v, want four fifths of 6.4", last.Acid, c)
			}
		}
		if got != c.want || r.Ready != (c.want != NotMet) {
			t.Errorf("%+v: %v, want %v; ready %v", c.acid, got, c.want, r.Ready)
		}
	}
}

// A measured pH enters readiness, and one that was never measured does not.
func TestAcidityEntersReadiness(t *testing.T) {
	l := beginning([]Rise{1.1, 2, 1.7, 1.1, 1.1, 1.1, 1.6, 2.1, 2.2, 2.2})
	last := &l.Courses[len(l.Courses)-1]
	last.Readings[1].Smell = SmellSour
	if r := Ready(l, UsualThresholds()); !r.Ready || len(r.Conditions) != 4 {
		t.Fatalf("without a pH: %+v", r)
	}
	for pH, want := range map[float64]Verdict{5.1: NotMet, 4.4: NotMet, 4.26: Met, 3.9: Met} {
		last.Readings[1].PH = pH
		r := Ready(l, UsualThresholds())
		if c := r.Conditions[len(r.Conditions)-1]; c.Code != ConditionAcid || c.Verdict != want || r.Ready != (want == Met) {
			t.Errorf("pH %.2f: %+v, ready %v", pH, c, r.Ready)
		}
	}
	last.Readings[1].PH = 44 // a slip of the keys
	if r := Ready(l, UsualThresholds()); len(r.Conditions) != 4 {
		t.Errorf("pH 44 counts: %+v", r.Conditions)
	}
}

// What is in order is given as it is, from the feeding on and until now; what is not is sorted
// without altering it.
func TestCoursesAndReadingsInOrder(t *testing.T) {
	at := func(h int) time.Time { return monday.Add(time.Duration(h) * time.Hour) }
	read := func(hours ...int) (out []Reading) {
		for _, h := range hours {
			out = append(out, Reading{ID: fmt.Sprint(h), At: at(h)})
		}
		return out
	}
	for _, given := range [][]Reading{read(-2, 0, 3, 9), read(9, -2, 3, 0)} {
		before := slices.Clone(given)
		var ids []string
		for _, r := range (Course{Feeding: Feeding{At: monday}, Readings: given}).after() {
			ids = append(ids, r.ID)
		}
		if strings.Join(ids, " ") != "0 3 9" {
			t.Errorf("after the feeding there are %q", ids)
		}
		for i := range given {
			if given[i].ID != before[i].ID {
				t.Fatal("the readings given were altered")
			}
		}
	}
	fed := func(h int) Course { return Course{Feeding: Feeding{ID: fmt.Sprint(h), At: at(h)}} }
	for _, given := range [][]Course{{fed(0), fed(12), fed(24)}, {fed(24), fed(0), fed(12)}} {
		var ids []string
		for _, c := range (Life{Now: at(13), Courses: given}).sorted() {
			ids = append(ids, c.Feeding.ID)
		}
		if strings.Join(ids, " ") != "0 12" {
			t.Errorf("until now there are %q", ids)
		}
	}
}
