package faultdisk

import (
	"math/rand/v2"
	"os"
	"slices"
)

// An entry is one operation on the file of records that succeeded, or the part of a
// write that did.
type entry struct {
	op   Op
	at   int64
	data []byte
}

// Moment is how many operations on the file of records there have been so far.
func (d *Disk) Moment() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.settle()
	return len(d.log)
}

// Unfinished tells whether the operation at a moment has one after it that makes it
// last: a power failure there may lose something.
func (d *Disk) Unfinished(moment int) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return moment > 0 && d.log[moment-1].op != Sync
}

// PowerCut gives what may be in the file of records when the power fails at a moment:
// everything that was synced before it, and of what was written since, as chance has
// it, all, some or nothing, in any order, and one write torn at a sector of 512 bytes.
// before is the file as it was when the disk came under it.
func (d *Disk) PowerCut(before []byte, moment int, chance *rand.Rand) []byte {
	d.mu.Lock()
	defer d.mu.Unlock()
	log := d.log[:moment]
	synced := 0
	for i, e := range log {
		if e.op == Sync {
			synced = i + 1
		}
	}
	image := slices.Clone(before)
	put := func(at int64, b []byte) {
		if need := int(at) + len(b); need > len(image) {
			image = append(image, make([]byte, need-len(image))...)
		}
		copy(image[at:], b)
	}
	for _, e := range log[:synced] {
		put(e.at, e.data)
	}
	loose := slices.Clone(log[synced:])
	chance.Shuffle(len(loose), func(a, b int) { loose[a], loose[b] = loose[b], loose[a] })
	loose = loose[:chance.IntN(len(loose)+1)]
	for i, e := range loose {
		n := len(e.data)
		if i == len(loose)-1 {
			n = chance.IntN(n/512+1) * 512
		}
		put(e.at, e.data[:n])
	}
	return image
}

// File reads the whole file of records as it is.
func (d *Disk) File() ([]byte, error) { return os.ReadFile(d.db.Path()) }
