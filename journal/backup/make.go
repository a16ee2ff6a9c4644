package backup

import (
	"context"
	"crypto/sha256"
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"

	"twinloaf/journal/plainfile"
)

// Content is what a copy of a journal holds.
type Content struct {
	Records, Bakes int
	Originals      []Original // every one that a record or a step of its history names
	// Unlisted says that a record could not be read, so that Originals may lack some.
	Unlisted bool
}

// A Source is a journal that may be edited while it is copied.
type Source interface {
	// Size is about how many bytes a copy of the records takes.
	Size() (int64, error)
	// Copy writes the records as they are at one moment, and tells what is in them at
	// that moment. It stops when ctx ends.
	Copy(ctx context.Context, w io.Writer) (Content, error)
}

// Make makes a backup. Nothing is listed before it is whole, on the disk and looked
// at. A daily one that equals the latest is not kept twice: that one is given. Then
// the older ones are thinned out; what goes wrong there is told beside the backup.
func (k *Keeper) Make(ctx context.Context, src Source, why Reason) (b Backup, err error) {
	k.work.Lock()
	defer k.work.Unlock()
	if err := ctx.Err(); err != nil { // while others were at work
		return b, err
	}
	k.setRunning(true)
	defer k.setRunning(false)
	defer func() {
		if ctx.Err() == nil {
			k.mu.Lock()
			k.problem = err
			k.mu.Unlock()
		}
	}()
	journal, err := k.begin()
	if err != nil {
		return b, failed(k.opt.Dir, err)
	}
	f, err := k.ready()
	if err != nil && why == Migration { // which cannot wait for a disk to be plugged in
		f = k.own()
		err = failed(f.path, k.opt.FS.MkdirAll(filepath.Join(f.path, originalsDir)))
	}
	if err != nil {
		return b, err
	}
	b, err = k.makeIn(ctx, f, src, journal, why)
	if err != nil {
		return b, errors.Join(failed(f.path, err), f.clear(journal))
	}
	err = k.keep(func(s *settings) { s.Good = k.opt.Clock() })
	return b, errors.Join(failed(k.opt.Dir, err), failed(f.path, k.thin(ctx, f, journal)))
}

func (k *Keeper) setRunning(yes bool) {
	k.mu.Lock()
	k.running = yes
	k.copied.reset()
	k.mu.Unlock()
}

// makeIn makes a backup in f.
func (k *Keeper) makeIn(ctx context.Context, f folder, src Source, journal string, why Reason) (Backup, error) {
	if err := f.clear(journal); err != nil {
		return Backup{}, err
	}
	size, err := src.Size()
	if err != nil {
		return Backup{}, err
	}
	if err := room(f.fs, f.path, size); err != nil {
		return Backup{}, err
	}
	k.copied.all.Store(size)
	part := f.part(journal)
	if err := f.fs.MkdirAll(part); err != nil {
		return Backup{}, err
	}
	b := Backup{Format: format, Journal: journal, Reason: why, Made: k.opt.Clock().Truncate(time.Second)}
	content, err := k.copyRecords(ctx, f, part, src, size, &b)
	if err != nil {
		return Backup{}, err
	}
	if err := k.check(ctx, filepath.Join(part, recordsName), b.SHA256); err != nil {
		return Backup{}, err
	}
	b.Checked = k.opt.Clock().Truncate(time.Second)
	originals := sorted(content.Originals)
	missing, err := putOriginals(ctx, f.fs, filepath.Join(k.opt.Dir, photosFolder), filepath.Join(f.path, originalsDir), originals, true, &k.copied)
	if err != nil {
		return Backup{}, err
	}
	b.Records, b.Bakes, b.Unlisted = content.Records, content.Bakes, content.Unlisted
	b.Photos, b.Missing = len(originals), len(missing)
	if why == Daily {
		if same, ok := latest(ctx, f, journal); ok && same.SHA256 == b.SHA256 && same.Missing == b.Missing && same.Damage == nil {
			return same, f.fs.RemoveAll(part)
		}
	}
	if err := f.describe(part, b, originals); err != nil {
		return Backup{}, err
	}
	b.Path, err = f.publish(part, b.Made)
	return b, err
}

// latest finds the newest backup of a journal.
func latest(ctx context.Context, f folder, journal string) (Backup, bool) {
	all, err := f.list(ctx)
	if err != nil {
		return Backup{}, false
	}
	for _, b := range all {
		if b.Journal == journal && b.Reason != Aside {
			return b, true
		}
	}
	return Backup{}, false
}

// copyRecords writes the copy of the records. While the journal is being copied some
// changes to it must wait, so the copy is first written beside it, where that is quick,
// and is carried to the disk of the backups afterwards; unless there is no room.
func (k *Keeper) copyRecords(ctx context.Context, f folder, part string, src Source, size int64, b *Backup) (content Content, err error) {
	at := part
	if f.path != k.own().path && room(f.fs, k.opt.Dir, size) == nil {
		at = k.opt.Dir
	}
	tmp, err := f.fs.CreateTemp(at, partPrefix+"*")
	if err != nil {
		return Content{}, err
	}
	defer func() { _ = f.fs.Remove(tmp.Name()) }() // it has its name by then, or is not wanted
	sum := sha256.New()
	count := &counter{w: io.MultiWriter(contextWriter{ctx, tmp}, sum, &k.copied)}
	content, err = src.Copy(ctx, count)
	if err == nil && at == part {
		err = tmp.Sync()
	}
	if err = errors.Join(err, tmp.Close()); err != nil {
		return Content{}, err
	}
	b.Bytes, b.SHA256 = count.n, hexOf(sum.Sum(nil))
	to := filepath.Join(part, recordsName)
	if at == part {
		return content, f.fs.Rename(tmp.Name(), to)
	}
	return content, copyFile(ctx, f.fs, tmp.Name(), to)
}

// check holds a copy of records against its checksum and looks at it.
func (k *Keeper) check(ctx context.Context, path, sum string) error {
	got, err := sumOf(ctx, path)
	if err != nil {
		return err
	}
	if got != sum {
		return ErrDamaged
	}
	return k.opt.Inspect(ctx, path)
}

// thin takes away the backups of this journal that need not stay.
func (k *Keeper) thin(ctx context.Context, f folder, journal string) error {
	all, err := f.list(ctx)
	if err != nil {
		return err
	}
	var mine []Backup
	var made []time.Time
	for _, b := range all {
		if b.Journal == journal && !b.stays() && b.Damage == nil {
			mine, made = append(mine, b), append(made, b.Made)
		}
	}
	removed := false
	for i, stays := range Kept(made, k.opt.Clock()) {
		if stays {
			continue
		}
		if err := f.remove(mine[i], journal); err != nil {
			return err
		}
		removed = true
	}
	if !removed {
		return nil
	}
	return f.sweep(ctx, journal)
}

// copyFile copies a file to where it appears whole or not at all.
func copyFile(ctx context.Context, fs FS, from, to string) error {
	r, err := os.Open(from)
	if err != nil {
		return err
	}
	defer r.Close()
	return place(fs, to, func(w io.Writer) error {
		_, err := io.Copy(w, plainfile.WithContext(ctx, r))
		return err
	})
}

// counter counts what is written through it.
type counter struct {
	w io.Writer
	n int64
}

// Write implements io.Writer.
func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.n += int64(n)
	return n, err
}
