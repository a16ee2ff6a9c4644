package today

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/photo/phototest"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// shown builds the page on a bench and waits for what it works out.
func shown(t *testing.T, b *pagestest.Bench) *page {
	t.Helper()
	p := newPage(b.Env)
	b.Window.SetContent(kit.NewFrame(b.Main, p.Object()))
	p.Shown()
	t.Cleanup(p.Left)
	b.Wait()
	return p
}

func TestAnEmptyJournalInvites(t *testing.T) {
	b := pagestest.New(t)
	shown(t, b)
	if got := b.Texts(); !strings.Contains(got, "Your journal is empty") || !strings.Contains(got, "Write down a bake") {
		t.Errorf("shown: %s", got)
	}
}

// What cannot be read is told, and is not waited for.
func TestWhatCannotBeReadIsTold(t *testing.T) {
	b := pagestest.New(t)
	if err := b.Journal.Close(); err != nil {
		t.Fatal(err)
	}
	if p := shown(t, b); p.Reading() || len(b.Failed) == 0 {
		t.Errorf("reading %v, told %v", p.Reading(), b.Failed)
	}
}

// The warmth of the kitchen is what it usually is, not what was measured.
func TestTheKitchenIsAsItUsuallyIs(t *testing.T) {
	s := &state{settings: &journal.Settings{Kitchen: new(formula.Celsius(22))}}
	if got := strings.ReplaceAll(s.eyebrow(measure.Units{}), "\u00a0", " "); !strings.HasSuffix(got, "kitchen usually 22 °C") {
		t.Errorf("it says %q", got)
	}
}

func TestACultureThatIsDueIsNamed(t *testing.T) {
	b := pagestest.New(t)
	c := &journal.Culture{Name: "Harbour", Born: b.Clock.AddDate(0, -11, 0)}
	if !b.Do("a culture", func(tx *journal.Tx) error {
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-40 * time.Hour), Kept: 30, Flour: 60, Water: 60, RoomC: new(formula.Celsius(24))})
	}) {
		t.Fatal(b.Failed)
	}
	p := shown(t, b)
	if got := p.state.heading(measure.Units{}); got != "Harbour needs feeding" {
		t.Errorf("the heading is %q", got)
	}
	band := p.state.makeBand(measure.Units{}, whatIf{})
	if len(band.lanes) != 1 || len(band.lanes[0].curve) == 0 || !strings.Contains(band.lanes[0].words, "approximate") {
		t.Fatalf("the band is %+v", band.lanes)
	}
	// A feeding thought of at six in the evening moves the ripe window behind it.
	evening := b.Clock.Add(9 * time.Hour)
	ripe := p.state.cultures[0].forecast.RipeTo.Mid
	past := *p.state
	past.now = ripe.Add(72 * time.Hour) // beyond the band the day is told, not an hour alone
	if words := past.makeBand(measure.Units{}, whatIf{}).lanes[0].words; !strings.Contains(words, ripe.In(past.now.Location()).Format("Mon 2\u00a0Jan")) {
		t.Errorf("three days after its ripe window it says %q", words)
	}
	thought := p.state.makeBand(measure.Units{}, whatIf{c.ID: evening}).lanes[0]
	if !thought.ripe.from.After(evening) || !thought.handle.Equal(evening) || !strings.Contains(thought.words, "if fed at") {
		t.Errorf("thought of at %v: %+v", evening, thought)
	}
	// One that is to be thrown away has no ripe window, and no other feeding is tried with it.
	if !b.Do("a reading", func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock, Mould: true})
	}) {
		t.Fatal(b.Failed)
	}
	if lanes := shown(t, b).state.makeBand(measure.Units{}, whatIf{}).lanes; len(lanes) != 0 {
		t.Errorf("mould was seen, and the band has %+v", lanes)
	}
}

// A culture that was fed in another time zone is ripe by the clock of this one.
func TestACultureThatWasFedElsewhereIsRipeByTheClockHere(t *testing.T) {
	b := pagestest.New(t)
	c := &journal.Culture{Name: "Harbour", Born: b.Clock.AddDate(0, -11, 0)}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		fed := b.Clock.Add(-2 * time.Hour).In(time.FixedZone("", 7*3600))
		return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: fed, Kept: 30, Flour: 60, Water: 60, RoomC: new(formula.Celsius(24))})
	})
	s := shown(t, b).state
	f := s.cultures[0].forecast
	from, to := f.RipeFrom.Mid.UTC().Format("15:04"), f.RipeTo.Mid.UTC().Format("15:04")
	if got := s.makeBand(measure.Units{}, whatIf{}).lanes[0].words; !strings.Contains(got, from+" to "+to) {
		t.Errorf("ripe from %s to %s: the band says %q", from, to, got)
	}
	if got := s.cultures[0].expectation(s.now, measure.Units{}); got != "ripe from "+from {
		t.Errorf("ripe from %s: beside the bench it says %q", from, got)
	}
	s.now = f.RipeFrom.Mid.Add(time.Minute).UTC()
	if got := s.heading(measure.Units{}); got != "Harbour is ripe until about "+to {
		t.Errorf("ripe until %s: the heading is %q", to, got)
	}
}

// What is overdue says by how much at each turn of the minute, without anything being pressed.
func TestTheClockMovesWhatIsOverdue(t *testing.T) {
	b := pagestest.New(t)
	for i, name := range []string{"Ferry loaf", "Deck rye"} {
		start := b.Clock.Add(time.Duration(i) * time.Minute)
		bake := &journal.Bake{Name: name, At: start, State: journal.Running, Steps: []journal.Step{
			{ID: "shape", Kind: string(plan.Divide), PlannedAt: start, Planned: 40 * time.Minute, Min: 40 * time.Minute, Max: 40 * time.Minute}}}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	}
	p := shown(t, b)
	b.Window.Resize(fyne.NewSize(1280, 801))
	late := func() (out []string) {
		for _, d := range pagestest.All[*kit.Due](b.Window.Content()) {
			if d.Late() {
				out = append(out, strings.ReplaceAll(d.String(), "\u00a0", " "))
			}
		}
		return out
	}
	if got := late(); len(got) > 0 {
		t.Errorf("on time it says %q", got)
	}
	b.Clock = b.Clock.Add(3 * time.Minute)
	p.tick() // each second
	if got := late(); len(got) != 2 || !strings.HasPrefix(got[0], "overdue by 3 min") || !strings.HasPrefix(got[1], "overdue by 3 min") {
		t.Errorf("after three minutes it says %q", got)
	}
	p.refresh() // each minute: the band, the other dough, and the doughs on one clock as well
	b.Wait()
	if got := strings.Join(late(), "; "); strings.Count(got, "overdue by 3 min") != 4 || strings.Count(got, "overdue by 2 min") != 3 {
		t.Errorf("after three minutes it says %q", got)
	}
	b.Clock = b.Clock.Add(time.Minute)
	p.tick()
	p.refresh()
	b.Wait()
	if got := strings.Join(late(), "; "); strings.Count(got, "overdue by 4 min") != 4 || strings.Count(got, "overdue by 3 min") != 3 {
		t.Errorf("after four minutes it says %q", got)
	}
}

func TestTheTimeThatIsLeftIsInWholeMinutes(t *testing.T) {
	for _, c := range []struct {
		d    time.Duration
		want string
	}{
		{11*time.Minute + 48*time.Second, "11 min"},
		{2*time.Hour + 5*time.Minute, "2 h 5 min"},
		{-30 * time.Second, "0 min"},
		{-3*time.Minute - 20*time.Second, "0 min"}, // by how much it is overdue is said in its place
		{0, "0 min"},
	} {
		if got := strings.ReplaceAll(remaining(c.d, measure.Units{}), "\u00a0", " "); got != c.want {
			t.Errorf("%v is written %s, want %s", c.d, got, c.want)
		}
	}
}

func TestNightsCoverSleepOnly(t *testing.T) {
	settings := &journal.Settings{}
	from := time.Date(2026, 3, 4, 7, 0, 0, 0, time.UTC)
	got := nights(from, from.Add(36*time.Hour), settings)
	want := []span{{time.Date(2026, 3, 4, 22, 30, 0, 0, time.UTC), time.Date(2026, 3, 5, 6, 30, 0, 0, time.UTC)}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestThePlaceOfATimeAndBack(t *testing.T) {
	b := band{from: time.Date(2026, 3, 4, 6, 0, 0, 0, time.UTC)}
	b.to = b.from.Add(36 * time.Hour)
	at := b.from.Add(7 * time.Hour)
	if got := b.at(b.x(at, 900), 900); got.Sub(at).Abs() > time.Second {
		t.Errorf("got %v, want %v", got, at)
	}
}

// The day's one key is on Today too: it begins what is next, and says that what runs is over;
// what is taken from a jar by that is written down here as on the bake day.
func TestTheDaysKeyOnToday(t *testing.T) {
	b := pagestest.New(t)
	start := b.Clock.Add(-30 * time.Minute)
	gorse := &journal.Culture{Name: "Gorse", Born: start.AddDate(-1, 0, 0)}
	bake := &journal.Bake{Name: "Ferry loaf", At: start, State: journal.Running,
		Ingredients: []journal.Ingredient{{ID: "seed", Name: "Gorse", Role: formula.Culture, Grams: 40}},
		Steps: []journal.Step{
			{ID: "mix", Kind: string(plan.Mix), PlannedAt: start, Planned: 40 * time.Minute, Min: 40 * time.Minute, Max: 40 * time.Minute},
			{ID: "proof", Kind: string(plan.Proof), Planned: time.Hour, Min: time.Hour, Max: time.Hour},
			{ID: "in", Kind: string(plan.BakeCovered), Planned: 40 * time.Minute, Min: 40 * time.Minute, Max: 40 * time.Minute},
		}}
	if !b.Do("a day", func(tx *journal.Tx) error {
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		if err := journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: start.Add(-4 * time.Hour), Kept: 20, Flour: 40, Water: 40}); err != nil {
			return err
		}
		return journal.Put(tx, bake)
	}) {
		t.Fatal(b.Failed)
	}
	p := shown(t, b)
	press := func(words, want string, late bool, heading string) {
		t.Helper()
		d, ok := p.state.bench()
		if !ok || d.stand.Step+" "+pages.PressWord(d.stand) != want {
			t.Fatalf("on the bench stands %+v, want %s", d.stand, want)
		}
		if p.late.Visible() != late || p.headLate.Visible() != late || p.left.Visible() == late || p.state.heading(measure.Units{}) != heading {
			t.Errorf("%s: %q, and overdue is shown as %q", want, p.state.heading(measure.Units{}), p.headLate.String())
		}
		p.press()
		b.Wait()
		p.refresh()
		b.Wait()
		if got := strings.Join(b.Said, " "); !strings.Contains(got, words) {
			t.Errorf("it says %q", got)
		}
	}
	press("40\u00a0g taken from the jar of Gorse.", "mix Start", true, "Mix")
	b.Clock = b.Clock.Add(45 * time.Minute) // the proof begins by itself
	p.refresh()
	b.Wait()
	press("Proof", "proof Done", false, "Proof: 55 minutes left")
	press("Bake", "in Start", false, "Bake, lid on now")
	b.Clock = b.Clock.Add(50 * time.Minute)
	p.refresh()
	b.Wait()
	press("Bake", "in Done", true, "Bake, lid on is still running")
	if len(b.Failed) > 0 {
		t.Error(b.Failed)
	}
	// The bread is ready, and stays on the bench until it is written down how it came out.
	b.Clock = b.Clock.Add(time.Hour)
	p.refresh()
	b.Wait()
	if got := b.Texts(); !strings.Contains(got, "The bread is ready") || !strings.Contains(got, "Ferry loaf") || strings.Contains(got, "No dough is under way") {
		t.Errorf("it shows %s", got)
	}
	p.state.cultures = nil
	if got := p.state.heading(measure.Units{}); got != "The bread is ready" {
		t.Errorf("the heading is %q", got)
	}
	i := slices.IndexFunc(p.Keys(), func(k kit.Key) bool { return k.Name == "D" })
	if i < 0 {
		t.Fatal("no key goes on from there")
	}
	p.Keys()[i].Do()
	if at := b.Went[len(b.Went)-1]; at != (pages.Route{Name: pages.Bake, ID: bake.ID, More: pages.ToOutcome}) || pagestest.Stored[journal.Bake](b, bake.ID).State != journal.Finished {
		t.Errorf("went to %+v", at)
	}
}

// In a wide window the recent bakes stand under what is under way, at the left of the week ahead,
// and both are in sight.
func TestRecentBakesHaveTheirPlaceInAWideWindow(t *testing.T) {
	b := pagestest.New(t)
	data := phototest.PNG(phototest.Scene(90, 60))
	for i := range 4 {
		bake := &journal.Bake{Name: "Deck rye", At: b.Clock.AddDate(0, 0, -i-1), State: journal.Finished}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
		if _, _, err := b.Journal.AddPictures(t.Context(), "photo", journal.RefOf(bake), journal.RoleCrumb,
			[]journal.Picture{{Name: "loaf.png", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}}, nil); err != nil {
			t.Fatal(err)
		}
	}
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Tasting{Name: "Which?", At: b.Clock.Add(40 * time.Hour)})
	})
	shown(t, b)
	for range 2 { // texts that wrap know their height once they know their width
		b.Window.Resize(fyne.NewSize(1772, 1201)) // beside the sidebar of a window 1920 wide
		b.Window.Resize(fyne.NewSize(1772, 1200))
	}
	at := map[string]outline.Thing{}
	for _, thing := range outline.Of(b.Window) {
		if !thing.Clipped {
			at[thing.Text] = thing
		}
	}
	recent, week, bench := at["Recent bakes"], at["The week ahead"], at["Cultures"]
	if recent.Text == "" || week.Text == "" || recent.Y+recent.H > 1200 || recent.X >= week.X || recent.Y <= week.Y {
		t.Errorf("recent bakes at %+v, the week ahead at %+v, cultures at %+v", recent, week, bench)
	}
}

// The week ahead lists what has a time, in its order: not the next step of the dough on the
// bench, which stands there, nor what lies beyond the week.
func TestTheWeekAhead(t *testing.T) {
	now := time.Date(2026, time.March, 4, 9, 0, 0, 0, time.UTC)
	moments := func(ready time.Duration) []plan.Moment {
		return []plan.Moment{{Title: say.Of("Mix"), Due: now.Add(time.Hour)}, {Title: say.Of("Ready"), Due: now.Add(ready)}}
	}
	stand := func(in time.Duration) plan.Stand {
		return plan.Stand{Moment: plan.Moment{Title: say.Of("Mix")}, Until: now.Add(in)}
	}
	s := &state{now: now,
		doughs: []dough{
			{bake: &journal.Bake{Head: journal.Head{ID: "a"}, Name: "Now", State: journal.Running}, moments: moments(30 * time.Hour), stand: stand(time.Hour), waiting: true},
			{bake: &journal.Bake{Head: journal.Head{ID: "c"}, State: journal.Running}, stand: stand(0), waiting: true}, // due this minute
			{bake: &journal.Bake{Head: journal.Head{ID: "b"}, Name: "Then", State: journal.Planned}, moments: moments(9 * 24 * time.Hour), stand: stand(48 * time.Hour), waiting: true},
		},
		tastings: []*journal.Tasting{
			{Head: journal.Head{ID: "t"}, Name: "Which?", At: now.Add(40 * time.Hour)}, {Head: journal.Head{ID: "u"}, Name: "Past", At: now.Add(-time.Hour)},
			{Head: journal.Head{ID: "v"}, Plan: jsontext.Value(`{"plan":{"method":"triangle"}}`), At: now.Add(60 * time.Hour)},
		},
	}
	var got []string
	for _, c := range s.week(measure.Units{}) {
		got = append(got, c.name+" "+c.what)
	}
	if want := []string{"A dough Mix", "Now Ready", "Which? tasting", "Then Mix", "Can they be told apart? tasting"}; !slices.Equal(got, want) {
		t.Errorf("the week ahead is %q, want %q", got, want)
	}
}

// What was tasted blind and has no score of the baker's is not scored, rather than not tasted; and
// where every culture is retired it is not said that there was never one.
func TestWhatIsMissingIsNamed(t *testing.T) {
	b := pagestest.New(t)
	b.Put(func(tx *journal.Tx) error {
		return errors.Join(
			journal.Put(tx, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(-1, 0, 0), Ended: b.Clock.AddDate(0, 0, -1)}),
			journal.Put(tx, &journal.Bake{Name: "Deck rye", At: b.Clock.AddDate(0, 0, -1), State: journal.Finished, Ingredients: []journal.Ingredient{{Role: formula.Flour, Name: "Rye", Grams: 500}}}))
	})
	shown(t, b)
	if words := b.Texts(); !strings.Contains(words, "not scored yet") || !strings.Contains(words, "No living culture") {
		t.Errorf("it says %s", words)
	}
}
