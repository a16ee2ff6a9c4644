//go:build unix

package faultdisk

import (
	"golang.org/x/sys/unix"

	bolt "go.etcd.io/bbolt"
)

// Unreadable has every read of one page of an open file of records fail until heal, as
// a bad sector under a mapped file does: the processor faults. Heal before the file is
// closed or opened anew.
func Unreadable(db *bolt.DB, page int) (heal func()) {
	size := db.Info().PageSize
	mapped := *field[[]byte](db, "dataref")
	part := mapped[page*size : (page+1)*size]
	if err := unix.Mprotect(part, unix.PROT_NONE); err != nil {
		panic(err)
	}
	return func() {
		if now := *field[[]byte](db, "dataref"); len(now) == 0 || &now[0] != &mapped[0] {
			return // it has gone with its mapping
		}
		if err := unix.Mprotect(part, unix.PROT_READ); err != nil {
			panic(err)
		}
	}
}
