package safekeeping

import (
	"context"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal/backup"
)

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
