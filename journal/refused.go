package journal

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"twinloaf/journal/backup"
)

// Refused tells of a journal that is too damaged to be opened, and can put one of its
// backups in its place. errors.Is finds why it was refused.
type Refused struct {
	why     error
	backups *backup.Keeper
}

// refuse makes the error of a journal that was not opened. Where it could not be told
// what backups it has, why is told alone.
func refuse(dir string, opt Options, why error) error {
	if !errors.Is(why, ErrDamaged) {
		return why
	}
	k, err := (&Journal{dir: dir, opt: opt}).keepBackups()
	if err != nil {
		return errors.Join(why, err)
	}
	return &Refused{why: why, backups: k}
}

// Error implements error.
func (r *Refused) Error() string { return r.why.Error() }

// Unwrap gives why the journal was refused.
func (r *Refused) Unwrap() error { return r.why }

// Backups lists the journal's backups that seem sound, the latest first.
func (r *Refused) Backups(ctx context.Context) ([]backup.Backup, error) {
	all, err := r.backups.List(ctx)
	return slices.DeleteFunc(all, func(b backup.Backup) bool { return b.Damage != nil }), err
}

// Restore puts a backup in the place of the damaged journal, which is kept as it is
// beside the backups, as the one given back. The folder can be opened then.
func (r *Refused) Restore(ctx context.Context, b backup.Backup) (aside backup.Backup, err error) {
	if _, err := r.backups.Prepare(ctx, b); err != nil {
		return backup.Backup{}, fmt.Errorf("preparing to put a backup back: %w", err)
	}
	aside, err = r.backups.Swap(ctx, backup.Content{Unlisted: true})
	if err != nil {
		return backup.Backup{}, fmt.Errorf("putting a backup back: %w", err)
	}
	return aside, nil
}
