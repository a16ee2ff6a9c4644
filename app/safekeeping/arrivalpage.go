package safekeeping

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync/atomic"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/backup"
	"twinloaf/journal/carry"
)

// arrivalPage shows what an archive would bring, lets the baker choose where two
// versions differ, and brings it in.
type arrivalPage struct {
	pages.Base
	env  *pages.Env
	path string
	page *kit.Page

	file    *os.File
	arrival *carry.Arrival
	all     carry.Way
	ways    map[journal.Ref]carry.Way
	choices *choiceList
	opened  map[journal.Ref]bool // of which both versions are shown, as the baker asked
	stop    func()
	busy    bool // it is being brought in
}

func newArrivalPage(env *pages.Env, path string) *arrivalPage {
	p := &arrivalPage{env: env, path: path, page: kit.NewPage(kit.PageOptions{
		Eyebrow: filepath.Base(path), Heading: lang.L("Looking at the archive"), Measure: 900,
	})}
	p.Base = pages.Base{Body: p.page, Name: lang.L("Bring an archive in"), Read: p.look}
	return p
}

func (p *arrivalPage) Keys() []kit.Key {
	if !p.brings() {
		return nil
	}
	return []kit.Key{{Name: "I", Doc: lang.L("bring it in"), Do: p.bringIn}}
}

func (p *arrivalPage) Left() {
	p.Base.Left()
	p.letGo()
}

// Changed looks anew at what differs, unless the page makes the change itself.
func (p *arrivalPage) Changed(c journal.Changed) {
	if p.Here() && !p.busy && !c.Typed && c.Err == nil {
		p.look()
	}
}

func (p *arrivalPage) letGo() {
	kit.End(&p.stop)
	p.arrival = nil
	if p.file != nil {
		_ = p.file.Close() // it was only read
		p.file = nil
	}
}

// look opens the archive anew, since the journal may have changed, and compares it with the journal, away from the main goroutine.
func (p *arrivalPage) look() {
	anew := p.arrival != nil
	p.letGo()
	var file *os.File
	told := p.looking(anew)
	p.stop = pages.Fetch(p.env, func(ctx context.Context) (arrival *carry.Arrival, err error) {
		file, arrival, err = lookInto(ctx, p.env.Journal, p.path, told)
		if ctx.Err() != nil && file != nil {
			_ = file.Close() // nobody waits for it any more
		}
		return arrival, err
	}, func(arrival *carry.Arrival, err error) {
		if err != nil {
			p.refuse(err)
			return
		}
		p.file, p.arrival = file, arrival
		p.show()
	})
}

func lookInto(ctx context.Context, j *journal.Journal, path string, progress func(done, total int)) (*os.File, *carry.Arrival, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, nil, archive.ErrNotArchive
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	a, err := archive.Open(file, info.Size())
	if err == nil {
		var arrival *carry.Arrival
		if arrival, err = carry.Compare(ctx, j, a, progress); err == nil {
			return file, arrival, nil
		}
	}
	return nil, nil, errors.Join(err, file.Close())
}

// looking shows how far the looking is, with a way to stop it, unless it is done anew: then
// what was found before stays.
func (p *arrivalPage) looking(anew bool) (told func(done, total int)) {
	stopped := false
	bar := kit.NewProgress(lang.L("Reading what is in it"), func() {
		stopped = true
		p.letGo()
		p.page.SetHeading(lang.L("Stopped"))
		p.page.SetActions(nil)
		p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("Stopped. Your journal was not changed."), kit.NewButton(lang.L("Look at it"), p.look), nil))
	})
	if !anew {
		p.page.SetHeading(lang.L("Looking at the archive"))
		p.page.SetActions(nil)
		p.page.SetBody(bar)
	}
	var all atomic.Int64
	paced := p.env.Paced(func(done int64) {
		if !stopped {
			bar.Set(int(done), int(all.Load()), lang.L("records"))
		}
	})
	return func(done, total int) {
		all.Store(int64(total))
		paced(int64(done))
	}
}

// refuse shows why nothing of the archive can be brought in.
func (p *arrivalPage) refuse(err error) {
	p.page.SetHeading(lang.L("This cannot be brought in"))
	p.page.SetActions(nil)
	p.page.SetBody(kit.Stack(3, kit.Body(p.env.Units().ErrorText(err)), kit.Faint(lang.L("Your journal was not changed."))))
	p.env.Retitle()
}

// brings reports whether there is anything to bring in.
func (p *arrivalPage) brings() bool {
	return p.arrival != nil && !p.busy && len(p.arrival.Of(carry.New))+len(p.arrival.Of(carry.Different)) > 0
}

// way is what the baker has chosen for an item.
func (p *arrivalPage) way(item *carry.Item) carry.Way {
	if w, ok := p.ways[item.Ref]; ok {
		return w
	}
	return p.all
}

// order is what the baker has chosen.
func (p *arrivalPage) order() carry.Order {
	return carry.Order{
		Label: lang.L("bringing an archive in"), Way: p.way,
		Named: func(name string) string { return lang.L("{{.Name}} (brought in)", map[string]any{"Name": name}) },
	}
}

// bringIn keeps what an archive brings. Where that is more than one undo takes back, a
// backup is made first.
func bringIn(ctx context.Context, j *journal.Journal, arrival *carry.Arrival, order carry.Order) (carry.Brought, error) {
	if !arrival.Undoable(order) {
		if _, err := j.BackUp(ctx, backup.Arrival); err != nil {
			return carry.Brought{}, err
		}
	}
	return arrival.BringIn(ctx, order)
}

// bringIn keeps what the archive brings, with a way to stop.
func (p *arrivalPage) bringIn() {
	if !p.brings() {
		return
	}
	p.busy = true
	arrival, total, order := p.arrival, p.arrival.Bytes, p.order()
	pages.FetchOver(p.env, lang.L("Bringing in {{.File}}", map[string]any{"File": filepath.Base(p.path)}), func(ctx context.Context, bar *kit.Progress) (carry.Brought, error) {
		order.Progress = p.env.Paced(func(n int64) { bar.Set(pages.Megabytes(n), pages.Megabytes(total), lang.L("MB")) })
		order.Progress(0)
		return bringIn(ctx, p.env.Journal, arrival, order)
	}, func(brought carry.Brought, err error) {
		p.busy = false
		switch {
		case errors.Is(err, context.Canceled):
			p.env.Say(lang.L("Stopped. Your journal was not changed."), false)
		case err != nil:
			p.env.Fail(fmt.Errorf("bringing in %s: %w", filepath.Base(p.path), err))
		default:
			p.env.Say(lang.N("{{.N}} records were brought in.", brought.Records, map[string]any{"N": brought.Records}), brought.Undoable)
		}
		if p.Here() {
			p.look()
		}
	})
}
