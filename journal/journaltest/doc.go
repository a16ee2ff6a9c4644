// Package journaltest makes journals for tests: a fresh one under a clock that
// the test moves and fixed randomness, and large ones by the thousand bakes for
// benchmarks and property tests.
package journaltest
