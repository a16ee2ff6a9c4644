package pages_test

import (
	"context"
	"errors"
	"testing"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// counted is a page that does nothing but what a Base does.
type counted struct {
	pages.Base
	reads int
}

func TestBaseReadsWhatItShows(t *testing.T) {
	b := pagestest.New(t)
	p := &counted{}
	p.Base = pages.Base{Name: "Counted", Read: func() { p.reads++ }, Of: []journal.Kind{journal.KindBake}}
	changed := func(k journal.Kind) journal.Changed { return journal.Changed{Refs: []journal.Ref{{Kind: k}}} }
	p.Changed(changed(journal.KindBake))
	if p.reads != 0 || p.Here() {
		t.Fatalf("a page that was never shown reads: %d times", p.reads)
	}
	p.Shown()
	p.Changed(changed(journal.KindPhoto))
	p.Changed(changed(journal.KindBake))
	p.Left()
	p.Changed(changed(journal.KindBake))
	if p.reads != 2 || p.Here() || p.Title() != "Counted" || p.Keys() != nil {
		t.Errorf("read %d times, here %v, called %q; want twice, gone, Counted", p.reads, p.Here(), p.Title())
	}
	(&pages.Base{}).Shown() // reads nothing
	if len(b.Failed) != 0 {
		t.Error(b.Failed)
	}
}

func TestLoadGivesTheLastThatWasAskedFor(t *testing.T) {
	b := pagestest.New(t)
	var base pages.Base
	var got []int
	load := func(n int, err error) {
		pages.Load(b.Env, &base, func(ctx context.Context, j journal.Source) (int, error) {
			if _, err := j.BakeSummaries(); err != nil {
				return 0, err
			}
			return n, err
		}, func(n int) { got = append(got, n) })
	}
	load(1, nil)
	load(2, nil)
	b.Wait()
	if len(got) != 1 || got[0] != 2 {
		t.Errorf("shown %v, want the second alone", got)
	}
	load(3, nil)
	base.Left()
	b.Wait()
	if len(got) != 1 {
		t.Errorf("shown %v after the page was left", got)
	}
	wrong := errors.New("the disk is gone")
	load(4, wrong)
	b.Wait()
	if len(got) != 1 || len(b.Failed) != 1 || !errors.Is(b.Failed[0], wrong) {
		t.Errorf("shown %v, told %v; want what went wrong told", got, b.Failed)
	}
}
