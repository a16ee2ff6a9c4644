package journal

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"twinloaf/journal/blind/fair"
)

// An Unfair is a recorded difference between two bakes that nobody meant, and
// what the baker said to it.
type Unfair struct {
	fair.Difference
	// Key is what a [FairnessAnswer] calls it.
	Key string
	// First and Second are the two bakes.
	First, Second *Bake
}

// TrialFairness lists what differs between the bakes of a trial beyond what is
// varied, pair by pair. A bake that is gone is left out.
func TrialFairness(r Reader, t *Trial) ([]Unfair, error) {
	bakes, err := TrialBakes(r, t)
	if err != nil {
		return nil, err
	}
	var out []Unfair
	for i, a := range bakes {
		for _, b := range bakes[i+1:] {
			found, err := pairFairness(r, t, a, b)
			if err != nil {
				return nil, err
			}
			out = append(out, found...)
		}
	}
	return out, nil
}

// TrialBakes reads the bakes of a trial, in the order of its arms.
func TrialBakes(r Reader, t *Trial) ([]*Bake, error) {
	var out []*Bake
	for _, arm := range t.Arms {
		b, err := Get[Bake](r, arm.Bake)
		if errors.Is(err, ErrNotFound) {
			continue
		}
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

// TastingFairness lists what differs between the two bakes of a tasting beyond
// what its trial varies.
func TastingFairness(r Reader, t *Tasting) ([]Unfair, error) {
	if len(t.Bakes) != 2 {
		return nil, nil
	}
	var pair [2]*Bake
	for i, id := range t.Bakes {
		b, err := Get[Bake](r, id)
		if errors.Is(err, ErrNotFound) {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		pair[i] = b
	}
	trial := &Trial{Answers: t.Answers, Arms: []Arm{{}, {}}}
	if t.Trial != "" {
		found, err := Get[Trial](r, t.Trial)
		if err != nil && !errors.Is(err, ErrNotFound) {
			return nil, err
		}
		if err == nil {
			trial = found
		}
	}
	return pairFairness(r, trial, pair[0], pair[1])
}

// TrialAlike lists what is recorded of both bakes of a trial of two and is the same, apart from
// what is varied; nothing of any other trial.
func TrialAlike(r Reader, t *Trial) ([]fair.Difference, error) {
	bakes, err := TrialBakes(r, t)
	if err != nil || len(bakes) != 2 {
		return nil, err
	}
	figures, err := pairFigures(r, t, bakes[0], bakes[1])
	return fair.Alike(figures), err
}

// pairFigures lists what two bakes could have recorded alike.
func pairFigures(r Reader, t *Trial, a, b *Bake) ([]fair.Metric, error) {
	var cultures [2]string
	for i, id := range []ID{a.Culture, b.Culture} {
		if id == "" {
			continue
		}
		c, err := Get[Culture](r, id)
		if err != nil && !errors.Is(err, ErrNotFound) {
			return nil, err
		}
		if err == nil {
			cultures[i] = c.Name
		}
	}
	return fairFigures(a, b, cultures, t.Varied), nil
}

func pairFairness(r Reader, t *Trial, a, b *Bake) ([]Unfair, error) {
	figures, err := pairFigures(r, t, a, b)
	if err != nil {
		return nil, err
	}
	var out []Unfair
	for _, d := range fair.Differences(figures) {
		key := d.Figure.Name.String()
		if len(t.Arms) > 2 {
			key = fmt.Sprintf("%s (%s, %s)", key, a.ID, b.ID)
		}
		if i := slices.IndexFunc(t.Answers, func(f FairnessAnswer) bool { return f.Difference == key }); i >= 0 {
			d.Accepted, d.Note = t.Answers[i].Accepted, t.Answers[i].Note
		}
		out = append(out, Unfair{Difference: d, Key: key, First: a, Second: b})
	}
	return out, nil
}

// AnswerFairness keeps what the baker says to a difference: with the trial of
// the bakes, or with the tasting of two bakes that are of no trial.
func (j *Journal) AnswerFairness(of Ref, key string, accepted bool, note string) error {
	const label = "a difference between the bakes"
	answer := func(list []FairnessAnswer) []FairnessAnswer {
		list = slices.Clone(list)
		i := slices.IndexFunc(list, func(f FairnessAnswer) bool { return f.Difference == key })
		if i < 0 {
			list, i = append(list, FairnessAnswer{Difference: key}), len(list)
		}
		list[i].Accepted, list[i].Note = accepted, strings.TrimSpace(note)
		return list
	}
	switch of.Kind {
	case KindTrial:
		return Edit(j, of.ID, label, func(t *Trial) { t.Answers = answer(t.Answers) })
	case KindTasting:
		return Edit(j, of.ID, label, func(t *Tasting) { t.Answers = answer(t.Answers) })
	}
	return fmt.Errorf("%s: neither a trial nor a tasting has it", label)
}
