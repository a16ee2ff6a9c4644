// Package pagestest gives the pages of a room a bench to be tested on: a journal
// in a folder of its own under a clock that the test moves, a window without a
// screen, and a record of where the pages went and what they said.
package pagestest

import (
	"context"
	"image"
	"math/rand/v2"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Bench is an Env with what is behind it.
type Bench struct {
	*pages.Env
	Dir   string
	Clock time.Time // the journal's; move it as you like
	Keys  *kit.Keyboard
	Loop  *maintest.Loop // its main goroutine is the test's own

	Went   []pages.Route // where pages asked to go
	Said   []string      // what they said
	Failed []error       // what went wrong, by their account
	Backs  int           // how often they asked to go back

	t    testing.TB
	page pages.Page
}

// New makes a bench with an empty journal, at 08:54 on a Wednesday in March.
func New(t testing.TB) *Bench {
	t.Helper()
	b := &Bench{t: t, Loop: maintest.New(), Dir: t.TempDir(), Clock: time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)}
	a := maintest.App(t)
	w := a.NewWindow("")
	w.Resize(fyne.NewSize(1280, 800))
	t.Cleanup(w.Close)
	b.Env = &pages.Env{
		Window: w, App: a,
		Go:      func(p pages.Route) { b.Went = append(b.Went, p) },
		Back:    func() { b.Backs++ },
		Retitle: func() {}, Turned: w.Canvas().Unfocus,
		Say: func(s string, _ bool) { b.Said = append(b.Said, s) },
		Fail: func(err error) {
			if err != nil {
				b.Failed = append(b.Failed, err)
			}
		},
	}
	b.Keys = kit.NewKeyboard(w.Canvas())
	b.Keys.Set("window", []kit.Key{{Name: "Ctrl+Enter", Always: true, Do: func() { kit.SubmitDialog(w.Canvas()) }}})
	b.Env.Begin(b.Loop.Do)
	b.Env.Thumbs = kit.NewLoader(b.Main, noThumbs{}, 1, 1<<20)
	b.open()
	// Whatever the computer's locale says, tests are metric.
	err := b.Journal.Set("units", func(s *journal.Settings) { s.Temperature, s.Weight, s.Clock = "C", "g", "24" })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if b.page != nil {
			b.page.Left()
		}
		b.Env.Close()
		b.Env.Thumbs.Close()
		_ = b.Journal.Close() // closed already where the test did so
	})
	return b
}

func (b *Bench) open() {
	b.t.Helper()
	j, err := journal.Open(context.Background(), b.Dir, journal.Options{
		Clock: func() time.Time { return b.Clock }, Random: rand.NewChaCha8([32]byte{byte(b.Clock.Unix())}), GatherFor: time.Hour,
	})
	if err != nil {
		b.t.Fatal(err)
	}
	j.Listen(func(c journal.Changed) {
		b.Main(func() {
			if b.page != nil {
				b.page.Changed(c)
			}
		})
	})
	b.Journal = j
}

// Reopen closes the journal and opens it again, as a program that was started
// once more; between is done while it is not running. No page is shown then.
func (b *Bench) Reopen(between ...func()) {
	b.t.Helper()
	if b.page != nil {
		b.page.Left()
	}
	b.page = nil
	b.Wait() // what still reads does so in the journal that is closed
	if err := b.Journal.Close(); err != nil {
		b.t.Fatal(err)
	}
	for _, do := range between {
		do()
	}
	b.open()
}

// Show opens a page, puts it into the window and binds its keys.
func (b *Bench) Show(open pages.Opener, p pages.Route) pages.Page {
	b.t.Helper()
	b.Loop.Own()
	page, err := open(b.Env, p)
	if err != nil {
		b.t.Fatal(err)
	}
	if b.page != nil {
		b.page.Left()
	}
	b.page = page
	b.Window.SetContent(kit.NewFrame(b.Main, page.Object()))
	b.Window.Resize(fyne.NewSize(1280, 800))
	b.Keys.Set("page", page.Keys())
	page.Shown()
	return page
}

// Page is the page that is shown, or nil.
func (b *Bench) Page() pages.Page { return b.page }

// Press presses a key of the page as it is written; the page's keys are asked
// for anew, as the window does after a change.
func (b *Bench) Press(key string) {
	b.t.Helper()
	b.Keys.Set("page", b.page.Keys())
	if !b.Keys.Press(key) {
		b.t.Fatalf("nothing is bound to %s", key)
	}
}

// Put puts records into the journal in one change.
func (b *Bench) Put(put func(tx *journal.Tx) error) {
	b.t.Helper()
	if err := b.Journal.Do("setting up", put); err != nil {
		b.t.Fatal(err)
	}
}

// noThumbs never has one: what pages show meanwhile stays.
type noThumbs struct{}

func (noThumbs) Thumb(ctx context.Context, _ string, _ int) (image.Image, error) {
	<-ctx.Done()
	return nil, ctx.Err()
}
