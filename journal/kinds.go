package journal

import (
	"fmt"
	"time"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/store"
)

// The kinds of record.
const (
	KindCulture  Kind = "culture"
	KindFeeding  Kind = "feeding"
	KindReading  Kind = "reading"
	KindMove     Kind = "move"
	KindTempLog  Kind = "templog"
	KindSeries   Kind = "series"
	KindFlour    Kind = "flour"
	KindFormula  Kind = "formula"
	KindBake     Kind = "bake"
	KindTrial    Kind = "trial"
	KindTasting  Kind = "tasting"
	KindPhoto    Kind = "photo"
	KindView     Kind = "view"
	KindSettings Kind = "settings"
)

// A registration is what the journal knows of one kind of record, whatever its type.
type registration struct {
	kind Kind
	// read decodes an envelope into a pointer to the kind's type.
	read func(id ID, envelope []byte) (any, error)
	// glance decodes a record of a newer program, too, as far as this one knows it:
	// for indexes only, since what it does not know may alter the meaning.
	glance func(id ID, envelope []byte) (any, error)
	// summarized says that what read gives is [summarized].
	summarized bool
	// check tells why a body in JSON is no record of this kind with that ID.
	check func(id ID, body []byte) error
	// faults gives the figures in such a body that cannot be.
	faults func(id ID, body []byte) []fault
}

// registrations lists every kind, in the order in which an archive would need
// them: what others belong to comes before them.
var registrations = []registration{
	register[Culture](), register[Feeding](), register[Reading](), register[Move](),
	register[TempLog](), register[Flour](), register[Formula](), register[Bake](),
	register[Trial](), register[Tasting](), register[Series](), register[Photo](), register[View](),
	register[Settings](),
}

func register[T any, R Record[T]]() registration {
	_, isSummarized := any(R(nil)).(summarized)
	return registration{
		kind:       R(new(T)).kind(),
		summarized: isSummarized,
		read:       func(id ID, envelope []byte) (any, error) { return decode[T, R](id, envelope) },
		glance: func(id ID, envelope []byte) (any, error) {
			r := R(new(T))
			body, err := store.Unwrap(string(r.kind()), string(id), envelope)
			if err != nil {
				return nil, err
			}
			err = json.Unmarshal(body, r, jsonOptions)
			r.head().ID = id
			return r, err
		},
		check: func(id ID, body []byte) error {
			_, err := parse[T, R](id, body)
			return err
		},
		faults: func(id ID, body []byte) []fault {
			r, err := parse[T, R](id, body)
			if err != nil {
				return nil
			}
			return mend(r)
		},
	}
}

// Kinds lists every kind of record.
func Kinds() []Kind {
	out := make([]Kind, len(registrations))
	for i, r := range registrations {
		out[i] = r.kind
	}
	return out
}

func registered(kind Kind) (registration, bool) {
	for _, r := range registrations {
		if r.kind == kind {
			return r, true
		}
	}
	return registration{}, false
}

// linker is satisfied by a record that belongs to others.
type linker interface {
	// links gives the owners and the time under which it is listed.
	links() (owners []ID, at time.Time)
}

func (f *Feeding) links() ([]ID, time.Time) { return []ID{f.Culture}, f.At }
func (r *Reading) links() ([]ID, time.Time) { return []ID{r.Culture}, r.At }
func (m *Move) links() ([]ID, time.Time)    { return []ID{m.Culture}, m.At }
func (l *TempLog) links() ([]ID, time.Time) { return []ID{l.Culture}, l.From }
func (p *Photo) links() ([]ID, time.Time)   { return []ID{p.Owner.ID}, p.When() }
func (s *Series) links() ([]ID, time.Time) {
	var owners []ID
	for _, j := range s.Jars {
		owners = append(owners, j.Culture, j.Feeding, j.Bake)
	}
	return owners, s.From
}
func (c *Culture) links() ([]ID, time.Time) { return []ID{c.Parent}, c.Born }
func (f *Formula) links() ([]ID, time.Time) { return []ID{f.Family}, time.Unix(int64(f.Number), 0) }
func (b *Bake) links() ([]ID, time.Time) {
	return []ID{b.Culture, b.Formula, b.Trial, b.From}, b.At
}
func (t *Tasting) links() ([]ID, time.Time) {
	return append([]ID{t.Trial}, t.Bakes...), t.At
}

// summarized is satisfied by a record that goes into summaries of bakes.
type summarized interface {
	summarizedIn() []ID
}

func (b *Bake) summarizedIn() []ID { return []ID{b.ID} }
func (p *Photo) summarizedIn() []ID {
	if p.Owner.Kind != KindBake {
		return nil
	}
	return []ID{p.Owner.ID}
}

// spec tells the store of the kind.
func (r registration) spec() store.Spec {
	return store.Spec{Kind: r.kind, Links: func(id ID, envelope []byte) ([]ID, time.Time, error) {
		rec, err := r.glance(id, envelope)
		if err != nil {
			return nil, time.Time{}, err
		}
		l, ok := rec.(linker)
		if !ok {
			return nil, time.Time{}, nil
		}
		owners, at := l.links()
		if h, ok := rec.(interface{ head() *Head }); ok && h.head().Version > recordVersion {
			// A newer program may link it otherwise, too.
			err = fmt.Errorf("reading %s %s: %w", r.kind, id, ErrNewer)
		}
		return owners, at, err
	}}
}

// The buckets beside those of the records.
const (
	sideSummaries = "index cards"
	sideVault     = "vault"
	sideDerived   = "derived"
	sideAside     = "set aside"
)

// schemaVersion is the layout of the file that this program writes.
const schemaVersion = 1

// layout says what the file of records holds.
func layout() store.Layout {
	l := store.Layout{
		Is: "Twinloaf journal", Schema: schemaVersion,
		Sides:   []string{sideSummaries, sideVault, sideDerived, sideAside},
		Indexes: map[string]Kind{sideSummaries: KindBake},
	}
	for _, r := range registrations {
		l.Kinds = append(l.Kinds, r.spec())
	}
	return l
}
