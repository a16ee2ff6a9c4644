package journal

import (
	"fmt"
	"time"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/store"
)

// jsonOptions write durations as Go does ("4h30m0s") and members in a fixed order.
var jsonOptions = json.JoinOptions(
	json.Deterministic(true),
	json.WithMarshalers(json.MarshalFunc(func(d time.Duration) ([]byte, error) {
		return json.Marshal(d.String())
	})),
	json.WithUnmarshalers(json.UnmarshalFunc(func(b []byte, d *time.Duration) error {
		var s string
		if err := json.Unmarshal(b, &s); err != nil {
			return err
		}
		var err error
		*d, err = time.ParseDuration(s)
		return err
	})),
)

// encode turns a record into an envelope.
func encode[T any, R Record[T]](r R) ([]byte, error) {
	r.head().Version = recordVersion
	body, err := json.Marshal(r, jsonOptions)
	if err != nil {
		return nil, err
	}
	return store.Wrap(string(r.kind()), string(r.head().ID), body), nil
}

// decode turns the envelope of the record id into that record.
func decode[T any, R Record[T]](id ID, value []byte) (R, error) {
	kind := R(new(T)).kind()
	body, err := store.Unwrap(string(kind), string(id), value)
	if err != nil {
		return nil, fmt.Errorf("reading %s %s: %w", kind, id, err)
	}
	return parse[T, R](id, body)
}

// parse turns JSON into the record id.
func parse[T any, R Record[T]](id ID, body []byte) (R, error) {
	r := R(new(T))
	if err := json.Unmarshal(body, r, jsonOptions); err != nil {
		// The version is looked at before the complaint: a newer record may
		// hold what this program cannot even parse.
		var h struct {
			Version int `json:"v"`
		}
		if json.Unmarshal(body, &h) == nil && h.Version > recordVersion {
			err = ErrNewer
		}
		return nil, fmt.Errorf("reading %s %s: %w", r.kind(), id, err)
	}
	if r.head().Version > recordVersion {
		return nil, fmt.Errorf("reading %s %s: %w", r.kind(), id, ErrNewer)
	}
	return r, nil
}
