package app

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/safekeeping"
	"twinloaf/journal"
	"twinloaf/journal/backup"
	"twinloaf/journal/measure"
)

// mostOffered is how many backups the small window has room for.
const mostOffered = 5

// offer lists the backups of a journal that was refused, if it has any, and puts one
// in its place. again opens the journal after that.
func (w *waiting) offer(ctx context.Context, err error, again func()) {
	refused, ok := errors.AsType[*journal.Refused](err)
	if !ok {
		return
	}
	go func() {
		all, _ := refused.Backups(ctx) // those of a disk that is not there cannot be offered
		w.main(func() {
			if len(all) > 0 {
				w.list(ctx, refused, all[:min(len(all), mostOffered)], again)
			}
		})
	}()
}

// list shows what can be gone back to under why the journal was refused.
func (w *waiting) list(ctx context.Context, refused *journal.Refused, all []backup.Backup, again func()) {
	rows := kit.Stack(1.5, kit.Section(lang.L("What you can go back to")))
	for _, b := range all {
		rows.Add(kit.RowGrow(4, 0, kit.Body(safekeeping.Describe(measure.Units{}, b, time.Now())),
			kit.NewLink(lang.L("Restore"), func() { w.restore(ctx, refused, b, again) })))
	}
	w.page.SetBody(kit.Stack(4, kit.Body(Refusal(refused)), rows,
		kit.Small(lang.L("The damaged journal is kept as it is, beside its backups.")),
		kit.Row(2, kit.NewButton(lang.L("Close"), w.win.Close))))
	w.win.Resize(fyne.NewSize(720, 480))
}

// restore puts a backup in the place of the journal that was refused.
func (w *waiting) restore(ctx context.Context, refused *journal.Refused, b backup.Backup, again func()) {
	w.page.SetHeading(lang.L("One moment …"))
	w.page.SetBody(kit.Faint(lang.L("Checking the backup …")))
	go func() {
		_, err := refused.Restore(ctx, b)
		w.main(func() {
			if err != nil {
				w.refuse(err)
				w.offer(ctx, refused, again)
				return
			}
			again()
		})
	}()
}
