package app

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
)

// Start opens the journal, shows the window and returns when it is closed. A
// journal that cannot be opened is told in a small window of its own, and on the
// standard error; nothing is opened on top of it.
func Start(ctx context.Context, a fyne.App, open func(context.Context) (*journal.Journal, error)) error {
	a.Settings().SetTheme(look.New(look.FollowSystem))
	j, err := open(ctx)
	if err != nil {
		refuse(a, err)
		return err
	}
	w := New(a, j)
	w.Run()
	return nil
}

// refuse says why there is no journal to show.
func refuse(a fyne.App, err error) {
	win := a.NewWindow("Twinloaf")
	win.SetIcon(look.AppIcon())
	page := kit.NewPage(kit.PageOptions{
		Eyebrow: "Twinloaf",
		Heading: lang.L("The journal was not opened"),
		Body:    kit.Stack(4, kit.Body(Refusal(err)), kit.Small(err.Error()), kit.Row(2, kit.PrimaryButton(lang.L("Close"), win.Close))),
	})
	win.SetContent(kit.NewFrame(page))
	win.Resize(fyne.NewSize(720, 360))
	win.ShowAndRun()
}
