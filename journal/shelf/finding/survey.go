package finding

import (
	"cmp"
	"context"
	"math"
	"slices"

	"twinloaf/journal/stats"
)

// A Question sets an outcome against a factor: a number, or a name. Of Number and
// Word one is set.
type Question struct {
	Outcome, Factor string // as their maker calls them
	Y, Number       []float64
	Word            []string
	Levels          []Level // what to hold alike, finest first
}

// A Found is what a question came to among all that were asked.
type Found struct {
	Outcome, Factor string
	N               int
	// Strength lies between -1 and 1: the rank correlation, or, of the two largest
	// groups First and Second, how much more often the first had more.
	Strength      float64
	First, Second string
	// P is the question's own p-value; Adjusted is held against all questions.
	P, Adjusted float64
}

// rate is the share of false findings that is allowed among those told.
const rate = 0.05

// Told reports whether it can be told from chance: of all that are told so, no
// more than one in twenty is expected to be a whim of chance.
func (f Found) Told() bool { return f.Adjusted <= rate }

// A Survey is everything that a record was asked at once. Whoever asks forty
// questions at one in twenty each gets two answers from nothing.
type Survey struct {
	// Found are the questions that had enough bakes to be worked out, in the order
	// asked.
	Found []Found
	// Few is how many had not.
	Few int
}

// Ask asks all questions and holds the rate of false findings over all of them
// (see [stats.FalseDiscovery]). It stops when ctx is done, with its error; progress, where
// there is one, is told how many have been asked.
func Ask(ctx context.Context, questions []Question, progress func(asked, of int)) (Survey, error) {
	var s Survey
	var p []float64
	for i, q := range questions {
		if err := ctx.Err(); err != nil {
			return Survey{}, err
		}
		if progress != nil {
			progress(i, len(questions))
		}
		f, ok := q.ask()
		if !ok {
			s.Few++
			continue
		}
		s.Found, p = append(s.Found, f), append(p, f.P)
	}
	for i, adjusted := range stats.FalseDiscovery(p) {
		s.Found[i].Adjusted = adjusted
	}
	return s, nil
}

func (q Question) ask() (Found, bool) {
	f := Found{Outcome: q.Outcome, Factor: q.Factor}
	if q.Number == nil {
		c, err := CompareWithin(q.Word, q.Y, q.Levels)
		if err != nil || c.Test == nil {
			return f, false
		}
		f.N, f.P, f.Strength = c.N, c.Adjusted(), 2*c.Test.Superiority-1
		f.First, f.Second = c.Groups[0].Name, c.Groups[1].Name
		return f, true
	}
	used := usable(q.Number, q.Y)
	if len(used) < Enough || flat(at(q.Number, used)) {
		return f, false
	}
	kinds, _, err := hold(q.Levels, used, func(i int) float64 { return q.Number[i] })
	if err != nil {
		return f, false
	}
	within, err := stats.RankWithin(at(q.Number, used), at(q.Y, used), kinds, seed())
	if err != nil {
		return f, false
	}
	f.N, f.P, f.Strength = len(used), within.P, within.Rho
	return f, true
}

// Of finds what a question came to; false when it was not worked out.
func (s Survey) Of(outcome, factor string) (Found, bool) {
	i := slices.IndexFunc(s.Found, func(f Found) bool { return f.Outcome == outcome && f.Factor == factor })
	if i < 0 {
		return Found{}, false
	}
	return s.Found[i], true
}

// Told counts the questions whose answer can be told from chance.
func (s Survey) Told() int {
	n := 0
	for _, f := range s.Found {
		if f.Told() {
			n++
		}
	}
	return n
}

// With lists what went with an outcome, what is told first and then the
// strongest first.
func (s Survey) With(outcome string) []Found {
	out := slices.DeleteFunc(slices.Clone(s.Found), func(f Found) bool { return f.Outcome != outcome })
	slices.SortStableFunc(out, func(a, b Found) int {
		if a.Told() != b.Told() {
			if a.Told() {
				return -1
			}
			return 1
		}
		return cmp.Compare(math.Abs(b.Strength), math.Abs(a.Strength))
	})
	return out
}
