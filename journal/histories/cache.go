package histories

import (
	"sync"

	"twinloaf/journal"
)

// A Cache keeps the histories of all cultures from one reading to the next, for as long
// as no record that they rest on is changed: they are asked for every minute, and years
// of feedings take their time to read and to learn from. The zero Cache is empty; it may
// be used from several goroutines.
type Cache struct {
	mu    sync.Mutex // held while reading: two that ask at once read once
	at    journal.Version
	known []*CultureHistory
}

// All gives what the function [All] reads, as it is now. It must not be altered.
func (c *Cache) All(j journal.Source) ([]*CultureHistory, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	at := j.Version(journal.KindCulture, journal.KindFeeding, journal.KindReading, journal.KindMove, journal.KindTempLog, journal.KindSeries)
	if at == c.at {
		return c.known, nil
	}
	known, err := All(j)
	if err != nil {
		return nil, err
	}
	c.at, c.known = at, known
	return known, nil
}
