package journal

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/backup"
	"twinloaf/journal/photo"
	"twinloaf/journal/store"
)

// keepBackups begins to keep the journal's backups.
func (j *Journal) keepBackups() (*backup.Keeper, error) {
	return backup.NewKeeper(backup.Options{
		Dir: j.dir, Clock: j.opt.Clock, Inspect: j.opt.Inspect,
		NewID: func() (string, error) {
			id, err := j.NewID()
			return string(id), err
		},
	})
}

// backUpBefore backs the file up before its records are brought to a newer layout.
func (j *Journal) backUpBefore(ctx context.Context, st *store.Tx) error {
	_, err := j.backups.Make(ctx, whole{j, st}, backup.Migration)
	return err
}

// Backups are how the copies of this journal stand and lie.
func (j *Journal) Backups() *backup.Keeper { return j.backups }

// Throwaway reports whether the journal's folder goes when it is closed.
func (j *Journal) Throwaway() bool { return j.opt.Throwaway }

// BackUp makes a backup of the journal, which may be edited meanwhile. What is typed
// and cannot be written just now is not in it. While the journal's file has lost its
// place, none is made: its folder may be on a disk that is no longer there. It ends with
// context.Canceled when the journal is closed.
func (j *Journal) BackUp(ctx context.Context, why backup.Reason) (backup.Backup, error) {
	if err := j.Moved(); err != nil {
		return backup.Backup{}, err
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	defer context.AfterFunc(j.open, cancel)()
	_ = j.Flush() // told by whoever typed
	return j.backups.Make(ctx, whole{j: j}, why)
}

// whole is the journal as [backup.Source].
type whole struct {
	j  *Journal
	st *store.Tx // what is copied; nil for what is committed last when the copy begins
}

// Size implements [backup.Source].
func (w whole) Size() (int64, error) {
	info, err := os.Stat(filepath.Join(w.j.dir, FileName))
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// Copy implements [backup.Source].
func (w whole) Copy(ctx context.Context, to io.Writer) (content backup.Content, err error) {
	write := func(st *store.Tx) error {
		if content, err = contentOf(ctx, st); err != nil {
			return err
		}
		_, err = st.WriteTo(untilClosed{w.j, to})
		return err
	}
	if w.st != nil {
		return content, write(w.st)
	}
	return content, w.j.view(write)
}

// untilClosed is written to until the journal is closed, which nobody waits with until a
// copy is whole.
type untilClosed struct {
	j  *Journal
	to io.Writer
}

func (u untilClosed) Write(p []byte) (int, error) {
	if u.j.Closed() {
		return 0, ErrClosed
	}
	return u.to.Write(p)
}

// contentOf tells what a copy of the records holds, and which originals its records
// and the steps of its history name.
func contentOf(ctx context.Context, st *store.Tx) (backup.Content, error) {
	var c backup.Content
	for _, kind := range Kinds() {
		err := st.Each(kind, func(id ID, envelope []byte) error {
			c.Records++
			switch kind {
			case KindBake:
				c.Bakes++
			case KindPhoto:
				noteOriginal(&c, id, envelope)
			}
			return ctx.Err()
		})
		if ctx.Err() != nil {
			return c, ctx.Err()
		}
		if err != nil { // the kind is not in an older layout
			c.Unlisted = true
		}
	}
	err := st.EachEntry(func(e *store.Entry, damage error) error {
		if damage != nil {
			c.Unlisted = true
			return ctx.Err()
		}
		for _, ed := range e.Edits {
			for _, envelope := range [][]byte{ed.Before, ed.After} {
				if ed.Ref.Kind == KindPhoto && len(envelope) > 0 {
					noteOriginal(&c, ed.Ref.ID, envelope)
				}
			}
		}
		return ctx.Err()
	})
	return c, err
}

// noteOriginal adds the original that the record of a photo names. No more of the
// record is read than that, so that one of a newer version is understood, too.
func noteOriginal(c *backup.Content, id ID, envelope []byte) {
	var p struct {
		Hash   string `json:"hash"`
		Format string `json:"format"`
	}
	body, err := store.Unwrap(string(KindPhoto), string(id), envelope)
	if err == nil {
		err = json.Unmarshal(body, &p)
	}
	hash, err2 := photo.ParseHash(p.Hash)
	format, known := photo.FormatOf(p.Format)
	if err != nil || err2 != nil || !known {
		c.Unlisted = true
		return
	}
	c.Originals = append(c.Originals, backup.Original{Hash: hash, Format: format})
}

// PrepareRestore brings what a backup needs into the journal's folder, and changes
// nothing that the journal shows. It gives the originals that cannot be had any more.
func (j *Journal) PrepareRestore(ctx context.Context, b backup.Backup) (missing []backup.Original, err error) {
	missing, err = j.backups.Prepare(ctx, b)
	if err != nil {
		return nil, fmt.Errorf("preparing to put a backup back: %w", err)
	}
	return missing, nil
}

// Restore closes the journal and puts the backup in its place that PrepareRestore has
// brought. Everything that was in the journal is kept first, as the backup that it gives.
// Then the folder can be opened again, after an error, too: with the same journal in
// it as before.
func (j *Journal) Restore(ctx context.Context) (aside backup.Backup, err error) {
	if err := j.Moved(); err != nil { // what is in that place now is not this journal
		return backup.Backup{}, err
	}
	if err := j.Flush(); err != nil {
		return backup.Backup{}, err
	}
	var was backup.Content
	err = j.view(func(st *store.Tx) (err error) {
		was, err = contentOf(ctx, st)
		return err
	})
	if err != nil {
		return backup.Backup{}, fmt.Errorf("setting the journal aside: %w", err)
	}
	if err := j.Close(); err != nil {
		return backup.Backup{}, err
	}
	if aside, err = j.backups.Swap(ctx, was); err != nil {
		return backup.Backup{}, fmt.Errorf("putting a backup back: %w", err)
	}
	return aside, nil
}
