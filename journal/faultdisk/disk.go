// Package faultdisk is the disk of tests: it lies under a journal's file of records
// and under its photos, fails the write, sync, rename or whatever else it is told
// to, and remembers all that was asked of it, so that a test can have what a power
// failure at any moment might have left.
package faultdisk

import (
	"os"
	"reflect"
	"slices"
	"sync"
	"unsafe"

	bolt "go.etcd.io/bbolt"
)

// An Op is a kind of operation on the disk.
type Op string

// The operations. Those of the records are Write, Sync and Grow; the photos are
// stored by the others, too.
const (
	Write   Op = "write"
	Sync    Op = "sync"
	Grow    Op = "grow" // of the file of records
	Mkdir   Op = "make folder"
	Create  Op = "create"
	Close   Op = "close"
	Rename  Op = "rename"
	SyncDir Op = "sync folder"
	Remove  Op = "remove"
	// Read is one of a photo, or through [Disk.Reader]. The records are read through
	// memory: see [Unreadable].
	Read Op = "read"
)

// A Disk is one such layer. The zero value is ready: it fails nothing.
type Disk struct {
	mu     sync.Mutex
	count  map[Op]int
	fail   map[Op]fault
	failed int

	order []Op // all but reads
	log   []entry

	db   *bolt.DB
	file *os.File // the real one, while db has another
	bad  *os.File
	page int64
	// dirty says that pages were written since the last sync of the records.
	dirty bool
	// metaDirty says that the page that makes them count was written.
	metaDirty bool
}

// A fault is what fails of a kind.
type fault struct {
	from  int // the nth from the beginning
	times int // how many in a row; less than 0 means all that follow
	err   error
}

// Under puts the disk under an open file of records.
//
// bbolt has no seam for its writes and syncs. Its function for writing is
// replaced; a sync fails because the file that it is asked of is swapped, for that
// moment, for a pipe, which cannot be synced.
func (d *Disk) Under(db *bolt.DB) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.db, d.page = db, int64(db.Info().PageSize)
	d.file = *field[*os.File](db, "file")
	write := fieldOf(reflect.ValueOf(db).Elem().FieldByName("ops"), "writeAt")
	fn := (*func([]byte, int64) (int, error))(write)
	*fn = d.writeAt
}

// field gives the place of a private field of a bbolt file.
func field[T any](db *bolt.DB, name string) *T {
	return (*T)(fieldOf(reflect.ValueOf(db).Elem(), name))
}

func fieldOf(v reflect.Value, name string) unsafe.Pointer {
	f := v.FieldByName(name)
	if !f.IsValid() {
		panic("bbolt has no field " + name + " any more")
	}
	return unsafe.Pointer(f.UnsafeAddr())
}

// Fail makes the nth operation of a kind from now fail with err, and the times−1
// that follow it; times < 0 means all that follow. Kinds fail beside each other. A failing sync of the records
// fails with the system's own error, and with Grow the file of records neither
// grows nor is synced, until Heal; such failures are not counted.
func (d *Disk) Fail(op Op, nth, times int, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.settle()
	if d.fail == nil {
		d.fail = map[Op]fault{}
	}
	d.fail[op], d.failed = fault{d.count[op] + nth, times, err}, 0
	d.aim()
}

// Heal makes nothing fail any more, and tells how many operations did.
func (d *Disk) Heal() (failed int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.settle()
	clear(d.fail)
	d.aim()
	return d.failed
}

// Count tells how many operations of a kind there were, failed ones included.
func (d *Disk) Count(op Op) int {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.settle()
	return d.count[op]
}

// Order is every operation so far but reads.
func (d *Disk) Order() []Op {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.settle()
	return slices.Clone(d.order)
}

// take counts an operation and tells whether it fails. The caller holds mu.
func (d *Disk) take(op Op) error {
	if d.count == nil {
		d.count = map[Op]int{}
	}
	d.count[op]++
	if op != Read {
		d.order = append(d.order, op)
	}
	if !d.fails(op, d.count[op]) {
		return nil
	}
	d.failed++
	return d.fail[op].err
}

// fails tells whether the nth operation of a kind fails.
func (d *Disk) fails(op Op, nth int) bool {
	f, told := d.fail[op]
	return told && nth >= f.from && (f.times < 0 || nth < f.from+f.times)
}

// writeAt is what the file of records writes with. A commit writes its pages, syncs,
// writes one of the first two pages, and syncs.
func (d *Disk) writeAt(b []byte, at int64) (int, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	meta := at < 2*d.page
	if meta && d.dirty || !meta && d.metaDirty {
		d.synced()
	}
	if err := d.take(Write); err != nil {
		// A write that fails may have written some of it.
		n := len(b) / 2 / 512 * 512
		if n > 0 {
			_, _ = d.file.WriteAt(b[:n], at)
			d.log = append(d.log, entry{op: Write, at: at, data: slices.Clone(b[:n])})
		}
		d.dirty, d.metaDirty = false, false
		d.aim()
		return n, err
	}
	n, err := d.file.WriteAt(b, at)
	d.log = append(d.log, entry{op: Write, at: at, data: slices.Clone(b[:n])})
	if meta {
		d.metaDirty = true
	} else {
		d.dirty = true
	}
	d.aim()
	return n, err
}

// synced notes the sync of the records that came between two writes.
func (d *Disk) synced() {
	if d.take(Sync) == nil {
		d.log = append(d.log, entry{op: Sync})
	}
	d.dirty, d.metaDirty = false, false
}

// settle notes a sync that was the last thing of a commit.
func (d *Disk) settle() {
	if d.metaDirty || d.dirty && d.fails(Sync, d.count[Sync]+1) {
		d.synced()
	}
}

// aim has the file of records be one that cannot be synced, or grow, exactly while
// the next sync is to fail.
func (d *Disk) aim() {
	if d.db == nil {
		return
	}
	use := d.file
	_, full := d.fail[Grow]
	if full || (d.dirty || d.metaDirty) && d.fails(Sync, d.count[Sync]+1) {
		use = d.pipe()
	}
	*field[*os.File](d.db, "file") = use
}

func (d *Disk) pipe() *os.File {
	if d.bad == nil {
		r, w, err := os.Pipe()
		if err != nil {
			panic(err)
		}
		_ = r.Close()
		d.bad = w
	}
	return d.bad
}
