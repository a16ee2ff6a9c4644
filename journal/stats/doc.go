// Package stats holds the few pieces of statistics that tastings and the shelf
// need and that gonum does not have: exact tails, exact rank tests and order
// statistic limits for the small samples a home baker has.
//
// Everything is exact where an exact answer is cheap. Where it is not, the doc
// comment names what is used instead, and a result that may be either says which
// in its Exact field. The package opens nothing and draws no random number that was not
// handed to it.
//
// All p-values are two-sided unless the name says otherwise.
package stats

import "errors"

// ErrTooFew is returned when there are not enough values to say anything.
var ErrTooFew = errors.New("too few values")

// ErrNotFinite is returned when a value is NaN or infinite.
var ErrNotFinite = errors.New("a value is not a finite number")

// ErrLengths is returned when paired lists are not equally long.
var ErrLengths = errors.New("the two lists are not equally long")

// Limits is a confidence interval.
type Limits struct {
	Lower, Upper float64
	// Level is the confidence asked for; limits counted out from order statistics
	// give what they really have, which is at least that.
	Level float64
}
