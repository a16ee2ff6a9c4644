package journal

import (
	"cmp"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"twinloaf/journal/backup"
	"twinloaf/journal/crumb"
	"twinloaf/journal/photo"
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// FileName is the name of the file that holds the records of a journal.
const FileName = "journal.db"

// Options are the seams of a journal. The zero value is right for a program.
type Options struct {
	Clock  func() time.Time // nil means time.Now
	Random io.Reader        // nil means crypto/rand
	// Inspect looks at the file before it is opened. A damaged file can take
	// the whole process down, so a program sets this to [InspectIn] of itself;
	// nil looks at it in this process.
	Inspect func(ctx context.Context, path string) error
	// OpenFile opens the file of records; nil means os.OpenFile.
	OpenFile func(name string, flag int, perm os.FileMode) (*os.File, error)
	// Photos is the file layer under the photos; nil means the disk.
	Photos photo.FS
	// Throwaway deletes the whole folder when the journal is closed, for the demo. What
	// is at work in the background then leaves nothing there.
	Throwaway bool
	// GatherFor is how long after the last key typed edits are committed; zero
	// means 400 ms. They are committed at the latest twice as long after the first.
	GatherFor time.Duration
	// LookEvery is how often it is looked whether the file is still in its place;
	// zero means every two seconds.
	LookEvery time.Duration
}

// A Journal is an open journal folder. Its methods may be called from any
// goroutine.
type Journal struct {
	dir   string
	opt   Options
	store *store.Store
	// mended is what was set aside when the journal was opened.
	mended *SetAside

	files   *photo.Files
	thumbs  *photo.Thumbs
	disk    *photo.Gate // through which both write
	backups *backup.Keeper

	// open ends when the journal is closed, by end.
	open context.Context
	end  context.CancelFunc

	// adding is held for reading from when an original is stored until a record that
	// names it is committed, and for writing while originals are swept.
	adding sync.RWMutex

	random sync.Mutex // guards opt.Random
	write  sync.Mutex // held by the one writer; taken before mu

	// overlay is the typed records that are not committed. The map is never altered,
	// only replaced, under mu: it is read under no lock, also by a change that is made
	// while mu is held.
	overlay atomic.Pointer[map[Ref][]byte]

	mu        sync.Mutex // guards all below
	closed    bool
	queue     []*gathered
	timer     *time.Timer
	oldest    time.Time // of the first edit in queue
	listeners map[int]func(Changed)
	changes   map[Kind]int // how often records of each kind were changed; "" where it is not known which
	nextHear  int
	summaries *summarySet
	trouble   error         // why what was typed could not be written
	wait      time.Duration // until the try after that
	moved     error         // that the file has lost its place
	watching  *time.Timer
}

// Open opens the journal in the folder dir, making the folder and an empty
// journal if there is none. It refuses, changing nothing, a journal that
// another program has open ([ErrInUse]), a file that is no journal
// ([ErrNotJournal]), one from a newer version ([ErrNewer]) and one of which nothing can
// be read any more ([ErrDamaged]). Of a damaged one it sets the damaged file aside
// and opens what could be read: see [Journal.Mended].
func Open(ctx context.Context, dir string, opt Options) (*Journal, error) {
	if opt.Clock == nil {
		opt.Clock = time.Now
	}
	if opt.Random == nil {
		opt.Random = rand.Reader
	}
	if opt.Inspect == nil {
		opt.Inspect = inspect
	}
	opt.GatherFor = cmp.Or(opt.GatherFor, 400*time.Millisecond)
	opt.LookEvery = cmp.Or(opt.LookEvery, 2*time.Second)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("making the journal folder: %w", err)
	}
	if err := backup.Recover(nil, dir); err != nil {
		return nil, err
	}
	path := filepath.Join(dir, FileName)
	var mended *SetAside
	_, err := os.Lstat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		if err := store.Create(path, layout()); err != nil {
			return nil, fmt.Errorf("beginning a journal in %s: %w", dir, err)
		}
	case err != nil:
		return nil, fmt.Errorf("opening the journal: %w", err)
	default:
		if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
			return nil, &say.Error{Said: say.Of("{{.File}} is a link to a file that is not there.", say.With{"File": path}), Err: err}
		}
		if mended, err = openable(ctx, path, opt); err != nil {
			return nil, refuse(dir, opt, err)
		}
	}
	j := &Journal{dir: dir, opt: opt, disk: photo.NewGate(opt.Photos), listeners: map[int]func(Changed){}, changes: map[Kind]int{}}
	j.overlay.Store(&map[Ref][]byte{})
	j.open, j.end = context.WithCancel(context.Background())
	if j.backups, err = j.keepBackups(); err != nil {
		return nil, err
	}
	st, err := store.Open(path, layout(), store.Options{
		OpenFile:  opt.OpenFile,
		Migrating: func(st *store.Tx) error { return j.backUpBefore(ctx, st) },
	})
	if err != nil {
		return nil, err
	}
	j.store, j.mended = st, mended
	if err := invalidateCrumb(st, crumb.MethodVersion); err != nil {
		return nil, errors.Join(err, st.Close())
	}
	j.files, err = photo.OpenFiles(filepath.Join(dir, "photos"), photo.Options{FS: j.disk})
	if err != nil {
		return nil, errors.Join(fmt.Errorf("opening the journal's photos: %w", err), st.Close())
	}
	j.thumbs = photo.NewThumbs(j.files, filepath.Join(dir, "cache"), j.disk)
	j.backups.Tidy()
	j.mu.Lock()
	j.watching = time.AfterFunc(opt.LookEvery, j.look)
	j.mu.Unlock()
	return j, nil
}

// Dir is the journal's folder.
func (j *Journal) Dir() string { return j.dir }

// Now is the time by the journal's clock.
func (j *Journal) Now() time.Time { return j.opt.Clock() }

// NewID names a record, or a line within one, that is about to be made.
func (j *Journal) NewID() (ID, error) {
	j.random.Lock()
	defer j.random.Unlock()
	return store.NewID(j.opt.Clock(), j.opt.Random)
}

// Random reads from the journal's source of randomness.
func (j *Journal) Random(p []byte) (int, error) {
	j.random.Lock()
	defer j.random.Unlock()
	return io.ReadFull(j.opt.Random, p)
}

func (j *Journal) values(kind Kind, ids []ID, fn func(id ID, envelope []byte) error) error {
	typed := j.typed()
	return j.store.View(func(st *store.Tx) error { return eachOf(st, kind, ids, typed, fn) })
}

// typed is the records that were typed and are not committed, not to be altered.
func (j *Journal) typed() map[Ref][]byte { return *j.overlay.Load() }

func (j *Journal) view(fn func(st *store.Tx) error) error { return j.store.View(fn) }

// Closed reports whether the journal was closed.
func (j *Journal) Closed() bool {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.closed
}

// Close commits what was typed and closes the journal. If that fails, the journal
// stays open and goes on trying, and Close can be called again; [Journal.Discard]
// closes it all the same. Closing twice is harmless.
func (j *Journal) Close() error {
	j.write.Lock()
	told, err := j.closeLocked()
	j.write.Unlock()
	for _, c := range told {
		j.notify(c)
	}
	return err
}

func (j *Journal) closeLocked() (told []Changed, err error) {
	if !j.opt.Throwaway {
		if told, err = j.flushLocked(); err != nil {
			return told, err
		}
	}
	// From here on no edit is taken, so that none can come between what is written
	// now and the end.
	j.setClosed(true)
	if !j.opt.Throwaway {
		more, err := j.flushLocked()
		told = append(told, more...)
		if err != nil {
			j.setClosed(false)
			return told, err
		}
	}
	return told, j.shut()
}

func (j *Journal) setClosed(closed bool) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.closed = closed
}

// Discard closes the journal and gives up what was typed and could not be written.
func (j *Journal) Discard() error {
	j.write.Lock()
	defer j.write.Unlock()
	j.mu.Lock()
	j.closed, j.queue = true, nil
	j.mu.Unlock()
	return j.shut()
}

// letGo is how long closing waits for somebody who still reads.
const letGo = 5 * time.Second

// shut lets go of the file and lets nobody write into the folder of photos any more.
// Everything is on the disk by then: a reader who does not end, since a disk does not
// answer, say, is not waited for for ever; the file goes with the process. The caller
// holds write.
func (j *Journal) shut() error {
	j.mu.Lock()
	if j.timer != nil {
		j.timer.Stop()
	}
	j.watching.Stop()
	j.mu.Unlock()
	j.end()
	closed := make(chan error, 1)
	go func() {
		j.disk.Close()
		if j.opt.Throwaway {
			j.backups.Wait()
		}
		closed <- j.store.Close()
	}()
	var err error
	select {
	case err = <-closed:
	case <-time.After(letGo):
	}
	if j.opt.Throwaway {
		err = errors.Join(err, os.RemoveAll(j.dir))
	}
	return err
}
