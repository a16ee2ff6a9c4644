package plan

// CountryLoaf is the day that a new plan begins with: a naturally leavened
// loaf with half-hourly turns for three hours and a night in the cold. Its
// lengths are common practice, no source, and meant to be changed.
func CountryLoaf() []Step {
	return []Step{
		{ID: "mix", Kind: Mix, Length: 15, Hands: HandsThroughout},
		{ID: "rest", Kind: Rest, Length: 30, Min: 20, Max: 60},
		{ID: "turns", Kind: Turns, Length: 180, Turns: 6, Every: 30},
		{ID: "bulk", Kind: Bulk, Length: 60, Min: 30, Max: 150},
		{ID: "shape", Kind: Divide, Length: 30, Hands: HandsThroughout},
		{ID: "cold", Kind: ColdRest, Length: 12 * 60, Min: 8 * 60, Max: 36 * 60},
		{ID: "heat", Kind: Heat, Length: 45, Hands: HandsAtStart, Note: Heat.Advice().String()},
		{ID: "covered", Kind: BakeCovered, Length: 20, Hands: HandsAtStart, Note: BakeCovered.Advice().String()},
		{ID: "uncovered", Kind: BakeUncovered, Length: 25, Hands: HandsAtStart, Note: BakeUncovered.Advice().String()},
		{ID: "cool", Kind: Cool, Length: 60, Min: 60, Max: 240, Hands: HandsAtStart},
	}
}

// LevainBuild is the step to put before a day whose levain is built for it:
// eight hours at room temperature, six to twelve (common practice, no source).
func LevainBuild() Step {
	return Step{ID: "levain", Kind: Levain, Length: 8 * 60, Min: 6 * 60, Max: 12 * 60, Hands: HandsAtStart}
}

// Shaping are the steps around the shaping that a day may have besides: dividing and
// shaping loosely, a rest on the bench, and a final proof in the warm (lengths: common
// practice, no source).
func Shaping() []Step {
	return []Step{
		{ID: "pre-shape", Kind: PreShape, Length: 10, Hands: HandsThroughout},
		{ID: "bench", Kind: BenchRest, Length: 20, Min: 15, Max: 40},
		{ID: "proof", Kind: Proof, Length: 120, Min: 60, Max: 240},
	}
}

// UsualHands says when a step of that kind usually needs the baker. A kind of
// the baker's own needs hands when it begins.
func UsualHands(k Kind) Hands {
	switch k {
	case Mix, PreShape, Divide:
		return HandsThroughout
	case Rest, Turns, Bulk, BenchRest, Proof, ColdRest:
		return HandsOff
	}
	return HandsAtStart
}
