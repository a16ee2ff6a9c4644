package ferment

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// A diary is the record of a culture's beginning, told shortly.
type diary struct {
	peaks  []Rise  // by day of age, read `at` hours after the day's feeding; 0 is a day unread
	at     float64 // hours; 0 for six
	temp   Celsius // written down at each feeding; 0 for none
	smell  map[int]Smell
	signs  map[int]Sign
	later  float64 // hours from the last feeding until now; 0 for an hour after the reading
	place  Place
	age    int  // days it is older than its first feeding here
	unborn bool // nobody knows how old it is
	past   bool
}

func (d diary) life() Life {
	at := d.at
	if at == 0 {
		at = 6
	}
	l := Life{Born: monday.AddDate(0, 0, -d.age)}
	if d.unborn {
		l.Born = time.Time{}
	}
	for i, p := range d.peaks {
		fed := monday.AddDate(0, 0, i)
		c := Course{Feeding: Feeding{ID: fmt.Sprintf("f%d", i+1), At: fed, Kept: 50, Flour: 50, Water: 50, Place: d.place}}
		if i == 0 && d.age == 0 {
			c.Feeding.Kept = 0
		}
		if d.temp != 0 {
			c.Feeding.Room = Measured(d.temp)
		}
		r := Reading{ID: fmt.Sprintf("r%d", i+1), At: fed.Add(hours(at)), Rise: p, Smell: d.smell[i+1]}
		if s, ok := d.signs[i+1]; ok {
			r.Signs = []Sign{s}
		}
		if p > 0 || r.Smell != "" || r.Signs != nil {
			c.Readings = append(c.Readings, Reading{ID: r.ID + "a", At: fed.Add(hours(at / 3)), Rise: min(p, 1+(p-1)/4)}, r)
		}
		l.Courses = append(l.Courses, c)
		l.Now = fed.Add(hours(at + 1))
		if d.later > 0 {
			l.Now = fed.Add(hours(d.later))
		}
	}
	return l
}

func times(n int, p ...Rise) (out []Rise) {
	for range n {
		out = append(out, p...)
	}
	return out
}

func all(smell Smell, from, to int) map[int]Smell {
	out := map[int]Smell{}
	for d := from; d <= to; d++ {
		out[d] = smell
	}
	return out
}

func joined(parts ...[]Rise) (out []Rise) {
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

// Each diary must get its sentence. In the column why: V is the order and length of the
// stages in published studies (Van der Meulen 2007; Ercolini 2013: gas first, a lull,
// stable after five to seven daily refreshments), T the rates by temperature of
// growth_vs_temperature_points.csv, F the cautions of FDA and CDC, C common practice, no
// source.
func TestEachDiaryGetsItsSentence(t *testing.T) {
	burst := []Rise{1.1, 2.0, 1.7}
	sour := all(SmellSour, 1, 60)
	for _, c := range []struct {
		name  string
		d     diary
		state string
		says  string // a part of why or next
		why   string
	}{
		{"first day, quiet", diary{peaks: []Rise{1.05}}, "A quiet beginning", "Go on feeding", "C"},
		{"nothing read on day 1", diary{peaks: []Rise{0}}, "Not read yet", "read the height", "C"},
		{"burst on day 2", diary{peaks: burst[:2]}, "The early burst", "not ready to bake with", "V"},
		{"burst goes on", diary{peaks: burst}, "The early burst", "lull of a few days", "V"},
		{"foul on day 3", diary{peaks: burst, smell: all(SmellFoul, 2, 3)}, "The early burst", "bacteria", "C: usual up to day 5"},
		{"lull on day 4", diary{peaks: joined(burst, times(1, 1.1))}, "The usual lull", "go on feeding", "V"},
		{"lull on day 6", diary{peaks: joined(burst, times(3, 1.1))}, "The usual lull", "since day 4", "V"},
		{"lull with a sour smell", diary{peaks: joined(burst, times(3, 1.1)), smell: sour}, "The usual lull", "go on feeding", "V"},
		{"lull until day 13", diary{peaks: joined(burst, times(10, 1.1))}, "A long lull", "since day 4", "V: five to seven refreshments"},
		{"lull on day 17", diary{peaks: joined(burst, times(14, 1.1))}, "A long lull", "Usual remedies", "V, C: seven to fourteen days"},
		{"lull on day 17 at 16 °C", diary{peaks: joined(burst, times(14, 1.1)), temp: 16}, "A long lull", "16 °C", "T"},
		{"lull on day 42", diary{peaks: joined(burst, times(39, 1.1))}, "Slow", "no longer part of the beginning", "C"},
		{"wakes on day 7", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.5})}, "Waking", "rose to 1.50× on day 7", "V"},
		{"one doubling", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.6, 2.1})}, "Nearly there", "takes 3 in a row", "C"},
		{"two doublings", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.6, 2.1, 2.2})}, "Nearly there", "2 feedings in a row", "C"},
		{"three doublings and sour", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.6, 2.1, 2.2, 2.2}), smell: sour}, "Ready to bake with", "The lull on days 4 to 6", "C"},
		{"three doublings, smell not noted", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.6, 2.1, 2.2, 2.2})}, "Nearly there", "smells right", "C"},
		{"doubles from day 5, no lull", diary{peaks: []Rise{1.1, 1.2, 1.3, 1.6, 2.1, 2.2, 2.3}, smell: sour}, "Nearly there", "old enough", "C: a week"},
		{"never starts, day 4", diary{peaks: times(4, 1.05)}, "A quiet beginning", "some only after a week", "C"},
		{"never starts, day 7", diary{peaks: times(7, 1.05)}, "A quiet beginning", "some only after a week", "C"},
		{"never starts, day 9", diary{peaks: times(9, 1.05)}, "It has not started", "Usual remedies", "C: stirs within a week"},
		{"never starts, day 9 at 16 °C", diary{peaks: times(9, 1.05), temp: 16}, "It has not started", "16 °C", "T: a quarter to a half of the best rate"},
		{"never starts, day 20", diary{peaks: times(20, 1.05)}, "It has not started", "day 20", "C"},
		{"never starts, day 25", diary{peaks: times(25, 1.05)}, "Slow", "Usual remedies", "C"},
		{"first rises on day 6", diary{peaks: []Rise{1.1, 1.1, 1.2, 1.2, 1.3, 1.7}}, "Waking", "It rose to 1.70× on day 6", "V"},
		{"rises on day 6, less on day 7", diary{peaks: []Rise{1.1, 1.1, 1.2, 1.2, 1.3, 1.9, 1.3}}, "Rising unevenly", "risen to 1.90× before, but only to 1.30× on day 7", "C"},
		{"rises on day 6, less on day 9", diary{peaks: []Rise{1.1, 1.1, 1.2, 1.2, 1.3, 1.9, 1.3, 1.3, 1.3}}, "Rising unevenly", "Usual remedies", "C"},
		{"day 4 at 16 °C", diary{peaks: times(4, 1.05), temp: 16}, "A quiet beginning", "16 °C", "T"},
		{"36 °C and solvent", diary{peaks: joined(burst, times(4, 1.1)), temp: 36, smell: all(SmellSolvent, 4, 7)}, "Too warm", "cooler place", "T: no yeast at 35"},
		{"36 °C from the first day", diary{peaks: times(6, 1.1), temp: 36}, "Too warm", "35 °C", "T"},
		{"36 °C and doubling all the same", diary{peaks: joined(burst, times(2, 1.1), times(4, 2.2)), temp: 36, smell: sour}, "Ready to bake with", "in a row", "Salvadó 2011: some yeasts grow up to 45"},
		{"foul on day 7", diary{peaks: joined(burst, times(4, 1.1)), smell: all(SmellFoul, 7, 7)}, "It smells foul", "Feed it twice more", "C"},
		{"foul for sixteen days", diary{peaks: joined(burst, times(13, 1.1)), smell: all(SmellFoul, 1, 16)}, "Begin again", "Throw it away", "C"},
		{"foul once, then sour", diary{peaks: joined(burst, times(6, 1.1)), smell: map[int]Smell{7: SmellFoul, 9: SmellSour}}, "The usual lull", "go on feeding", "C: it went"},
		{"18 °C, doubles in eleven hours", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.6}, times(3, 2.1)), at: 11, temp: 18, smell: sour}, "Ready to bake with", "in a row", "T: half the rate"},
		{"25 °C, doubles in eleven hours", diary{peaks: joined(burst, times(3, 1.1), []Rise{1.6}, times(3, 2.1)), at: 11, temp: 25, smell: sour}, "Waking", "doubling in time", "C: eight hours"},
		{"ready, 23 hours after feeding, fallen", diary{peaks: joined(burst, times(3, 1.1), times(4, 2.2)), smell: sour, later: 23, past: true}, "Strong, but hungry", "Feed it", "C"},
		{"ready, liquid on top", diary{peaks: joined(burst, times(3, 1.1), times(4, 2.2)), smell: sour, signs: map[int]Sign{10: SignGreyLiquid}}, "Strong, but hungry", "past its best", "C"},
		{"burst, then eighteen days unread", diary{peaks: joined(burst, times(18, 0))}, "Not read lately", "last read 18 days ago", "C"},
		{"ready, then a week unread", diary{peaks: joined(burst, times(3, 1.1), times(4, 2.2), times(7, 0)), smell: sour}, "Not read lately", "Look for mould", "C"},
		{"mould", diary{peaks: burst, signs: map[int]Sign{2: SignMould}}, "Throw it away", "all of it", "F"},
		{"pink on day 9, then three doublings", diary{peaks: joined(burst, times(5, 1.1), times(4, 2.2)), smell: sour, signs: map[int]Sign{9: SignPinkOrange}}, "Throw it away", "all of it", "F"},
		{"grown, in the refrigerator", diary{peaks: times(4, 1.3), age: 400, place: Refrigerator}, "Resting in the refrigerator", "once a week", "C"},
		{"grown, does not rise", diary{peaks: times(4, 1.1), age: 400}, "Slow", "Usual remedies", "C"},
		{"age not known, strong", diary{peaks: times(4, 2.5), unborn: true, smell: sour}, "Not quite ready", "Still open: old enough", "C"},
		{"age not known, does not rise", diary{peaks: times(4, 1.1), unborn: true}, "Not quite ready", "rises in time", "C"},
		{"age not known, foul", diary{peaks: times(4, 1.1), unborn: true, smell: all(SmellFoul, 4, 4)}, "It smells foul", "throw it away", "C"},
		{"grown, strong", diary{peaks: times(4, 2.5), age: 400, smell: sour}, "Ready to bake with", "in a row", "C"},
		{"grown, smells of solvent", diary{peaks: times(4, 2.5), age: 400, smell: all(SmellSolvent, 1, 4)}, "Not quite ready", "smells right", "C"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := c.d.life()
			th := UsualThresholds()
			got := FirstWeeks(l).Lead(Ready(l, th), th, JarNow{Place: c.d.place, Past: c.d.past})
			said := strings.Join([]string{got.Why.String(), got.Next.String()}, " ")
			if got.State.String() != c.state || !strings.Contains(said, c.says) {
				t.Errorf("day %d: %q, %q; want %q and %q (%s)", DayOfAge(l.Born, l.Now), got.State, said, c.state, c.says, c.why)
			}
			if strings.Contains(said, "{{") {
				t.Errorf("a figure is missing: %q", said)
			}
			if strings.Contains(said, "in a row") && !strings.Contains(said, "of those read") && !strings.Contains(said, "it takes 3 in a row") {
				t.Errorf("feedings in a row may have others between them that nobody read: %q", said)
			}
			for _, caution := range FirstWeeks(l).Cautions {
				if got.State.String() == "Begin again" && strings.Contains(caution.String(), "usual in the first days") {
					t.Errorf("lead and caution contradict each other: %q", caution)
				}
			}
		})
	}
}

// A lull that was long is not called usual once it is over.
func TestALongLullWasNotUsual(t *testing.T) {
	for _, c := range []struct {
		days  int
		usual bool
	}{{3, true}, {8, true}, {9, false}} {
		l := diary{peaks: joined([]Rise{1.1, 2.0, 1.7}, times(c.days, 1.1), []Rise{1.6, 2.1, 2.2, 2.2}), smell: all(SmellSour, 1, 99)}.life()
		th := UsualThresholds()
		got := FirstWeeks(l).Lead(Ready(l, th), th, JarNow{})
		if said := got.Next.String(); got.State.String() != "Ready to bake with" || strings.Contains(said, "usual") != c.usual {
			t.Errorf("after a lull of %d days: %q, %q", c.days, got.State, said)
		}
	}
}

// One feeding is no row of them.
func TestALeadOfOneFeeding(t *testing.T) {
	d := diary{peaks: times(1, 2.5), age: 400, smell: all(SmellSour, 1, 99)}
	th := UsualThresholds()
	th.InARow = 1
	for _, now := range []JarNow{{}, {Past: true}} {
		l := d.life()
		got := FirstWeeks(l).Lead(Ready(l, th), th, now)
		if said := got.Why.String(); strings.Contains(said, "in a row") || !strings.Contains(said, "after the last feeding that was read long enough") {
			t.Errorf("%q: %q", got.State, said)
		}
	}
}

// A feeding between that nobody read breaks no row, and is not said to have risen.
func TestARowWithAFeedingThatNobodyRead(t *testing.T) {
	l := diary{peaks: []Rise{2.5, 2.5, 0, 2.5}, age: 400, smell: all(SmellSour, 1, 99)}.life()
	th := UsualThresholds()
	got := FirstWeeks(l).Lead(Ready(l, th), th, JarNow{})
	if said := got.Why.String(); got.State.String() != "Ready to bake with" || !strings.Contains(said, "3 feedings in a row, of those read long enough") {
		t.Errorf("%q: %q", got.State, said)
	}
}

// That it smells foul rests on the readings that say so, and on no height.
func TestAFoulSmellRestsOnWhatSmelled(t *testing.T) {
	l := diary{peaks: times(7, 1.3), smell: map[int]Smell{2: SmellFoul, 6: SmellFoul, 7: SmellFoul}}.life()
	g := FirstWeeks(l)
	smelled := map[string]bool{}
	for _, c := range l.Courses {
		for _, r := range c.Readings {
			smelled[r.ID] = r.Smell == SmellFoul && DayOfAge(l.Born, r.At) > 5
		}
	}
	if g.Stage != StageFoul || len(g.Evidence) != 2 {
		t.Fatalf("%s rests on %q", g.Stage, g.Evidence)
	}
	for _, id := range g.Evidence {
		if !smelled[id] {
			t.Errorf("it rests on %s, which says nothing of a smell", id)
		}
	}
}
