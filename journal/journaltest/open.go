package journaltest

import (
	"cmp"
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"twinloaf/journal"
)

// begin is when a [Clock] stands that was never set: a Wednesday morning.
var begin = time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)

// A Clock is a clock that the test moves. The zero Clock stands at
// Wednesday, 4 March 2026, 08:54 UTC. It is safe for concurrent use.
type Clock struct {
	mu  sync.Mutex
	now time.Time
}

// Now is the time by the clock.
func (c *Clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.now.IsZero() {
		c.now = begin
	}
	return c.now
}

// Set puts the clock to a time.
func (c *Clock) Set(t time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = t
}

// Forward moves the clock on.
func (c *Clock) Forward(d time.Duration) { c.Set(c.Now().Add(d)) }

// Random is a source of randomness that always gives the same.
func Random(seed uint64) *rand.ChaCha8 {
	key := [32]byte{'t', 'w', 'i', 'n'}
	for i := range 8 {
		key[8+i] = byte(seed >> (8 * i))
	}
	return rand.NewChaCha8(key)
}

// Open opens a fresh journal in a folder of the test's own, which is closed
// when the test is over. Unless opt has its own, the clock is a new [Clock],
// which is returned, the randomness is fixed, and typed edits wait until they
// are flushed. With a clock in opt the returned Clock is not used.
func Open(tb testing.TB, opt journal.Options) (*journal.Journal, *Clock) {
	tb.Helper()
	return OpenIn(tb, tb.TempDir(), opt)
}

// OpenIn is [Open] in a folder that may hold a journal already.
func OpenIn(tb testing.TB, dir string, opt journal.Options) (*journal.Journal, *Clock) {
	tb.Helper()
	clock := new(Clock)
	if opt.Clock == nil {
		opt.Clock = clock.Now
	}
	if opt.Random == nil {
		opt.Random = Random(7)
	}
	opt.GatherFor = cmp.Or(opt.GatherFor, time.Hour)
	j, err := journal.Open(tb.Context(), dir, opt)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := j.Close(); err != nil {
			tb.Errorf("closing the journal: %v", err)
		}
	})
	return j, clock
}
