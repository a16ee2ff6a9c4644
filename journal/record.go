package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"
)

// A Kind names a sort of record, and the bucket in which it is kept.
type Kind string

// The kinds of record.
const (
	KindCulture  Kind = "culture"
	KindFeeding  Kind = "feeding"
	KindReading  Kind = "reading"
	KindMove     Kind = "move"
	KindTempLog  Kind = "templog"
	KindFlour    Kind = "flour"
	KindFormula  Kind = "formula"
	KindBake     Kind = "bake"
	KindTrial    Kind = "trial"
	KindTasting  Kind = "tasting"
	KindPhoto    Kind = "photo"
	KindView     Kind = "view"
	KindSettings Kind = "settings"
)

// Kinds lists every kind of record.
func Kinds() []Kind {
	return []Kind{
		KindCulture, KindFeeding, KindReading, KindMove, KindTempLog, KindFlour,
		KindFormula, KindBake, KindTrial, KindTasting, KindPhoto, KindView, KindSettings,
	}
}

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

// A Ref names a record of any kind.
type Ref struct {
	Kind Kind `json:"kind"`
	ID   ID   `json:"id"`
}

// RefOf gives the Ref of a record.
func RefOf[T any, R Record[T]](r R) Ref { return Ref{r.kind(), r.head().ID} }
