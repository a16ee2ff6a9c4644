package journal_test

import (
	"context"
	"errors"
	"testing"

	"twinloaf/journal"
	"twinloaf/journal/journaltest"
)

func TestReadingEndsWithItsContext(t *testing.T) {
	j, _ := journaltest.Open(t, journal.Options{})
	bake := &journal.Bake{Name: "Ferry loaf"}
	if err := j.Do("bake", func(tx *journal.Tx) error { return journal.Put(tx, bake) }); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	r := j.Until(ctx)
	if all, err := journal.All[journal.Bake](r); err != nil || len(all) != 1 {
		t.Errorf("read %d bakes, %v", len(all), err)
	}
	if summaries, err := r.BakeSummaries(); err != nil || len(summaries) != 1 {
		t.Errorf("read %d summaries, %v", len(summaries), err)
	}
	cancel()
	if _, err := journal.All[journal.Bake](r); !errors.Is(err, context.Canceled) {
		t.Errorf("all: %v", err)
	}
	if _, err := journal.Get[journal.Bake](r, bake.ID); !errors.Is(err, context.Canceled) {
		t.Errorf("one: %v", err)
	}
	if _, err := r.BakeSummaries(); !errors.Is(err, context.Canceled) {
		t.Errorf("summaries: %v", err)
	}
}
