package photo

import "time"

// Meta is what a picture's file says of it.
type Meta struct {
	Format Format

	// Width and Height are in pixels as the picture is looked at, that is after
	// it was turned upright.
	Width, Height int

	// Orientation says how the stored pixels lie. It is always Upright for HEIC,
	// whose own rotation belongs to decoding.
	Orientation Orientation

	// Taken is when the picture was taken; zero when the file does not say. When
	// TakenZoneKnown is false the file holds a wall clock without a zone, and
	// Taken shows that wall clock in UTC: see TakenIn.
	Taken          time.Time
	TakenZoneKnown bool
}

// TakenIn is when the picture was taken, as an instant. A wall clock without a
// zone is read as one in loc; a zone that the picture names is kept. It is zero
// when the file does not say.
func (m Meta) TakenIn(loc *time.Location) time.Time {
	if m.Taken.IsZero() || m.TakenZoneKnown {
		return m.Taken
	}
	t := m.Taken
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), loc)
}

// Limits bound what is opened, so that no file can take the memory away. The
// zero value means the defaults.
type Limits struct {
	// Pixels is the most that a picture may claim; 0 means 200 million. Sixteen
	// bits a channel count twice.
	Pixels int64
	// Bytes is the longest file that is read; 0 means 256 MB.
	Bytes int64
}

const (
	defaultPixels = 200_000_000
	defaultBytes  = 256_000_000
)

func (l Limits) pixels() int64 {
	if l.Pixels > 0 {
		return l.Pixels
	}
	return defaultPixels
}

func (l Limits) bytes() int64 {
	if l.Bytes > 0 {
		return l.Bytes
	}
	return defaultBytes
}
