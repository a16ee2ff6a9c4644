// Package app is the window of Twinloaf: it composes the rooms below it, which
// do not know each other, and lends them the journal, the keys and the messages.
package app

import (
	"context"
	"errors"
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/clipboard"
	"twinloaf/app/cultures"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/remind"
	"twinloaf/app/safekeeping"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// window is the one window of the program.
type window struct {
	env     *pages.Env
	win     fyne.Window
	frame   *kit.Frame
	keys    *kit.Keyboard
	side    *sidebar
	body    *fyne.Container // what the page stands in
	openers map[string]pages.Opener

	here        visit
	begin       *kit.Beginning
	begins      bool // the page was reached by a key, and has not begun yet
	past, ahead []visit
	stopHearing func()
	closed      bool

	// clipboard reads what the toolkit's clipboard does not; tests set it.
	clipboard func(ctx context.Context, kinds ...string) (kind string, data []byte, err error)

	closing *closing    // while the window waits for the disk to close
	place   *kit.Dialog // that the journal has lost its place
	lost    bool        // what was typed was given up
}

// visit is a page that is, or was, on the screen.
type visit struct {
	place pages.Route
	page  pages.Page // nil: opened anew when it is gone back to
}

// remembered is how many pages can be gone back, and whole how many of them are kept as
// they were: each holds its charts and all that it has read.
const remembered, whole = 30, 10

// remember adds a visit, and lets the page of an earlier one go.
func remember(visits *[]visit, v visit) {
	*visits = append(*visits, v)
	if n := len(*visits); n > whole {
		(*visits)[n-whole-1].page = nil
	}
	if len(*visits) > remembered {
		*visits = (*visits)[1:]
	}
}

// compose makes the window on an open journal. [Start] shows it. main takes what comes
// back from other goroutines.
func compose(a fyne.App, j *journal.Journal, main kit.Main) *window {
	win := a.NewWindow("Twinloaf")
	win.SetIcon(look.AppIcon())
	win.Resize(fyne.NewSize(1280, 800))
	win.SetMaster()
	win.SetPadded(false)
	return furnish(win, a, j, main)
}

// furnish fills an empty window, or one whose journal was closed.
func furnish(win fyne.Window, a fyne.App, j *journal.Journal, main kit.Main) *window {
	w := &window{win: win, openers: openers(), body: container.NewStack(), clipboard: clipboard.Read}
	w.env = &pages.Env{
		Journal: j, Window: w.win, App: a,
		Go: w.Go, Back: w.back, Retitle: w.retitle, Turned: w.turned, Say: w.say, Fail: w.fail,
	}
	w.env.Feed = func(id journal.ID) { cultures.Feed(w.env, id) }
	w.env.FeedAgain = func(id journal.ID) { cultures.FeedAgain(w.env, id) }
	w.env.PlanBuild = func(id journal.ID, amount formula.Grams, ripe time.Time) { cultures.PlanBuild(w.env, id, amount, ripe) }
	w.env.Begin(main)
	w.env.Thumbs = kit.NewLoader(main, thumbs{j}, 2, 48<<20)
	w.useLook()
	w.useLanguage()
	w.side = newSidebar(w.Go)
	var gate fyne.CanvasObject
	w.begin, gate = kit.NewBeginning(func() fyne.Focusable { return w.here.page.Start() })
	w.frame = kit.NewFrame(main, container.NewStack())
	w.frame.SetContent(container.NewStack(container.NewWithoutLayout(w.begin),
		container.New(sideBySide{}, w.side, container.NewStack(container.NewWithoutLayout(gate), w.frame.Floor(w.body)))))
	w.useMotion()
	w.win.SetContent(w.frame)
	go clipboard.Pictures() // asks the window system once: a page that wants to know need not wait
	w.keys = kit.NewKeyboard(w.win.Canvas())
	w.keys.Set(lang.L("Everywhere"), w.everywhere())
	w.win.SetOnDropped(func(_ fyne.Position, files []fyne.URI) { w.drop(files) })
	w.win.SetCloseIntercept(w.Close)
	w.stopHearing = j.Listen(func(c journal.Changed) { w.env.Main(func() { w.changed(c) }) })
	remind.Start(w.env, &remind.Cultures{Env: w.env})
	safekeeping.Start(w.env)
	w.Go(pages.Route{Name: pages.Today})
	w.tellSetAside()
	return w
}

// tellSetAside tells of what could not be read when the journal was opened.
func (w *window) tellSetAside() {
	aside := w.env.Journal.Mended()
	if aside == nil {
		return
	}
	show := func() { w.Go(pages.Route{Name: pages.Safekeeping}) }
	if aside.Whole() {
		w.frame.Toast(lang.L("The journal was damaged, and is whole again."), lang.L("Show"), show)
		return
	}
	show()
	w.frame.Toast(lang.L("Part of the journal could not be read. Here is what was found."), "", nil)
}

// leave lets the page keep what it holds and ends what runs in the background. The
// window shows nothing new after that.
func (w *window) leave() {
	if w.closed {
		return
	}
	w.closed = true
	w.win.Canvas().Unfocus()
	w.here.page.Left()
	w.stopHearing()
	w.env.Close()
	w.env.Thumbs.Close()
}

// Go shows the page of a place, if the page that is there may be left.
func (w *window) Go(p pages.Route) { w.mayLeave(func() { w.goTo(p) }) }

func (w *window) mayLeave(leave func()) {
	if l, ok := w.here.page.(pages.Leaver); ok {
		l.MayLeave(leave)
		return
	}
	leave()
}

func (w *window) goTo(p pages.Route) {
	page, ok := w.open(p)
	if !ok {
		return
	}
	if w.here.page != nil {
		remember(&w.past, w.here)
	}
	w.ahead = nil
	w.show(visit{p, page})
}

// open makes the page of a place; why there is none it tells.
func (w *window) open(p pages.Route) (pages.Page, bool) {
	open, ok := w.openers[p.Name]
	if !ok {
		w.fail(fmt.Errorf("there is no page called %q", p.Name))
		return nil, false
	}
	page, err := open(w.env, p)
	if err != nil {
		w.fail(err)
	}
	return page, err == nil
}

// back shows the page before this one.
func (w *window) back() { w.mayLeave(func() { w.travel(&w.past, &w.ahead) }) }

// forward shows the page that back came from.
func (w *window) forward() { w.mayLeave(func() { w.travel(&w.ahead, &w.past) }) }

func (w *window) travel(from, to *[]visit) {
	n := len(*from)
	if n == 0 {
		return
	}
	v := (*from)[n-1]
	*from = (*from)[:n-1]
	if v.page == nil {
		var ok bool
		if v.page, ok = w.open(v.place); !ok {
			return
		}
	}
	remember(to, w.here)
	w.show(v)
}

func (w *window) show(v visit) {
	if w.here.page != nil {
		w.here.page.Left()
	}
	w.win.Canvas().Unfocus()
	w.here = v
	bare, ok := v.page.(pages.Bare)
	alone := ok && bare.Bare()
	kit.SetVisible(w.side, !alone)
	w.frame.SetInkOnly(alone)
	w.frame.Unpoint()
	w.body.Objects = []fyne.CanvasObject{v.page.Object()}
	w.frame.Refresh()
	w.begins = false
	w.retitle()
	w.begins = w.frame.ByKey()
	v.page.Shown()
	w.beginByKey()
}

// beginByKey gives a page that was reached by a key the keyboard where its work begins,
// at once or when it has been read: the way that the first Tab would.
func (w *window) beginByKey() {
	c := w.win.Canvas()
	switch {
	case !w.begins || c.Overlays().Top() != nil:
	case c.Focused() != nil:
		w.begins = false
	case !w.here.page.Reading():
		w.begins = false
		w.frame.Arrive(w.begin, c)
	}
}

// turned is told that the page shows another face.
func (w *window) turned() {
	c := w.win.Canvas()
	_, aside := c.Focused().(*doorway)
	if c.Overlays().Top() == nil && (c.Focused() != nil && !aside || w.frame.ByKey()) {
		c.Unfocus() // what had the keyboard is gone with the face before
		w.begins = true
	}
	w.retitle()
}

// scroll scrolls the page as a key asks, or hands the key to its list.
func (w *window) scroll(key fyne.KeyName) {
	if w.frame.ScrollPage(key) {
		return
	}
	c := w.win.Canvas()
	if to := w.here.page.Start(); to != nil && c.Focused() != to {
		c.Focus(to)
		to.TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// retitle takes the title and the keys of the page anew.
func (w *window) retitle() {
	name := w.here.place.Name
	if p, ok := w.here.page.(pages.Behind); ok {
		name = p.Behind()
	}
	w.side.mark(name)
	title := w.here.page.Title()
	if title == "" {
		w.win.SetTitle("Twinloaf")
	} else {
		w.win.SetTitle(title + " · Twinloaf")
	}
	w.keys.Set(lang.L("On this page"), w.here.page.Keys())
	w.beginByKey()
}

// changed passes a change on to the page that is shown.
func (w *window) changed(c journal.Changed) {
	if w.closed {
		return
	}
	if c.Err != nil {
		w.trouble(c.Err)
		return
	}
	if c.Saved {
		w.savedAgain()
		return
	}
	if c.TouchesKind(journal.KindSettings) {
		w.useLook()
		w.useMotion()
		if w.useLanguage() {
			return // the window is shown anew
		}
	}
	w.here.page.Changed(c)
}

// useLook sets the theme that the settings ask for.
func (w *window) useLook() {
	mode := look.FollowSystem
	s, err := w.env.Journal.Settings()
	if err == nil {
		switch s.Look {
		case "light":
			mode = look.AlwaysLight
		case "dark":
			mode = look.AlwaysDark
		}
	}
	if t, ok := w.env.App.Settings().Theme().(*look.Theme); !ok || t.Mode() != mode {
		w.env.App.Settings().SetTheme(look.New(mode))
	}
	if s != nil {
		w.useTextSize(s, mode)
	}
}

// useMotion has things move to their places, or not, as the settings ask for.
func (w *window) useMotion() {
	if s, err := w.env.Journal.Settings(); err == nil {
		w.frame.SetStill(s.Still)
	}
}

// useLanguage has the window speak the language that the settings ask for, shows it anew
// if that is another one, and reports whether it does.
func (w *window) useLanguage() (anew bool) {
	tag := ""
	if s, err := w.env.Journal.Settings(); err == nil {
		tag = s.Language
	}
	if words.InUse() == words.Spoken(tag).Tag {
		return false
	}
	if err := words.Speak(tag); err != nil {
		w.fail(err)
		return false
	}
	if w.env.Reopen == nil { // it is just being made
		return false
	}
	here := w.here.place
	w.env.Reopen(func(context.Context) error { return nil }, func(env *pages.Env, err error) {
		env.Fail(err)
		env.Go(here)
	})
	return true
}

// say shows a line at the foot of the window.
func (w *window) say(message string, undo bool) {
	if undo {
		w.frame.Toast(message, lang.L("Undo"), w.undo)
		return
	}
	w.frame.Toast(message, "", nil)
}

// fail shows what went wrong.
func (w *window) fail(err error) {
	if err != nil {
		w.frame.Toast(w.env.Units().ErrorText(err), "", nil)
	}
}

func (w *window) undo() {
	label, err := w.env.Journal.Undo()
	w.walked(lang.L("Undone: {{.What}}", map[string]any{"What": label}), err)
}

func (w *window) redo() {
	label, err := w.env.Journal.Redo()
	w.walked(lang.L("Redone: {{.What}}", map[string]any{"What": label}), err)
}

func (w *window) walked(message string, err error) {
	switch {
	case errors.Is(err, journal.ErrNothingToUndo):
		w.say(lang.L("There is nothing to undo."), false)
	case errors.Is(err, journal.ErrNothingToRedo):
		w.say(lang.L("Nothing to redo."), false)
	case err != nil:
		w.fail(err)
	default:
		w.say(message, false)
	}
}
