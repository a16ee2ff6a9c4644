package safekeeping

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/backup"
)

// backups shows how the backups of the journal stand, and puts one back.
type backups struct {
	env    *pages.Env
	column *fyne.Container
	button *kit.Button // the same each time, so that it keeps the keyboard
	stop   func()

	status backup.Status
	list   []backup.Backup
	listed error            // why the list is not whole
	spare  journal.Unneeded // originals that nothing needs
	busy   string           // what is being done, in words
	cancel func()
	bar    *kit.Progress // of what is being done
}

func newBackups(env *pages.Env) *backups {
	b := &backups{env: env, column: kit.Stack(4), status: env.Journal.Backups().Status()}
	b.button = kit.PrimaryButton(lang.L("Back up now"), b.now).WithKey("B")
	b.build()
	return b
}

func (b *backups) object() fyne.CanvasObject { return b.column }

func (b *backups) keys() []kit.Key {
	return []kit.Key{{Name: "B", Doc: lang.L("Back up now"), Do: b.now}}
}

func (b *backups) shown() {
	b.read()
	b.stop = b.env.Every(time.Second, b.look)
}

func (b *backups) left() {
	kit.End(&b.stop)
}

func (b *backups) changed(journal.Changed) {}

// look reads anew when a backup was made meanwhile.
func (b *backups) look() {
	now := b.env.Journal.Backups().Status()
	if b.busy != "" && now.Copying > 0 {
		b.bar.Set(pages.Megabytes(now.Copied), pages.Megabytes(now.Copying), lang.L("MB"))
	}
	was := b.status
	if now.Running != was.Running || !now.Good.Equal(was.Good) || (now.Problem == nil) != (was.Problem == nil) {
		b.read()
	}
}

// read asks the disk, off the main goroutine, and shows what it says.
func (b *backups) read() {
	b.status = b.env.Journal.Backups().Status()
	var list []backup.Backup
	var listed error
	var spare journal.Unneeded
	b.env.Run(func(ctx context.Context) {
		list, listed = b.env.Journal.Backups().List(ctx)
		spare, _ = b.env.Journal.UnneededOriginals(ctx) // where it cannot be told, nothing is offered
	}, func() {
		b.list, b.listed, b.spare = list, listed, spare
		b.build()
	})
}

// build shows everything.
func (b *backups) build() {
	b.column.Objects = []fyne.CanvasObject{
		kit.Stack(2, kit.Section(lang.L("Backups")), b.standing(),
			kit.Small(lang.L("While Twinloaf is open it backs the journal up once a day, checks the copy, and keeps those of the last seven days, four weeks and twelve months."))),
		b.folder(),
		b.rows(),
	}
	if b.spare.Pictures > 0 {
		b.column.Add(b.sweeping())
	}
	b.column.Refresh()
}

// standing says how things are, and has the button.
func (b *backups) standing() fyne.CanvasObject {
	now, u := b.env.Now(), b.env.Units()
	words := kit.Strong(lang.L("There is no backup yet"))
	if !b.status.Good.IsZero() {
		words = kit.Strong(lang.L("Last backup: {{.When}}", map[string]any{"When": u.When(b.status.Good, now)}))
	}
	if b.busy != "" {
		return b.bar
	}
	if b.status.Running {
		words = kit.Strong(lang.L("A backup is being made …"))
	}
	row := kit.RowGrow(3, 0, words, b.button)
	if b.status.Problem == nil {
		return row
	}
	return kit.Stack(1, row, kit.NewText(kit.Span{Color: look.ColorEmber,
		Text: lang.L("The last try failed. {{.Why}}", map[string]any{"Why": u.ErrorText(b.status.Problem)})}))
}

// folder says where backups go, and lets another be chosen.
func (b *backups) folder() fyne.CanvasObject {
	links := kit.Row(4, kit.NewLink(lang.L("Choose another folder"), b.choose))
	if b.status.Chosen {
		links.Add(kit.NewLink(lang.L("Use the journal's own folder"), func() { b.use("") }))
	}
	return kit.Stack(1, kit.Section(lang.L("Where backups go")), kit.Body(b.env.Journal.Backups().Status().Folder), links,
		kit.Small(lang.L("A folder on another disk outlives the loss of this one. Pictures are kept there once for all backups; on this disk they take no more room.")))
}

// choose asks for a folder.
func (b *backups) choose() {
	kit.PickFiles(b.env.Main, b.env.Window, kit.PickOptions{
		Title: lang.L("Where should backups go?"), Yes: lang.L("Use this folder"), Folder: true,
		OnChosen: func(paths []string) {
			if len(paths) > 0 {
				b.use(paths[0])
			}
		},
	})
}

// use has backups go to a folder, and makes the first one there at once.
func (b *backups) use(dir string) {
	pages.Try(b.env, func(ctx context.Context) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		return b.env.Journal.Backups().Choose(dir) // once begun it is finished
	}, func(err error) {
		if b.env.Failed(err) {
			return
		}
		b.now()
	})
}

// now makes a backup.
func (b *backups) now() {
	b.begin(lang.L("Backing up …"), func(ctx context.Context) error { _, err := b.env.Journal.BackUp(ctx, backup.Asked); return err },
		func() { b.env.Say(lang.L("The journal is backed up."), false) })
}

// begin does something that takes its time, and can be stopped: neither what went wrong nor that it
// is done is told then.
func (b *backups) begin(words string, work func(context.Context) error, done func()) {
	if b.busy != "" {
		return
	}
	b.busy, b.bar = words, kit.NewProgress(words, b.halt)
	b.bar.Working("")
	b.cancel = pages.Try(b.env, work, func(err error) {
		b.busy, b.cancel = "", nil
		if !b.env.Failed(err) {
			done()
		}
		b.read()
	})
	b.build()
}

// halt stops it.
func (b *backups) halt() {
	if b.cancel == nil {
		return
	}
	b.cancel()
	b.busy, b.cancel = "", nil
	b.read()
}

const (
	// often is how often it is looked whether a backup is due, and how long after the
	// start for the first time: nobody waits for it then.
	often = time.Minute
	// again is how long after a try that failed the next is made.
	again = time.Hour
)

// Start makes the backup of each day by itself, in the background, until the window
// closes. The demonstration is not backed up.
func Start(env *pages.Env) {
	if env.Journal.Throwaway() {
		return
	}
	d := &daily{env: env}
	env.Every(often, d.look)
}

// daily is what remembers when it was last tried.
type daily struct {
	env   *pages.Env
	tried time.Time
	busy  bool
	told  string // why the last one failed
}

// look begins a backup if one is due.
func (d *daily) look() {
	now := d.env.Now()
	since := now.Sub(d.tried)
	if d.busy || !d.env.Journal.Backups().Due() || !d.tried.IsZero() && since >= 0 && since < again {
		return
	}
	d.tried, d.busy = now, true
	pages.Try(d.env, func(ctx context.Context) error { _, err := d.env.Journal.BackUp(ctx, backup.Daily); return err }, func(err error) {
		d.busy = false
		if err == nil {
			d.told = ""
			return
		}
		// The same is not told again every hour; the page of backups says it, too.
		if why := d.env.Units().ErrorText(err); why != d.told {
			d.told = why
			d.env.Say(lang.L("Today's backup failed. {{.Why}}", map[string]any{"Why": why}), false)
		}
	})
}
