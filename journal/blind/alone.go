package blind

import (
	"slices"

	"twinloaf/journal/blind/draw"
)

// slipsPerRound is how many plates are set out for a round tasted alone. A
// triangle sets out four, two of each loaf, and puts one away unseen: the three
// that remain are each of the six triangle orders with the same chance, so that
// not even the kind of the odd one is known. Two-out-of-five sets out six and
// puts one away for the same reason.
func slipsPerRound(m Method) int {
	if putsOneAway(m) {
		return m.Samples() + 1
	}
	return m.Samples()
}

func putsOneAway(m Method) bool { return m == Triangle || m == TwoOutOfFive }

// slipsOfOne is how many of the slips of a round are the second loaf's: half,
// but in a 3-AFC the one that stands alone.
func slipsOfOne(m Method) int {
	if m == ThreeAFC {
		return 1
	}
	return slipsPerRound(m) / 2
}

// places names the plates of a round from left to right.
func places(m Method) []string {
	switch m.Samples() {
	case 3:
		return []string{"left", "middle", "right"}
	case 5:
		return []string{"far left", "left", "middle", "right", "far right"}
	case 4:
		return []string{"far left", "left", "right", "far right"}
	}
	return []string{"left", "right"}
}

// drawSlips draws the slips of a tasting alone. Half of each round's slips are
// one loaf's and half the other's (in a 3-AFC one and two), in an order of no
// meaning. Where they end up is shuffled by hand, and not known here.
func drawSlips(plan Plan, source *draw.Source, codes []string) ([]Serving, []side, error) {
	n := slipsPerRound(plan.Method)
	references, err := balanced(source, 1, plan.Rounds, 2) // no secret: it only takes turns
	if err != nil {
		return nil, nil, err
	}
	var servings []Serving
	var sides []side
	for round := range plan.Rounds {
		serving := Serving{Round: round, Samples: places(plan.Method), Slips: codes[:n:n]}
		if plan.Method.HasReference() {
			serving.OpenReference = 1 + references[0][round]
		}
		servings = append(servings, serving)
		codes = codes[n:]
		half := make([]side, n)
		for i := range slipsOfOne(plan.Method) {
			half[i] = 1
		}
		if err := draw.Shuffle(source, half); err != nil {
			return nil, nil, err
		}
		sides = append(sides, half...)
	}
	return servings, sides, nil
}

// matchSlips gives the loaf of each place of one round from the slips found
// under the plates, by the sealed list.
func matchSlips(slips []string, loaves []byte, found []string) []int {
	placed := make([]int, len(found))
	for i, code := range found {
		if at := slices.Index(slips, code); at >= 0 {
			placed[i] = int(loaves[at])
		}
	}
	return placed
}
