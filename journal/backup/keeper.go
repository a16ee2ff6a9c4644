package backup

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"
)

// ownFolder is where backups lie, below the journal's folder, unless the baker has
// chosen another. What a journal was before another was put back always lies there.
const ownFolder = "backups"

// photosFolder is where a journal keeps its originals.
const photosFolder = "photos"

// Options are the seams of a [Keeper].
type Options struct {
	Dir   string // the journal's folder
	Clock func() time.Time
	// NewID makes a name for the journal, once.
	NewID func() (string, error)
	// Inspect looks at a file of records, and tells why it should not be opened.
	Inspect func(ctx context.Context, path string) error
	FS      FS // nil means the disk
}

// A Keeper keeps the backups of one journal. Its methods may be called from any
// goroutine; all but Status, Mine and Due take their time, one piece of work at a time.
type Keeper struct {
	opt Options

	work sync.Mutex // held while backups are made, put back or deleted

	copied tally // of the work under way

	mu       sync.Mutex
	settings settings
	problem  error // of the last try to make a backup
	running  bool
}

// NewKeeper begins to keep the backups of a journal.
func NewKeeper(opt Options) (*Keeper, error) {
	if opt.FS == nil {
		opt.FS = disk{}
	}
	s, err := readSettings(opt.Dir)
	if err != nil {
		return nil, err
	}
	return &Keeper{opt: opt, settings: s}, nil
}

// Tidy deletes what work that was cut off has left in the journal's folder: copies that
// never got their name. The journal is open, so that no other program is at work there.
func (k *Keeper) Tidy() {
	k.work.Lock()
	defer k.work.Unlock()
	left := []string{filepath.Join(k.opt.Dir, incomingName)}
	for _, pattern := range []string{partPrefix + "*", photosFolder + "/??/" + partPrefix + "*"} {
		left = append(left, matching(k.opt.Dir, pattern)...)
	}
	for _, path := range left {
		_ = k.opt.FS.Remove(path) // it only takes room
	}
}

// Wait waits until what is being made, put back or deleted is through.
func (k *Keeper) Wait() {
	k.work.Lock()
	defer k.work.Unlock()
}

// A Status says how the backups of a journal stand.
type Status struct {
	Folder  string    // where they are made
	Chosen  bool      // the folder is of the baker's choice
	Good    time.Time // when the last good one was made, or the journal had not changed since
	Begun   time.Time // since when they are made; zero before the first try
	Problem error     // of the last try; nil if it went well, or there was none yet
	Running bool
	// Copied are the bytes that the work under way has copied so far, of Copying; both are 0
	// while there is none, and what needs no copying does not count.
	Copied, Copying int64
}

// Since is the time since which there was no good backup.
func (s Status) Since() time.Time {
	if s.Good.IsZero() {
		return s.Begun
	}
	return s.Good
}

// Neglected reports whether the last try failed and there was no good backup for a
// week.
func (s Status) Neglected(now time.Time) bool {
	since := s.Since()
	return s.Problem != nil && !since.IsZero() && now.Sub(since) >= 7*24*time.Hour
}

// Status answers at once.
func (k *Keeper) Status() Status {
	k.mu.Lock()
	defer k.mu.Unlock()
	return Status{
		Folder: k.folderLocked(), Chosen: k.settings.Folder != "", Good: k.settings.Good, Begun: k.settings.Begun,
		Problem: k.problem, Running: k.running, Copied: k.copied.done.Load(), Copying: k.copied.all.Load(),
	}
}

func (k *Keeper) folderLocked() string {
	if k.settings.Folder != "" {
		return k.settings.Folder
	}
	return k.own().path
}

// own is the folder within the journal's.
func (k *Keeper) own() folder { return folder{filepath.Join(k.opt.Dir, ownFolder), k.opt.FS} }

// chosen is the folder in which backups are made.
func (k *Keeper) chosen() folder {
	k.mu.Lock()
	defer k.mu.Unlock()
	return folder{k.folderLocked(), k.opt.FS}
}

// keep changes the settings. They hold in memory even when they cannot be written.
func (k *Keeper) keep(fn func(*settings)) error {
	k.mu.Lock()
	fn(&k.settings)
	s := k.settings
	k.mu.Unlock()
	return writeSettings(k.opt.FS, k.opt.Dir, s)
}

// begin gives the journal its name for backups, and notes when they were begun.
func (k *Keeper) begin() (journal string, err error) {
	k.mu.Lock()
	s := k.settings
	k.mu.Unlock()
	if s.Journal != "" {
		return s.Journal, nil
	}
	id, err := k.opt.NewID()
	if err != nil {
		return "", err
	}
	return id, k.keep(func(s *settings) { s.Journal, s.Begun = id, k.opt.Clock() })
}

// Choose has backups be made in dir from now on; an empty dir, or the journal's own
// folder of backups, means that one. A folder named here is made ready at once, so
// that one on a disk which is not plugged in is told from one that is empty.
func (k *Keeper) Choose(dir string) error {
	if dir == k.own().path {
		dir = ""
	}
	if dir != "" {
		if _, err := os.Stat(dir); err != nil {
			return gone(dir)
		}
		if err := k.opt.FS.MkdirAll(filepath.Join(dir, originalsDir)); err != nil {
			return failed(dir, err)
		}
		if err := k.opt.FS.SyncDir(dir); err != nil {
			return failed(dir, err)
		}
	}
	return k.keep(func(s *settings) { s.Folder = dir })
}

// ready makes sure of the folder in which backups are made.
func (k *Keeper) ready() (folder, error) {
	f := k.chosen()
	if f.path == k.own().path {
		return f, failed(f.path, k.opt.FS.MkdirAll(filepath.Join(f.path, originalsDir)))
	}
	if info, err := os.Stat(filepath.Join(f.path, originalsDir)); err != nil || !info.IsDir() {
		return f, gone(f.path)
	}
	return f, nil
}

// List reads the backups of the chosen folder and of the journal's own, the latest
// first. With the chosen folder gone it gives the others, and the error.
func (k *Keeper) List(ctx context.Context) ([]Backup, error) {
	own, chosen := k.own(), k.chosen()
	all, err := own.list(ctx)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, failed(own.path, err)
	}
	if chosen.path == own.path {
		return all, nil
	}
	more, err := chosen.list(ctx)
	if errors.Is(err, os.ErrNotExist) {
		return all, gone(chosen.path)
	}
	if err != nil {
		return all, failed(chosen.path, err)
	}
	all = append(all, more...)
	slices.SortStableFunc(all, func(a, b Backup) int { return b.Made.Compare(a.Made) })
	return all, nil
}

// Mine reports whether a backup is of this journal, not of another that is kept in
// the same folder.
func (k *Keeper) Mine(b Backup) bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.settings.Journal != "" && b.Journal == k.settings.Journal
}

// Due reports whether it is time for the backup of the day.
func (k *Keeper) Due() bool { return due(k.Status().Good, k.opt.Clock()) }

// Delete takes a backup away for good, with the originals that only it needed.
func (k *Keeper) Delete(ctx context.Context, b Backup) error {
	k.work.Lock()
	defer k.work.Unlock()
	journal, err := k.begin()
	if err != nil {
		return err
	}
	f := folder{filepath.Dir(b.Path), k.opt.FS}
	if err := f.remove(b, journal); err != nil {
		return failed(f.path, err)
	}
	return failed(f.path, f.sweep(ctx, journal))
}
