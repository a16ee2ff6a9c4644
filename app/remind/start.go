package remind

import (
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/pages"
	"twinloaf/app/remind/bell"
)

// often is how often the sources are asked, and how long after the start for the
// first time: the window is there by then.
const often = 5 * time.Second

// Start watches the doughs under way, and what more is handed in, until stop is
// called.
func Start(env *pages.Env, more ...Source) (stop func()) {
	w := For(env, more...)
	return env.Every(often, func() { w.Look(env.Now()) })
}

// For makes a watcher that tells by the system and rings unless the settings ask
// for silence.
func For(env *pages.Env, more ...Source) *Watcher {
	return &Watcher{
		Sources: append([]Source{Bakes{Journal: env.Journal, Units: env.Units}}, more...),
		Memory:  preferences{env.App.Preferences()},
		Tell:    func(r Reminder) { env.App.SendNotification(fyne.NewNotification(r.Title, r.Text)) },
		Ring: func() {
			if s, err := env.Journal.Settings(); err == nil && !s.Silent {
				bell.Ring()
			}
		},
		Failed: env.Fail,
	}
}

// preferences remember beside the journal rather than in it: that something was
// told is no change that a baker would want to undo.
type preferences struct{ fyne.Preferences }

const keyTold = "reminders.told"

// Told gives the keys of what was told.
func (p preferences) Told() []string { return p.StringList(keyTold) }

// SetTold keeps them.
func (p preferences) SetTold(keys []string) { p.SetStringList(keyTold, keys) }
