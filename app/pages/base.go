package pages

import (
	"context"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/journal"
)

// A Base is what most pages have in common. A page embeds one, says what its own is,
// and has methods of its own only where it does otherwise.
type Base struct {
	Body fyne.CanvasObject // what the page looks like
	Name string            // for the title bar
	List fyne.CanvasObject // where the work of the page begins while there is something in it

	// Read shows what the journal has, each time that the page comes onto the screen,
	// and while it is there when a record of one of the kinds Of has changed. Nil: a
	// page that reads nothing.
	Read func()
	Of   []journal.Kind

	here bool
	stop func() // ends what Load began last
}

func (b *Base) Object() fyne.CanvasObject { return b.Body }

func (b *Base) Title() string { return b.Name }

func (b *Base) Keys() []kit.Key { return nil }

// Start is in the List, or else where the Body says that its work begins: at the main button
// of a [kit.Page].
func (b *Base) Start() fyne.Focusable {
	for _, part := range []fyne.CanvasObject{b.List, b.Body} {
		if part, ok := part.(interface{ Start() fyne.Focusable }); ok {
			if to := part.Start(); to != nil {
				return to
			}
		}
	}
	return nil
}

// Here says whether the page is on the screen.
func (b *Base) Here() bool { return b.here }

// Reading says whether what Load began goes on.
func (b *Base) Reading() bool { return b.stop != nil }

// Shown reads.
func (b *Base) Shown() {
	b.here = true
	if b.Read != nil {
		b.Read()
	}
}

// Left ends what is being loaded.
func (b *Base) Left() {
	b.here = false
	b.Halt()
}

// Halt ends what Load began, if it goes on; what it has read is dropped.
func (b *Base) Halt() {
	kit.End(&b.stop)
}

// Changed reads again if the page is shown and shows what has changed.
func (b *Base) Changed(c journal.Changed) {
	if b.here && b.Read != nil && c.TouchesKind(b.Of...) {
		b.Read()
	}
}

// Load reads something for a page away from the main goroutine and hands it to show, on
// it; what went wrong the window tells. Either way the title, the keys and where the page
// begins are then taken anew. A page loads one thing at a time: what it loaded before is ended, and so
// is this when the page is left.
func Load[T any](env *Env, b *Base, read func(context.Context, journal.Source) (T, error), show func(T)) {
	b.Halt()
	b.stop = Fetch(env, func(ctx context.Context) (T, error) { return read(ctx, env.Journal.Until(ctx)) },
		func(got T, err error) {
			b.stop = nil
			if env.Fail(err); err == nil {
				show(got)
			}
			env.Retitle()
		})
}

// Fetch is Run for work that gives something: it hands what the work gave, and what went
// wrong, to done.
func Fetch[T any](env *Env, work func(context.Context) (T, error), done func(T, error)) (cancel func()) {
	var got T
	var err error
	return env.Run(func(ctx context.Context) { got, err = work(ctx) }, func() { done(got, err) })
}

// FetchOver is Fetch for work that takes its time: it stands over the window with a bar, and
// the baker can stop it there. done hears how it ended once it has, whatever was pressed
// before: work that was stopped in time gives [context.Canceled].
func FetchOver[T any](env *Env, what string, work func(ctx context.Context, bar *kit.Progress) (T, error), done func(T, error)) {
	ctx, stop := context.WithCancel(context.Background())
	bar, sheet := kit.ShowProgress(env.Window, what, stop)
	Fetch(env, func(run context.Context) (T, error) {
		defer context.AfterFunc(run, stop)()
		return work(ctx, bar)
	}, func(got T, err error) {
		stop()
		sheet.Close()
		done(got, err)
	})
}

// Try is Run for work that may fail: it hands what went wrong to done.
func Try(env *Env, work func(context.Context) error, done func(error)) (cancel func()) {
	var err error
	return env.Run(func(ctx context.Context) { err = work(ctx) }, func() { done(err) })
}
