package calendar

import (
	"bytes"
	"encoding/json"
	"errors"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/plan"
)

var stamp = time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)

// overTheChange is a bake whose cold rest lies in the night of 25 October 2026,
// when the clocks of Berlin go back an hour at three.
func overTheChange(t *testing.T) plan.Plan {
	t.Helper()
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	night := plan.Night{From: 22*60 + 30, To: 6*60 + 30}
	s, err := plan.Forward(plan.CountryLoaf(), time.Date(2026, 10, 24, 12, 0, 0, 0, berlin), night)
	if err != nil || !s.OK() {
		t.Fatalf("%v, %v", err, s.Broken)
	}
	s.Plan.ID, s.Plan.Name = "01JDHARBOUR", "Fähre; zwei Laibe, groß"
	return s.Plan
}

func write(t *testing.T, o Options, plans ...plan.Plan) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, o, plans...); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// rules holds a file against what RFC 5545 asks of it, read with nothing but
// the standard library: 3.1 lines, 3.6 the calendar, 3.6.1 events, 3.6.6 alarms.
func rules(t interface{ Errorf(string, ...any) }, file string) {
	if !strings.HasSuffix(file, "\r\n") || strings.Contains(strings.ReplaceAll(file, "\r\n", ""), "\n") || strings.Contains(strings.ReplaceAll(file, "\r\n", ""), "\r") {
		t.Errorf("a line does not end in CRLF")
	}
	for _, line := range strings.Split(file, "\r\n") {
		if len(line) > 75 {
			t.Errorf("a line has %d octets: %q", len(line), line)
		}
		if !utf8.ValidString(line) {
			t.Errorf("a character is split: %q", line)
		}
	}
	var open []string
	has := map[string]int{}
	uids := map[string]bool{}
	for _, line := range strings.Split(strings.TrimSuffix(strings.ReplaceAll(file, "\r\n ", ""), "\r\n"), "\r\n") {
		name, value, ok := strings.Cut(line, ":")
		if !ok {
			t.Errorf("no property: %q", line)
			continue
		}
		switch name {
		case "BEGIN":
			open = append(open, value)
			if value != "VALARM" {
				has = map[string]int{}
			}
			continue
		case "END":
			if len(open) == 0 || open[len(open)-1] != value {
				t.Errorf("%s ends %v", value, open)
				return
			}
			open = open[:len(open)-1]
			check(t, value, has)
			continue
		case "UID":
			if uids[value] {
				t.Errorf("two entries are called %s", value)
			}
			uids[value] = true
		case "DTSTAMP", "DTSTART", "DTEND":
			if _, err := time.Parse("20060102T150405Z", value); err != nil {
				t.Errorf("%s is not in UTC: %v", name, err)
			}
		}
		if len(open) == 0 {
			t.Errorf("outside the calendar: %q", line)
			continue
		}
		has[open[len(open)-1]+" "+name]++
	}
	if len(open) != 0 {
		t.Errorf("left open: %v", open)
	}
}

func check(t interface{ Errorf(string, ...any) }, component string, has map[string]int) {
	switch component {
	case "VEVENT":
		for _, must := range []string{"UID", "DTSTAMP", "DTSTART", "SUMMARY"} {
			if has["VEVENT "+must] != 1 {
				t.Errorf("an entry has %d times %s", has["VEVENT "+must], must)
			}
		}
		if has["VEVENT DTEND"]+has["VEVENT DURATION"] != 1 {
			t.Errorf("an entry has %d DTEND and %d DURATION", has["VEVENT DTEND"], has["VEVENT DURATION"])
		}
	case "VALARM":
		for _, must := range []string{"ACTION", "TRIGGER", "DESCRIPTION"} {
			if has["VALARM "+must] != 1 {
				t.Errorf("an alarm has %d times %s", has["VALARM "+must], must)
			}
			has["VALARM "+must] = 0
		}
	}
}

func TestTheFileKeepsTheRules(t *testing.T) {
	file := write(t, Options{Stamp: stamp, Lead: 10}, overTheChange(t))
	rules(t, file)
	for _, want := range []string{"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:", "DTSTAMP:20261125T090000Z\r\n", "TRIGGER:-PT0M\r\n", "TRIGGER:-PT10M\r\n", `Fähre\; zwei Laibe\, groß`} {
		if !strings.Contains(strings.ReplaceAll(file, "\r\n ", ""), want) {
			t.Errorf("%q is not in\n%s", want, file)
		}
	}
}

// Names of any length in any script, with any character, must not break a line.
func TestAnyNameKeepsTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.Plan{ID: "01", Name: rapid.String().Draw(t, "name"), Start: stamp, Steps: []plan.Step{
			{ID: rapid.StringN(1, 20, 60).Draw(t, "id"), Kind: plan.Mix, Name: rapid.StringN(0, 200, 600).Draw(t, "step"), Note: string(rapid.SliceOfN(rapid.Byte(), 0, 300).Draw(t, "note")), Length: 5, Hands: plan.HandsAtStart},
		}}
		var b bytes.Buffer
		if err := Write(&b, Options{Stamp: stamp}, p); err != nil {
			t.Fatal(err)
		}
		rules(t, b.String())
	})
}

func TestEntriesKeepTheirNamesWhenThePlanMoves(t *testing.T) {
	uids := func(p plan.Plan) (out []string) {
		for _, line := range strings.Split(write(t, Options{Stamp: stamp}, p), "\r\n") {
			if strings.HasPrefix(line, "UID:") {
				out = append(out, line)
			}
		}
		return out
	}
	p := overTheChange(t)
	moved, err := p.Shift(plan.Ref{Step: "turns", Turn: 2}, 10)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := strings.Join(uids(p), "\n"), strings.Join(uids(moved), "\n"); a != b {
		t.Errorf("from\n%s\nto\n%s", a, b)
	}
	first, second := write(t, Options{Stamp: stamp}, p), write(t, Options{Stamp: stamp}, p)
	if first != second {
		t.Error("the same plan gives two files")
	}
	if err := Write(&bytes.Buffer{}, Options{}, plan.Plan{Name: "x"}); !errors.Is(err, ErrNoID) {
		t.Errorf("a plan without an ID: %v", err)
	}
}

func TestWhatIsDoneOrSkippedRingsNoMore(t *testing.T) {
	p := overTheChange(t)
	before := strings.Count(write(t, Options{Stamp: stamp}, p), "BEGIN:VALARM")
	p, err := p.Done(plan.Ref{Step: "mix"}, p.Start)
	if err != nil {
		t.Fatal(err)
	}
	p, err = p.Skip(plan.Ref{Step: "turns", Turn: 1}, p.Start)
	if err != nil {
		t.Fatal(err)
	}
	file := write(t, Options{Stamp: stamp}, p)
	rules(t, file)
	if after := strings.Count(file, "BEGIN:VALARM"); after != before-2 {
		t.Errorf("%d alarms, before %d", after, before)
	}
	if strings.Contains(file, uid(p.ID, plan.Ref{Step: "turns", Turn: 1})) {
		t.Error("a skipped turn is in the file")
	}
}

// What is overdue when the file is saved says so first, in a colour of its own (RFC 7986, 5.9,
// takes the names of CSS), and what follows stands where it is expected now. On time the file
// is as without a clock.
func TestWhatIsOverdueSaysSo(t *testing.T) {
	p := overTheChange(t)
	late := p.Start.Add(95 * time.Minute)
	o := Options{Stamp: late, Now: late, Overdue: func(due time.Time) string {
		if late.Sub(due) < time.Minute {
			return ""
		}
		return "overdue by " + late.Sub(due).String()
	}}
	file := strings.ReplaceAll(write(t, o, p), "\r\n ", "")
	rules(t, write(t, o, p))
	if n := strings.Count(file, "overdue by 1h35m0s – Mix: "); n != 2 { // the entry, and its alarm
		t.Errorf("mixing is said %d times to be overdue", n)
	}
	if strings.Count(file, "overdue") != strings.Count(file, "overdue by 1h35m0s – Mix: ") || strings.Count(file, "COLOR:firebrick") != 1 {
		t.Error("something else is overdue as well")
	}
	rest := p.Timeline(late)[1]
	if want := "DTSTART:" + rest.Due.UTC().Format("20060102T150405Z"); !rest.Due.After(late) || !strings.Contains(file, want) {
		t.Errorf("the rest is not at %v", rest.Due)
	}
	o.Now = p.Start
	o.Overdue = func(due time.Time) string { return "" }
	if a, b := write(t, o, p), write(t, Options{Stamp: late}, p); a != b {
		t.Error("on time, the file is another one than without a clock")
	}
}

// entry is what readback.py prints.
type entry struct {
	UID, Summary, Note string
	Stamp, Start, End  time.Time
	Alarms             []struct {
		Action        string
		MinutesBefore float64
		Rings         time.Time
		Text          string
	}
}

// The file is read back by Python's icalendar, over a change of the clocks and
// from another zone: every alarm must ring when the plan says.
func TestAnIndependentReaderFindsTheAlarms(t *testing.T) {
	const python = "/usr/bin/python3"
	p := overTheChange(t)
	// The same plan on a telephone that has flown to New York.
	newYork, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	abroad := p.Clone()
	abroad.ID, abroad.Start = "01JDABROAD", p.Start.In(newYork)
	file := write(t, Options{Stamp: stamp, Lead: 10}, p, abroad)
	rules(t, file)

	if out, err := exec.Command(python, "-c", "import icalendar").CombinedOutput(); err != nil {
		t.Logf("icalendar for %s is not at hand, so the file was checked by our own rules alone: %v %s", python, err, out)
		return
	}
	cmd := exec.Command(python, filepath.Join("..", "..", "..", "testdata", "formula", "readback.py"))
	cmd.Stdin = strings.NewReader(file)
	var fault bytes.Buffer
	cmd.Stderr = &fault
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, fault.String())
	}
	found := map[string]entry{}
	dec := json.NewDecoder(bytes.NewReader(out))
	for dec.More() {
		var e entry
		if err := dec.Decode(&e); err != nil {
			t.Fatal(err)
		}
		found[e.UID] = e
	}

	alarms := 0
	for _, p := range []plan.Plan{p, abroad} {
		for _, m := range p.Timeline(time.Time{}) {
			e, ok := found[uid(p.ID, m.Ref)]
			if !ok {
				t.Errorf("%s is not in the file", m.Title)
				continue
			}
			if !e.Start.Equal(m.Due) || !e.Stamp.Equal(stamp) || e.Summary != m.Title.String()+": "+p.Name || e.Note != m.Note {
				t.Errorf("%s at %v was read as %+v", m.Title, m.Due, e)
			}
			if m.End.After(m.Due) && !e.End.Equal(m.End) {
				t.Errorf("%s ends at %v, was read as %v", m.Title, m.End, e.End)
			}
			want := 0
			if m.Hands || m.Ref == plan.Ready {
				want = 2
			}
			if len(e.Alarms) != want {
				t.Errorf("%s has %d alarms, want %d", m.Title, len(e.Alarms), want)
				continue
			}
			for i, a := range e.Alarms {
				lead := time.Duration(i) * 10 * time.Minute
				if a.Action != "DISPLAY" || !a.Rings.Equal(m.Due.Add(-lead)) || a.Text != e.Summary {
					t.Errorf("%s: alarm %+v, want it at %v", m.Title, a, m.Due.Add(-lead))
				}
				alarms++
			}
		}
	}
	if want := 2 * 2 * 13; alarms != want { // mix, six turns, shape, heat, two bakes, cool, ready
		t.Errorf("%d alarms, want %d", alarms, want)
	}
	// After the change Berlin is an hour behind UTC, not two: half past six is 5:30.
	if got := found[uid(p.ID, plan.Ref{Step: "heat"})].Start.UTC().Format("02 15:04"); got != "25 05:30" {
		t.Errorf("the oven is heated at %s UTC, want 25 05:30", got)
	}
}

// The steps around the shaping stand in the calendar under the names that a baker gives
// them, each as long as it is planned.
func TestShapingStandsInTheCalendar(t *testing.T) {
	steps := append([]plan.Step{{ID: "mix", Kind: plan.Mix, Length: 15, Hands: plan.HandsThroughout}}, plan.Shaping()...)
	steps = append(steps, plan.Step{ID: "bake", Kind: plan.BakeCovered, Length: 45, Hands: plan.HandsAtStart})
	s, err := plan.Forward(steps, time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC), plan.Night{})
	if err != nil || !s.OK() {
		t.Fatalf("%v, %v", err, s.Broken)
	}
	s.Plan.ID, s.Plan.Name = "01JDSHAPING", "Ferry loaf"
	file := write(t, Options{Stamp: stamp}, s.Plan)
	rules(t, file)
	for _, want := range []string{
		"Pre-shape", "DTSTART:20260304T091500Z", "Bench rest", "DTSTART:20260304T092500Z", "Proof", "DTSTART:20260304T094500Z",
	} {
		if !strings.Contains(file, want) {
			t.Errorf("%q is not in\n%s", want, file)
		}
	}
}
