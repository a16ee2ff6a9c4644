package pages

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
)

// AddPhotos adds pictures to a record away from the main goroutine. show is given
// what tells how far it is, with a way to stop, and nil when it is over. What is
// refused is told in a dialog, a sentence for each; the others are in, as far as they had
// come when they were stopped.
func (e *Env) AddPhotos(owner journal.Ref, role journal.Role, pictures []journal.Picture, show func(fyne.CanvasObject)) {
	if len(pictures) == 0 {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	progress := kit.NewProgress(lang.L("Adding photos"), stop)
	progress.Set(0, len(pictures), "")
	show(progress)
	var added []journal.ID
	var refused []error
	Try(e, func(run context.Context) (err error) {
		defer context.AfterFunc(run, stop)()
		added, refused, err = e.Journal.AddPictures(ctx, lang.L("adding photos"), owner, role, pictures, func(done int) {
			e.main(func() { progress.Set(done, len(pictures), "") })
		})
		return err
	}, func(err error) {
		stop()
		show(nil)
		if err != nil && !errors.Is(err, context.Canceled) {
			e.Fail(err)
			return
		}
		switch n := len(added); {
		case n == 1:
			e.Say(lang.L("1 photo added."), true)
		case n > 1:
			e.Say(lang.L("{{.N}} photos added.", map[string]any{"N": n}), true)
		}
		e.TellRefused(refused)
	})
}

// TellRefused lists what was not added, and why.
func (e *Env) TellRefused(refused []error) {
	if len(refused) == 0 {
		return
	}
	lines := kit.Stack(2)
	for _, r := range refused {
		lines.Add(kit.Body(e.Units().ErrorText(r)))
	}
	title := lang.L("{{.N}} files were not added", map[string]any{"N": len(refused)})
	if len(refused) == 1 {
		title = lang.L("One file was not added")
	}
	var sheet *kit.Dialog
	ok := kit.PrimaryButton(lang.L("OK"), func() { sheet.Close() }).WithKey(lang.L("Enter"))
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{
		Title: title, Content: lines, Scroll: true, Width: 560,
		Buttons: []fyne.CanvasObject{ok}, OnEnter: func() { sheet.Close() },
		Aside: kit.Small(lang.L("The files themselves are untouched.")),
	})
}
