package blind

import "twinloaf/journal/say"

// GuideStep is one thing to do while plating, told one at a time.
type GuideStep struct {
	Title say.Line
	Words say.Line
	// EyesShut marks what is done with the eyes shut.
	EyesShut bool
	// EachRound marks a step that comes again in every round; the others come
	// once.
	EachRound bool
}

// Guide tells how to plate a plan so that nobody knows too much, step by step.
// Common practice after ISO 6658 in general terms; the way to blind oneself
// alone is our own.
func Guide(plan Plan) []GuideStep {
	if plan.Mode == Alone {
		return aloneGuide(plan.Method)
	}
	return helperGuide(plan.Method)
}

func helperGuide(m Method) []GuideStep {
	steps := []GuideStep{
		{Title: say.Of("One person helps and does not taste"), Words: say.Of("The helper alone sees the plating card. Everybody else leaves the room or looks away until the plates are set out.")},
		{Title: say.Of("Cut alike"), Words: say.Of("Let both loaves cool to the same temperature. Cut pieces of one size from the same part of each loaf, crust on all or on none. Put them under a cover at once.")},
		{Title: say.Of("Mark the plates"), Words: say.Of("Write each three-digit code of the card on its own plate, all with the same pen. Use plates that are all alike.")},
		{Title: say.Of("Fill by the card"), Words: say.Of("Put the loaf that the card names on each plate, round by round, and set the plates out in the card's order from left to right.")},
	}
	if m.HasReference() {
		steps = append(steps, GuideStep{Title: say.Of("Set out the reference"), Words: say.Of("The plate marked R comes first in each round. The card says which loaf it is; tell nobody.")})
	}
	return append(steps,
		GuideStep{Title: say.Of("Seal"), Words: say.Of("Press “Seal”. The card goes blank and cannot be called back. Throw a printed card away, or fold it into an envelope until the end.")},
		GuideStep{Title: say.Of("Keep a straight face"), Words: say.Of("If possible the helper neither serves nor watches: a glance can give a loaf away.")})
}

func aloneGuide(m Method) []GuideStep {
	n, one := slipsPerRound(m), slipsOfOne(m)
	lay := say.Of("Set out {{.Plates}} plates that are all alike. Put this round's slips under them, one each, and on each plate the loaf that the list names for its slip: {{.Half}} of one loaf and {{.Half}} of the other. Cover each with a cup or bowl, all alike.", say.With{"Plates": n, "Half": one})
	if one != n-one {
		lay = say.Of("Set out {{.Plates}} plates that are all alike. Put this round's slips under them, one each, and on each plate the loaf that the list names for its slip: {{.One}} of one loaf and {{.Others}} of the other. Cover each with a cup or bowl, all alike.", say.With{"Plates": n, "One": one, "Others": n - one})
	}
	steps := []GuideStep{
		{Title: say.Of("What this does"), Words: say.Of("You fill the plates yourself, and then shuffle them so that you cannot know which is where. The program does not know either: it learns that from the slips, after your last score.")},
		{Title: say.Of("Cut alike"), Words: say.Of("Let both loaves cool to the same temperature. Cut pieces of one size from the same part of each loaf. If crumb or crust look different, taste with the eyes shut, and cut the crust off.")},
		{Title: say.Of("Write the slips"), Words: say.Of("Copy each code of the list on its own slip of paper, all of one size, and fold each twice so that nothing shows through.")},
		{Title: say.Of("Lay out plates"), EachRound: true, Words: lay},
	}
	if m.HasReference() {
		steps = append(steps, GuideStep{Title: say.Of("Set the reference apart"), EachRound: true, Words: say.Of("Put the reference loaf that the list names on a plate marked R, well away from the others. You may know which loaf it is; the chance of guessing the match stays one in two.")})
	}
	steps = append(steps,
		GuideStep{Title: say.Of("Shuffle"), EachRound: true, EyesShut: true, Words: say.Of("Shut your eyes. Slide the covered plates round one another with both hands for half a minute, without counting, slips and all. Stop, walk once around the table or turn the tray a few times, and slide again for half a minute.")})
	if putsOneAway(m) {
		steps = append(steps, GuideStep{Title: say.Of("Put one away"), EachRound: true, EyesShut: true, Words: say.Of("Eyes still shut, push whichever plate your hand finds first out of reach, cover, slip and all. Do not look under it before the end. One bread is now on one plate fewer than the other, and nobody knows which bread that is.")})
	}
	return append(steps,
		GuideStep{Title: say.Of("Line them up"), EachRound: true, EyesShut: true, Words: say.Of("Eyes still shut, push the plates into a row. Open your eyes and lift the covers. From now on a plate is called by its place.")},
		GuideStep{Title: say.Of("Taste and score"), EachRound: true, Words: say.Of("Taste from left to right and enter what you find by place. Do not lift a plate.")},
		GuideStep{Title: say.Of("Keep the slips, unread"), EachRound: true, Words: say.Of("When the round is handed in, slide each folded slip out without opening it and put it in an envelope or cup marked with the round and the place. Then lay out the next round.")},
		GuideStep{Title: say.Of("Turn over"), Words: say.Of("After the last score, open the slips and enter the code of each place, round by round.")})
}

// SealGuide tells how to check the fingerprints of a tasting with standard tools,
// from the texts that an unsealed tasting exports.
func SealGuide() []say.Line {
	return []say.Line{
		say.Of("Photograph the fingerprint that the sealing shows and the one that is shown when the last answer is in, or print the filled score sheets, which bear both. After unsealing, save seal.txt and answers.txt and run sha256sum on each: if it prints those digits, neither plan nor answers were changed."),
		say.Of("Linux: sha256sum seal.txt. macOS: shasum -a 256 seal.txt. Windows: certutil -hashfile seal.txt SHA256."),
		say.Of("The text that was sealed ends in a random number, so that nobody can find it from its fingerprint by trying. In the answers each entry follows the fingerprint of all that stands above it."),
	}
}
