// Package plan makes a bake day into a schedule and follows it while it runs.
//
// A [Plan] is a start, a list of steps in their order, and what has happened
// so far. It is data alone, meant to be stored as it is; everything else, such
// as when the next turn is due, is computed from it. The package reads no
// clock: the time is handed in.
//
// [Forward] and [Backward] make a plan from steps, forward from a start or
// back from the time the bread should be ready, and keep the sleep hours free
// of anything that needs hands. [Plan.Timeline] says when each moment of it is
// expected, [Plan.Next] what is due next.
//
// Lengths are spans of real time. A cold rest of ten hours is ten hours also
// in the night the clocks change; only the sleep hours follow the wall clock.
package plan
