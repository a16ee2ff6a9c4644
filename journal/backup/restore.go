package backup

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/go-json-experiment/json"
)

// What lies in the journal's folder while a backup is put back.
const (
	incomingName = "restoring.db"   // the records that are to be the journal's
	movesName    = "restoring.json" // what is to be renamed, while that is under way
)

// Prepare brings what a backup needs into the journal's folder and looks at it. The
// journal may be open, and is not changed. It gives the originals that neither the
// journal nor the backups have.
func (k *Keeper) Prepare(ctx context.Context, b Backup) (missing []Original, err error) {
	k.work.Lock()
	defer k.work.Unlock()
	k.copied.reset()
	incoming := filepath.Join(k.opt.Dir, incomingName)
	if info, err := os.Stat(b.File()); err == nil {
		if err := room(k.opt.FS, k.opt.Dir, info.Size()); err != nil {
			return nil, err
		}
	}
	if err := copyFile(ctx, k.opt.FS, b.File(), incoming); err != nil {
		return nil, fmt.Errorf("copying the backup %s: %w", filepath.Base(b.Path), err)
	}
	sum := b.SHA256
	if sum == "" { // it could not be read when it was set aside
		if sum, err = sumOf(ctx, incoming); err != nil {
			return nil, fmt.Errorf("reading the backup %s: %w", filepath.Base(b.Path), err)
		}
	}
	if err := k.check(ctx, incoming, sum); err != nil {
		return nil, fmt.Errorf("looking at the backup %s: %w", filepath.Base(b.Path), errors.Join(err, k.opt.FS.Remove(incoming)))
	}
	originals, err := b.Originals()
	if errors.Is(err, ErrUnlisted) {
		return nil, nil // what is missing shows when it is asked for
	}
	if err != nil {
		return nil, err
	}
	from := filepath.Join(filepath.Dir(b.Path), originalsDir)
	missing, err = putOriginals(ctx, k.opt.FS, from, filepath.Join(k.opt.Dir, photosFolder), originals, false, &k.copied)
	if err != nil {
		return nil, fmt.Errorf("bringing back the pictures of the backup %s: %w", filepath.Base(b.Path), err)
	}
	return missing, nil
}

// A move is one renaming within the journal's folder.
type move struct {
	From string `json:"from"`
	To   string `json:"to"`
}

// Swap puts the records that Prepare brought in place of the journal's, which must be
// closed. Those are kept first, as a backup of the reason [Aside] in the journal's own
// folder of backups; was tells what is in them. Interrupted at any point, it is
// finished by [Recover]. After an error everything is as before, unless the disk let
// nothing be taken back either: then Recover finishes that, too.
func (k *Keeper) Swap(ctx context.Context, was Content) (aside Backup, err error) {
	k.work.Lock()
	defer k.work.Unlock()
	journal, err := k.begin()
	if err != nil {
		return Backup{}, err
	}
	f := k.own()
	part := f.part(journal) + "-aside"
	if err := f.fs.MkdirAll(filepath.Join(f.path, originalsDir)); err != nil {
		return Backup{}, failed(f.path, err)
	}
	if err := f.fs.RemoveAll(part); err != nil {
		return Backup{}, failed(f.path, err)
	}
	if err := f.fs.MkdirAll(part); err != nil {
		return Backup{}, failed(f.path, err)
	}
	records := filepath.Join(k.opt.Dir, recordsName)
	now := k.opt.Clock().Truncate(time.Second)
	originals := sorted(was.Originals)
	aside = Backup{
		Format: format, Journal: journal, Made: now, Reason: Aside,
		Records: was.Records, Bakes: was.Bakes, Photos: len(originals), Unlisted: was.Unlisted,
	}
	if info, err := os.Stat(records); err == nil {
		aside.Bytes = info.Size()
	}
	if sum, err := sumOf(ctx, records); err == nil {
		aside.SHA256 = sum // looked at only when it is put back
	} else if ctx.Err() != nil {
		return Backup{}, ctx.Err()
	}
	if _, err := putOriginals(ctx, f.fs, filepath.Join(k.opt.Dir, photosFolder), filepath.Join(f.path, originalsDir), originals, true, &k.copied); err != nil {
		return Backup{}, failed(f.path, err)
	}
	if err := f.describe(part, aside, originals); err != nil {
		return Backup{}, failed(f.path, err)
	}
	aside.Path = f.vacant(now)
	moves := []move{
		{recordsName, k.within(part, recordsName)},
		{incomingName, recordsName},
		{k.within(part), k.within(aside.Path)},
	}
	data, err := json.Marshal(moves)
	if err != nil {
		return Backup{}, err
	}
	if err := writeWhole(k.opt.FS, filepath.Join(k.opt.Dir, movesName), data); err != nil {
		return Backup{}, failed(k.opt.Dir, err)
	}
	if err := perform(k.opt.FS, k.opt.Dir, moves); err != nil {
		return Backup{}, failed(k.opt.Dir, err)
	}
	return aside, nil
}

// within writes a path as seen from the journal's folder.
func (k *Keeper) within(path ...string) string {
	rel, err := filepath.Rel(k.opt.Dir, filepath.Join(path...))
	if err != nil {
		return filepath.Join(path...)
	}
	return filepath.ToSlash(rel)
}

// Recover finishes the putting back of a backup that was interrupted in the journal's
// folder dir, before the journal is opened. A nil fs means the disk.
func Recover(fs FS, dir string) error {
	if fs == nil {
		fs = disk{}
	}
	path := filepath.Join(dir, movesName)
	data, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("finishing the putting back of a backup: %w", err)
	}
	var moves []move
	if err := json.Unmarshal(data, &moves); err != nil {
		// It is written whole before anything is moved: nothing was.
		return fs.Remove(path)
	}
	if err := perform(fs, dir, moves); err != nil {
		return fmt.Errorf("finishing the putting back of a backup: %w", err)
	}
	return nil
}

// perform makes those of the moves that are not made yet, in their order, and forgets
// them. If one fails, it and those before it are taken back.
func perform(fs FS, dir string, moves []move) error {
	for i := made(dir, moves); i < len(moves); i++ {
		err := rename(fs, dir, moves[i].From, moves[i].To)
		if err == nil {
			continue
		}
		for ; i >= 0; i-- {
			if back := rename(fs, dir, moves[i].To, moves[i].From); back != nil {
				return errors.Join(err, back) // the next opening tries again
			}
		}
		return errors.Join(err, forget(fs, dir))
	}
	return forget(fs, dir)
}

// made is how many of the moves have been made: those up to the last that has left
// nothing where it began.
func made(dir string, moves []move) int {
	there := func(name string) bool {
		_, err := os.Lstat(filepath.Join(dir, filepath.FromSlash(name)))
		return err == nil
	}
	n := 0
	for i, m := range moves {
		if !there(m.From) && there(m.To) {
			n = i + 1
		}
	}
	return n
}

// forget deletes the list of moves.
func forget(fs FS, dir string) error {
	if err := fs.Remove(filepath.Join(dir, movesName)); err != nil {
		return err
	}
	return fs.SyncDir(dir)
}

// rename makes one move unless it is made; nothing is ever put over what is there.
func rename(fs FS, dir, from, to string) error {
	from, to = filepath.Join(dir, filepath.FromSlash(from)), filepath.Join(dir, filepath.FromSlash(to))
	if _, err := os.Lstat(from); errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if _, err := os.Lstat(to); err == nil {
		return nil
	}
	if err := fs.Rename(from, to); err != nil {
		return err
	}
	if err := fs.SyncDir(filepath.Dir(to)); err != nil {
		return err
	}
	return fs.SyncDir(filepath.Dir(from))
}
