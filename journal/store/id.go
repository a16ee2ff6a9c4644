package store

import (
	"io"
	"time"

	"github.com/oklog/ulid/v2"
)

// An ID names one record for ever. It is a ULID in its text form: 26
// characters that sort by the time at which they were made. The zero ID names
// nothing.
type ID string

// NewID makes an ID from a time and a source of randomness.
func NewID(at time.Time, random io.Reader) (ID, error) {
	u, err := ulid.New(ulid.Timestamp(at), random)
	if err != nil {
		return "", err
	}
	return ID(u.String()), nil
}

// Valid reports whether id has the form of an ID.
func (id ID) Valid() bool {
	_, err := ulid.ParseStrict(string(id))
	return err == nil
}

// Made is when the record of an ID was made, to the millisecond; zero for an ID that is
// none.
func (id ID) Made() time.Time {
	u, err := ulid.ParseStrict(string(id))
	if err != nil {
		return time.Time{}
	}
	return ulid.Time(u.Time())
}
