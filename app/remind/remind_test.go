package remind_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages/pagestest"
	"twinloaf/app/remind"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// memory remembers as a folder of preferences does.
type memory struct{ keys []string }

func (m *memory) Told() []string        { return slices.Clone(m.keys) }
func (m *memory) SetTold(keys []string) { m.keys = keys }

// listener hears what a watcher tells.
type listener struct {
	*remind.Watcher
	told  []string
	bells int
}

func listen(b *pagestest.Bench, m remind.Memory) *listener {
	l := &listener{}
	l.Watcher = &remind.Watcher{
		Sources: []remind.Source{remind.Bakes{Journal: b.Journal, Units: b.Units}}, Memory: m,
		Tell: func(r remind.Reminder) { l.told = append(l.told, r.Title+"|"+r.Text) },
		Ring: func() { l.bells++ }, Failed: func(error) {},
	}
	return l
}

func running(t *testing.T, b *pagestest.Bench) *journal.Bake {
	t.Helper()
	steps, err := b.Journal.TemplateSteps(plan.CountryLoaf())
	if err != nil {
		t.Fatal(err)
	}
	bake := &journal.Bake{Name: "Ferry loaf", State: journal.Running, Steps: steps}
	bake.SetPlan(plan.Plan{Start: b.Clock, Steps: journal.PlanSteps(steps)})
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	return bake
}

func act(t *testing.T, b *pagestest.Bench, id journal.ID, how func(plan.Plan, plan.Ref) (plan.Plan, error)) {
	t.Helper()
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(bake *journal.Bake) {
			day, _ := bake.Day()
			next, _ := day.Next(b.Clock)
			day, err := how(day, next.Ref)
			if err != nil {
				t.Fatal(err)
			}
			bake.SetDay(day)
		})
	})
}

func (l *listener) heard(t *testing.T, want ...string) {
	t.Helper()
	if !slices.Equal(l.told, want) {
		t.Errorf("told %q, want %q", l.told, want)
	}
	l.told = nil
}

// TestOnceEach follows a dough through its first turns, with the machine asleep
// for an hour and the program started once more.
func TestOnceEach(t *testing.T) {
	b := pagestest.New(t)
	bake := running(t, b)
	start := b.Clock
	done := func(day plan.Plan, ref plan.Ref) (plan.Plan, error) { return day.Done(ref, b.Clock) }
	m := &memory{}
	l := listen(b, m)
	at := func(d time.Duration) { b.Clock = start.Add(d); l.Look(b.Clock) }

	at(-time.Minute)
	l.heard(t)
	at(0)
	l.heard(t, "Mix: Ferry loaf|")
	at(5 * time.Second)
	l.heard(t) // once
	act(t, b, bake.ID, done)
	at(20 * time.Minute)
	l.heard(t) // the rest begins by itself: nobody is called
	at(75*time.Minute + 5*time.Second)
	l.heard(t, "Fold 1 of 6: Ferry loaf|")

	// Put off, it is due again later, and told again.
	act(t, b, bake.ID, func(day plan.Plan, ref plan.Ref) (plan.Plan, error) {
		day, _, err := day.Later(ref, 10, b.Clock)
		return day, err
	})
	at(80 * time.Minute)
	l.heard(t)
	at(88 * time.Minute)
	l.heard(t, "Fold 1 of 6: Ferry loaf|It was due at 10:19.")
	act(t, b, bake.ID, done)

	// An hour's sleep: the next turn alone is told, late, and what follows
	// waits for it. It was due an hour after the turns began: the dough ferments by the
	// clock, and the first, which was put off, has not put off the second.
	at(88*time.Minute + time.Hour)
	l.heard(t, "Fold 2 of 6: Ferry loaf|It was due at 10:39.")

	// Another program: what was told stays told.
	b.Reopen()
	l = listen(b, m)
	at(150 * time.Minute)
	l.heard(t)
	act(t, b, bake.ID, done)
	at(165*time.Minute + 5*time.Second) // half of the time between two after it
	l.heard(t, "Fold 3 of 6: Ferry loaf|")
	if l.bells != 1 {
		t.Errorf("it rang %d times, want once", l.bells)
	}
}

func TestTheEndIsTold(t *testing.T) {
	b := pagestest.New(t)
	bake := running(t, b)
	l := listen(b, &memory{})
	for range bake.Steps {
		for range 10 {
			stored, err := journal.Get[journal.Bake](b.Journal, bake.ID)
			if err != nil {
				t.Fatal(err)
			}
			day, _ := stored.Day()
			next, more := day.Next(b.Clock)
			if !more || next.Ref == plan.Ready {
				break
			}
			b.Clock = next.Due
			act(t, b, bake.ID, func(day plan.Plan, ref plan.Ref) (plan.Plan, error) { return day.Done(ref, b.Clock) })
		}
	}
	b.Clock = b.Clock.Add(2 * time.Hour) // it cools for one
	l.Look(b.Clock)
	if len(l.told) != 1 || !strings.HasPrefix(l.told[0], "Ready: Ferry loaf") {
		t.Errorf("told %q", l.told)
	}
	l.Look(b.Clock.Add(time.Hour))
	if len(l.told) != 1 {
		t.Errorf("told again: %q", l.told)
	}
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, bake.ID, func(b *journal.Bake) { b.State = journal.Finished })
	})
	l = listen(b, &memory{})
	l.Look(b.Clock)
	l.heard(t)
}

type broken struct{}

func (broken) Due(time.Time) ([]remind.Reminder, error) { return nil, errors.New("no") }

func TestABrokenSourceKeepsTheOthers(t *testing.T) {
	b := pagestest.New(t)
	running(t, b)
	l := listen(b, &memory{})
	failed := 0
	l.Failed = func(error) { failed++ }
	l.Sources = append([]remind.Source{broken{}}, l.Sources...)
	l.Look(b.Clock)
	if failed != 1 || len(l.told) != 1 {
		t.Errorf("%d complaints, told %q", failed, l.told)
	}
}

func TestThePreferencesRemember(t *testing.T) {
	b := pagestest.New(t)
	running(t, b)
	if err := b.Journal.Set("sound", func(s *journal.Settings) { s.Silent = true }); err != nil {
		t.Fatal(err)
	}
	w := remind.For(b.Env)
	told := 0
	w.Tell = func(remind.Reminder) { told++ }
	w.Look(b.Clock)
	again := remind.For(b.Env)
	again.Tell = w.Tell
	again.Look(b.Clock.Add(time.Minute))
	if told != 1 {
		t.Errorf("told %d times", told)
	}
}

// A dough whose culture was found to be bad is not called on with: what is due says so.
func TestADoughOfACondemnedCultureIsNotGoneOnWith(t *testing.T) {
	b := pagestest.New(t)
	bake := running(t, b)
	b.Put(func(tx *journal.Tx) error {
		gorse := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, -1, 0)}
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		return errors.Join(
			journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: b.Clock.AddDate(0, 0, -1), Kept: 20, Flour: 40, Water: 40}),
			journal.Put(tx, &journal.Reading{Culture: gorse.ID, At: b.Clock.Add(-time.Hour), Mould: true}),
			journal.Change(tx, bake.ID, func(bake *journal.Bake) { bake.Culture = gorse.ID }))
	})
	l := listen(b, &memory{})
	l.Look(b.Clock)
	if len(l.told) != 1 || !strings.Contains(l.told[0], "Throw Gorse away") {
		t.Errorf("told %q", l.told)
	}
}
