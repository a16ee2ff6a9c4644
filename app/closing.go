package app

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// ErrLost is given by [Start] when the baker closed the window though what was typed
// could not be saved.
var ErrLost = errors.New("what was typed and could not be saved was given up")

// closeAgain is how often it is looked whether the window can close by now.
const closeAgain = time.Second

// Close keeps what was typed, ends what runs in the background and closes the window.
// While what was typed cannot be saved the window stays: a dialog says why and offers
// the ways out, and the window closes by itself once everything is on the disk.
func (w *window) Close() {
	if w.closed || w.closing != nil {
		return
	}
	w.win.Canvas().Unfocus()
	w.here.page.Left()
	if err := w.env.Journal.Close(); err != nil {
		w.closing = &closing{w: w}
		w.closing.ask(err, "")
		return
	}
	w.gone()
}

// gone closes the window, whose journal is closed.
func (w *window) gone() {
	w.leave()
	w.win.Close()
}

// closing is the window's closing while it waits for the disk or for the baker.
type closing struct {
	w      *window
	sheet  *kit.Dialog
	stop   func() // the looking again
	decide bool   // the dialog goes because something was decided
}

// ask shows what is not saved and the ways out. savedAs is the file that the text was
// written to, if it was.
func (c *closing) ask(err error, savedAs string) {
	j := c.w.env.Journal
	content := kit.Stack(3, kit.Body(c.w.env.Units().ErrorText(err)))
	if names := unsavedNames(j.Unsaved()); names != "" {
		content.Add(kit.Body(lang.L("Not saved yet: {{.Names}}.", map[string]any{"Names": names})))
	}
	back := kit.NewButton(lang.L("Back to the journal"), func() { c.sheet.Close() }).WithKey(lang.L("Esc"))
	var buttons []fyne.CanvasObject
	if savedAs == "" {
		content.Add(kit.Small(lang.L("It is tried again every few seconds, and the window closes when everything is saved.")))
		buttons = []fyne.CanvasObject{back,
			kit.EmberButton(lang.L("Close and lose it"), c.lose),
			kit.PrimaryButton(lang.L("Save the text elsewhere"), c.saveText)}
	} else {
		content.Add(kit.Body(lang.L("The text is in {{.Path}}. From there you can copy it back later.", map[string]any{"Path": savedAs})))
		buttons = []fyne.CanvasObject{back, kit.PrimaryButton(lang.L("Close"), c.discard)}
	}
	c.away()
	c.sheet = kit.ShowDialog(c.w.win, kit.DialogOptions{
		Title: lang.L("What you typed is not saved yet"), Content: content, Buttons: buttons, Width: 640,
		OnClosed: c.closed,
	})
	if c.stop == nil {
		c.stop = c.w.env.Every(closeAgain, c.try)
	}
}

// away takes the dialog from the window without going back to the journal.
func (c *closing) away() {
	if c.sheet == nil {
		return
	}
	c.decide = true
	c.sheet.Close()
	c.decide = false
}

// closed goes back to the journal, when the dialog was closed for that.
func (c *closing) closed() {
	if c.decide || c.w.closing != c {
		return
	}
	c.end()
	c.w.here.page.Shown()
}

// end ends the trying again.
func (c *closing) end() {
	c.stop()
	c.w.closing = nil
}

// try closes the window if everything is on the disk by now: the journal tries by
// itself, away from the main goroutine.
func (c *closing) try() {
	j := c.w.env.Journal
	if c.w.closing == c && j.Trouble() == nil && j.Close() == nil {
		c.finish()
	}
}

// finish closes the window, whose journal is closed.
func (c *closing) finish() {
	if c.w.closing != c {
		return // the baker has gone back, and the window with them
	}
	c.away()
	c.end()
	c.w.gone()
}

func (c *closing) lose() {
	c.w.lost = true
	c.discard()
}

func (c *closing) discard() {
	if err := c.w.env.Journal.Discard(); err != nil {
		fyne.LogError("closing the journal", err)
	}
	c.finish()
}

func (c *closing) saveText() {
	c.w.saveText(func(path string) {
		if err := c.w.env.Journal.Trouble(); err != nil && c.w.closing == c {
			c.ask(err, path)
		}
	})
}

// saveText has the baker choose where to write what was typed and is not on the disk,
// as a text that anyone can read.
func (w *window) saveText(then func(path string)) {
	unsaved := w.env.Journal.Unsaved()
	w.env.SaveThen(lang.L("Save the text elsewhere"), lang.L("unsaved")+".txt", func(out io.Writer) error {
		return WriteUnsaved(out, unsaved)
	}, then)
}

// trouble tells of what was typed and could not be saved, or of a journal that has
// lost its place, while the baker works on.
func (w *window) trouble(err error) {
	switch {
	case w.closing != nil: // the dialog tells it
	case errors.Is(err, journal.ErrGone), errors.Is(err, journal.ErrReplaced):
		w.lostPlace(err)
	case len(w.env.Journal.Unsaved()) > 0:
		w.frame.Toast(w.env.Units().ErrorText(err), lang.L("Save the text elsewhere"), func() { w.saveText(func(string) {}) })
	default:
		w.fail(err)
	}
}

// lostPlace tells, once, that the journal's file is no longer where it was, and the
// ways out.
func (w *window) lostPlace(err error) {
	if w.place != nil && w.place.Open() {
		return
	}
	dir := w.env.Journal.Dir()
	content := kit.Stack(3,
		kit.Body(w.env.Units().ErrorText(err)),
		kit.Body(lang.L("It was opened in {{.Folder}}. Put it back there, and everything goes on by itself. Until then nothing is saved: what you type is kept in memory.", map[string]any{"Folder": dir})),
		kit.Small(lang.L("A copy holds every record, with what you typed, and the photos that are still there.")))
	w.place = kit.ShowDialog(w.win, kit.DialogOptions{
		Title: lang.L("The journal is no longer in its place"), Content: content, Width: 640,
		Buttons: []fyne.CanvasObject{
			kit.NewButton(lang.L("Go on"), func() { w.place.Close() }).WithKey(lang.L("Esc")),
			kit.PrimaryButton(lang.L("Save a copy elsewhere"), w.saveCopy),
		},
	})
}

// saveCopy has the baker choose a folder, and writes a copy of the open journal there.
func (w *window) saveCopy() {
	kit.PickFiles(w.env.Main, w.win, kit.PickOptions{
		Title: lang.L("Save a copy of the journal in this folder"), Yes: lang.L("Save"), Folder: true,
		OnChosen: func(paths []string) { w.copyTo(paths[0]) },
	})
}

func (w *window) copyTo(folder string) {
	pages.Fetch(w.env, func(ctx context.Context) (journal.SavedCopy, error) { return w.env.Journal.SaveCopy(ctx, folder) }, func(saved journal.SavedCopy, err error) {
		if err != nil {
			w.fail(err)
			return
		}
		w.say(lang.L("Saved as {{.Path}}.", map[string]any{"Path": saved.Dir}), false)
		w.env.TellRefused(saved.Left)
	})
}

// savedAgain tells that everything is on the disk again.
func (w *window) savedAgain() {
	if w.place != nil {
		w.place.Close()
	}
	w.say(lang.L("Everything you typed is saved again."), false)
}

// WriteUnsaved writes what was typed and is not on the disk as a text that anyone can
// read: each record by its name and day, and below it what was changed of it.
func WriteUnsaved(out io.Writer, unsaved []journal.Unsaved) error {
	b := bufio.NewWriter(out)
	fmt.Fprintln(b, lang.L("Typed into Twinloaf and not saved in the journal"))
	for _, u := range unsaved {
		fmt.Fprintf(b, "\n%s (%s)\n", unsavedName(u), strings.Join(u.Labels, ", "))
		for _, v := range u.Values {
			fmt.Fprintf(b, "\n%s:\n%s\n", v.Member, v.Text)
		}
	}
	return b.Flush()
}

// unsavedName names a record by its name and day.
func unsavedName(u journal.Unsaved) string {
	name := cmp.Or(u.Name, lang.L("without a name"))
	if u.At.IsZero() {
		return name
	}
	return name + ", " + measure.Units{}.Say(say.Of("{{.Day}}", say.With{"Day": say.Moment{At: u.At, As: say.Date}}))
}

// unsavedNames names the first few records, and says how many more there are.
func unsavedNames(unsaved []journal.Unsaved) string {
	const few = 3
	var names []say.Line
	for _, u := range unsaved[:min(few, len(unsaved))] {
		names = append(names, say.Of("{{.Name}}", say.With{"Name": unsavedName(u)}))
	}
	if more := len(unsaved) - few; more > 0 {
		names = append(names, say.N("one more", "{{.N}} more", more))
	}
	return measure.Units{}.Say(say.And(slices.Clone(names)...))
}
