package remind_test

import (
	"testing"
	"time"

	"twinloaf/app/pages/pagestest"
	"twinloaf/app/remind"
	"twinloaf/journal"
)

func TestAHungryCultureIsToldOncePerFeeding(t *testing.T) {
	b := pagestest.New(t)
	c := &journal.Culture{Name: "Harbour", Born: b.Clock.AddDate(-1, 0, 0), Home: journal.Counter}
	feed := func() {
		t.Helper()
		if !b.Do("feed", func(tx *journal.Tx) error {
			return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock, Kept: 30, Flour: 60, Water: 60})
		}) {
			t.Fatal(b.Failed)
		}
	}
	if !b.Do("culture", func(tx *journal.Tx) error { return journal.Put(tx, c) }) {
		t.Fatal(b.Failed)
	}
	feed()
	source := &remind.Cultures{Env: b.Env}
	var told []remind.Reminder
	w := &remind.Watcher{Sources: []remind.Source{source}, Memory: new(memory), Tell: func(r remind.Reminder) { told = append(told, r) }, Ring: func() {}, Failed: func(err error) { t.Error(err) }}
	look := func() {
		w.Look(b.Clock) // asks
		b.Wait()
		w.Look(b.Clock) // answers
	}
	look()
	if len(told) != 0 {
		t.Fatalf("told at once: %+v", told)
	}
	b.Clock = b.Clock.Add(60 * time.Hour)
	look()
	look()
	if len(told) != 1 || told[0].Title != "Feed Harbour" {
		t.Fatalf("told %+v", told)
	}
	feed()
	b.Clock = b.Clock.Add(2 * time.Minute)
	look()
	if len(told) != 1 {
		t.Fatalf("told again just after feeding: %+v", told)
	}
}
