package safekeeping

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/room"
	"twinloaf/journal"
)

// backups shows the copies that are kept of the journal.
type backups struct {
	env    *room.Env
	column *fyne.Container
}

func newBackups(env *room.Env) *backups {
	b := &backups{env: env, column: kit.Stack(2)}
	b.column.Objects = []fyne.CanvasObject{
		kit.Section(lang.L("Backups")),
		kit.Body(env.Journal.Dir()),
		kit.Small(lang.L("Records are in journal.db, original pictures in photos. Copy the whole folder, with Twinloaf closed, to keep a copy elsewhere.")),
	}
	return b
}

func (b *backups) object() fyne.CanvasObject { return b.column }
func (b *backups) keys() []kit.Key           { return nil }
func (b *backups) shown()                    {}
func (b *backups) left()                     {}
func (b *backups) changed(journal.Changed)   {}
