package journal

import (
	"context"
	"time"

	"twinloaf/journal/store"
)

// A Source is what a whole journal is read from: a [Journal], or one until a context ends.
type Source interface {
	Reader
	BakeSummaries() ([]*BakeSummary, error)
	Settings() (*Settings, error)
	Now() time.Time
	Version(kinds ...Kind) Version
}

// until is a journal for reading until a context ends.
type until struct {
	*Journal
	ctx context.Context
}

// Until gives the journal for reading until ctx ends: from then on every reading gives
// the context's error, so that who reads much of it stops soon.
func (j *Journal) Until(ctx context.Context) Source { return until{j, ctx} }

func (r until) BakeSummaries() ([]*BakeSummary, error) {
	if err := r.ctx.Err(); err != nil {
		return nil, err
	}
	return r.Journal.BakeSummaries()
}

func (r until) Settings() (*Settings, error) {
	if err := r.ctx.Err(); err != nil {
		return nil, err
	}
	return r.Journal.Settings()
}

func (r until) values(kind Kind, ids []ID, fn func(id ID, envelope []byte) error) error {
	if err := r.ctx.Err(); err != nil {
		return err
	}
	return r.Journal.values(kind, ids, func(id ID, envelope []byte) error {
		if err := r.ctx.Err(); err != nil {
			return err
		}
		return fn(id, envelope)
	})
}

func (r until) view(fn func(st *store.Tx) error) error {
	if err := r.ctx.Err(); err != nil {
		return err
	}
	return r.Journal.view(fn)
}
