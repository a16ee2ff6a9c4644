package journal

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"time"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/say"
)

// A stored value is an envelope: one byte of version, four bytes of CRC-32C
// over kind, key and body, and the body in JSON. bbolt notices a torn page but not a
// flipped byte within a value; the checksum does, and it also ties a value to its key.
const (
	envelopeVersion = 1
	envelopeSize    = 5
)

// Errors of stored values. They are wrapped with the record they are about.
var (
	ErrDamaged = say.Wrong("the stored bytes do not match their checksum")
	ErrNewer   = say.Wrong("a newer version of Twinloaf wrote that; it was left untouched, please use the newer version")
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(bucket, key string, body []byte) uint32 {
	c := crc32.Update(0, castagnoli, []byte(bucket))
	c = crc32.Update(c, castagnoli, []byte{0})
	c = crc32.Update(c, castagnoli, []byte(key))
	c = crc32.Update(c, castagnoli, []byte{0})
	return crc32.Update(c, castagnoli, body)
}

// wrap puts body into an envelope that belongs to bucket and key.
func wrap(bucket, key string, body []byte) []byte {
	out := make([]byte, envelopeSize, envelopeSize+len(body))
	out[0] = envelopeVersion
	binary.BigEndian.PutUint32(out[1:], checksum(bucket, key, body))
	return append(out, body...)
}

// unwrap gives the body of an envelope. The body shares the memory of value.
func unwrap(bucket, key string, value []byte) ([]byte, error) {
	if len(value) < envelopeSize {
		return nil, ErrDamaged
	}
	if value[0] != envelopeVersion {
		// A flipped byte looks like another version; only a sound checksum
		// makes it one.
		if value[0] > envelopeVersion && binary.BigEndian.Uint32(value[1:]) == checksum(bucket, key, value[envelopeSize:]) {
			return nil, ErrNewer
		}
		return nil, ErrDamaged
	}
	body := value[envelopeSize:]
	if binary.BigEndian.Uint32(value[1:]) != checksum(bucket, key, body) {
		return nil, ErrDamaged
	}
	return body, nil
}

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
	return wrap(string(r.kind()), string(r.head().ID), body), nil
}

// decode turns the envelope of the record id into that record.
func decode[T any, R Record[T]](id ID, value []byte) (R, error) {
	r := R(new(T))
	body, err := unwrap(string(r.kind()), string(id), value)
	if err != nil {
		return nil, fmt.Errorf("reading %s %s: %w", r.kind(), id, err)
	}
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
