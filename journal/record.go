package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/store"
)

// What records are called by.
type (
	// A Kind names a sort of record.
	Kind = store.Kind
	// An ID names one record for ever.
	ID = store.ID
	// A Ref names a record of any kind.
	Ref = store.Ref
)

// recordVersion is the version of the records that this program writes.
const recordVersion = 1

// Head is what every record begins with. Embed it.
type Head struct {
	ID      ID  `json:"id"`
	Version int `json:"v"`
	// Binned is when the record was put in the bin; zero for one that is not.
	Binned time.Time `json:"binned,omitzero"`
	// Rest holds the members that this program does not know, so that they
	// survive being written by it.
	Rest jsontext.Value `json:",embed"`
}

func (h *Head) head() *Head { return h }

// InBin reports whether the record is in the bin.
func (h *Head) InBin() bool { return !h.Binned.IsZero() }

// Record is satisfied by a pointer to each of the record types.
type Record[T any] interface {
	*T
	head() *Head
	kind() Kind
}

// RefOf gives the Ref of a record.
func RefOf[T any, R Record[T]](r R) Ref { return Ref{Kind: r.kind(), ID: r.head().ID} }
