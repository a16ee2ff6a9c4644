package main

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
)

// twoCultures are what the loaves of a tasting differ in.
var twoCultures = []string{"Harbour", "Gorse"}

// galley is what the tasting is called.
const galley = "In the galley"

// tasteRounds is how many rounds of a triangle the walk tastes.
const tasteRounds = 3

// tasteBlind begins a trial of two loaves, plans a triangle of them, plates and
// seals it, tastes it with the plug pulled twice on the way, and unseals it.
func tasteBlind(w *walk) {
	p, folder := w.program()
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	changeJournal(folder, func(tx *journal.Tx) error { _, _, err := larder(tx, at); return err })
	p.setClock(at)
	p.start()
	p.beginTrial()
	seal := p.sealTrial(tasteRounds)
	for round := range tasteRounds {
		doing(fmt.Sprintf("round %d", round+1), func() { p.tasteRound(round) })
	}
	p.steps(
		p.unseal, p.keys("s"), p.seeing("fit the fingerprints"), p.picture("seal-checked"),
		p.keys("Escape"), p.missing("fit the fingerprints"),
	)
	p.quit()
	checkTriangle(folder, seal)
}

// sealTrial plans a tasting of the pair's trial with one taster, a helper and so
// many rounds, has it plated and sealed, and goes on to the first sample. It
// gives the seal that was shown. Choices are made on the plan's page first.
func (p *program) sealTrial(rounds int, choices ...gesture) string {
	p.steps(
		p.keys("ctrl+4"),
		p.seeing("Two cultures"), p.picture("list"), p.pressing("Two cultures"),
		p.seeing("Move to the bin"), p.picture("trial"), p.keys("t"),
		p.seeing("What this plan can find"),
	)
	p.steps(choices...)
	p.steps(
		p.pressing("what you will call it"), p.typing(galley),
		p.pressing("a name"), p.typing("Ines"), p.keys("Return"),
		p.missing("nobody yet"), p.fillingIn("How many rounds each?"), p.keys("ctrl+a"), p.typing(fmt.Sprint(rounds)), p.keys("Tab"),
		p.missing("Nobody tastes"), p.missing("6 rounds will show"), // what the plan can find follows it
		p.picture("plan"),
		p.pressing("Plate it"),
		p.seeing(fmt.Sprintf("1 taster · %d round", rounds)),
		p.seeing("Tasters, look away"), p.tellingNothing, p.picture("look-away"),
		p.pressing("Nobody is looking"),
		p.seeing("For the helper alone"), p.seeing("Gorse"), p.picture("card"),
		p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"),
		p.seeing("This is the fingerprint"), p.tellingNothing, p.picture("sealed"),
	)
	seal := p.fingerprint()
	p.steps(
		p.pressing("Begin tasting"),
		p.seeing("Before the first bite"), p.seeing("sesame"), p.tellingNothing, p.picture("allergens"),
		p.keys("Return"),
	)
	return seal
}

// beginTrial begins a trial of two cultures from a formula and sees what was
// drawn.
func (p *program) beginTrial() {
	p.steps(
		p.keys("ctrl+4"), p.seeing("Nothing tasted blind yet"), p.picture("nothing-yet"), p.keys("n"),
		p.seeing("Two loaves, one difference"), p.seeing("Choose the formula or bake"),
		p.pressing("a formula or a bake"), p.typing("ferry"), p.seeing("Ferry loaf, formula"), p.keys("Down", "Return"),
		p.seeing("Say what each of them has"),
		p.pressing("a culture"), p.typing("harb"), p.seeing("Harbour"), p.keys("Down", "Return", "Tab"),
		p.typing("gor"), p.seeing("Gorse"), p.keys("Down", "Return"),
		p.missing("Say what each of them has"), p.picture("one-difference"), p.pressing("Randomise and start"),
		p.seeing("Drawn by lot"), p.seeing("Harbour against Gorse"), p.picture("lots"),
		p.fillingIn("Name"), p.keys("ctrl+a"), p.typing("Two cultures"), p.keys("Tab"), p.seeing("Two cultures"),
	)
}

// larder puts two cultures and a formula into a journal.
func larder(tx *journal.Tx, at time.Time) (cultures []journal.ID, from journal.Ref, err error) {
	for _, name := range twoCultures {
		c := &journal.Culture{Name: name, Born: at.AddDate(0, -3, 0), Flours: []journal.FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}
		if err := journal.Put(tx, c); err != nil {
			return nil, from, err
		}
		cultures = append(cultures, c.ID)
	}
	f := &journal.Formula{Name: "Ferry loaf", Loaves: 1, Ingredients: []journal.Ingredient{
		{ID: "1", Name: "Wheat flour", Role: formula.Flour, Grams: 450}, {ID: "2", Name: "Water", Role: formula.Water, Grams: 340},
		{ID: "3", Name: "Salt", Role: formula.Salt, Grams: 10}, {ID: "4", Name: "Culture", Role: formula.Culture, Grams: 90},
		{ID: "5", Name: "Sesame seeds", Role: formula.Seeds, Grams: 30},
	}}
	if err := journal.NewFormula(tx, f); err != nil {
		return nil, from, err
	}
	return cultures, journal.RefOf(f), nil
}

// bakePair puts two loaves into a journal that are alike but for their culture.
func bakePair(folder string, at time.Time) {
	changeJournal(folder, func(tx *journal.Tx) error {
		cultures, from, err := larder(tx, at)
		if err != nil {
			return err
		}
		trial, err := journal.NewTrial(tx, journal.TrialPlan{
			From: from, Name: "Two cultures", Varied: journal.VaryCulture, Values: twoCultures, Cultures: cultures,
			Marks: []string{"ring", "cross"}, At: at,
		})
		if err != nil {
			return err
		}
		for _, arm := range trial.Arms {
			err := journal.Change(tx, arm.Bake, func(b *journal.Bake) { b.State, b.Ready = journal.Finished, at.Add(4*time.Hour) })
			if err != nil {
				return err
			}
		}
		return nil
	})
}

// unseal unseals a tasting after its last score, and sees its verdict.
func (p *program) unseal() {
	p.steps(
		p.seeing("Every score is in"), p.tellingNothing, p.picture("all-in"), p.keys("Return"),
		p.seeing("sealed still"), p.tellingNothing, p.picture("still-sealed"),
		p.keys("u"), p.seeing("Unseal the tasting?"), p.keys("Return"),
		p.seeing("Was it a fair pair?"), p.seeing("Gorse"), p.picture("verdict"),
	)
}

// tasteRound tastes the three samples of a round and answers. In the first
// round the plug is pulled in the pause after the first sample, in the second
// round while the second sample is in hand.
func (p *program) tasteRound(round int) {
	if round > 0 {
		p.skipRinse()
	}
	for sample := range 3 {
		p.steps(p.seeing("Now taste"), p.seeing(fmt.Sprintf("Round %d of %d", round+1, tasteRounds)), p.seeing("sesame"), p.tellingNothing)
		if round == 1 && sample == 1 {
			p.crash(fmt.Sprintf("1 of %d", tasteRounds), inHand)
		}
		p.steps(p.picture(fmt.Sprintf("round-%d-sample-%d", round+1, sample+1)), p.keys("Return"))
		if sample == 2 {
			break
		}
		if round == 0 && sample == 0 {
			p.see("Rinse")
			p.picture("rinse")()
			p.crash(fmt.Sprintf("0 of %d", tasteRounds), next)
		}
		p.skipRinse()
	}
	p.steps(
		p.seeing("Which one differs?"), p.tellingNothing, p.keys("2"),
		p.picture(fmt.Sprintf("round-%d-answer", round+1)), p.keys("Return"),
		p.missing("Which one differs?"),
	)
}

// skipRinse cuts the pause between two samples short.
func (p *program) skipRinse() {
	p.steps(p.seeing("Skip the pause"), p.tellingNothing, p.keys("Return"), p.missing("Skip the pause"))
}

// inHand reads the code that is being tasted, next the one after the pause.
func inHand(things []outline.Thing) string { return codeAfter(things, "Now taste") }
func next(things []outline.Thing) string   { return codeAfter(things, "Next: ") }

var code = regexp.MustCompile(`\b\d{3}\b`)

// codeAfter gives the first code in or after the text that holds words.
func codeAfter(things []outline.Thing, words string) string {
	texts := outline.Texts(things)
	for i, t := range texts {
		if strings.Contains(t, words) {
			return code.FindString(strings.Join(texts[i:], "\n"))
		}
	}
	return ""
}

// crash pulls the plug and goes on tasting, which must be where it was left.
func (p *program) crash(in string, where func([]outline.Thing) string) {
	things := p.things()
	was := where(things)
	failIf(was == "", "no code is shown: %q", outline.Texts(things))
	p.tasteAgain(in + " rounds are in")
	p.wait("sample "+was, func(things []outline.Thing) bool { return where(things) == was })
}

// tasteAgain kills the program, starts it again, finds the sealed tasting in a
// state, and goes on with it.
func (p *program) tasteAgain(state string) {
	p.kill()
	p.start()
	p.steps(
		p.keys("ctrl+4"), p.seeing("waits to be tasted"), p.picture("list-again"),
		p.pressing(galley), p.seeing(state), p.tellingNothing, p.picture("started-again"),
		p.keys("t"),
	)
}

// tellingNothing looks that neither the window nor its title names a loaf or
// what the loaves differ in, nor the title a code.
func (p *program) tellingNothing() {
	title := p.ask("getwindowname", p.window)
	failIf(code.MatchString(title), "the window is called %q", title)
	for _, text := range append(p.texts(), title) {
		for _, word := range append([]string{"Ferry loaf"}, twoCultures...) {
			failIf(strings.Contains(text, word), "the sealed tasting tells %q: %q", word, text)
		}
	}
}

// fingerprint reads the digits of the seal, which are drawn one by one.
func (p *program) fingerprint() string {
	var digits strings.Builder
	for _, t := range p.texts() {
		if len(t) == 1 && strings.Contains("0123456789abcdef", t) {
			digits.WriteString(t)
		}
	}
	failIf(digits.Len() != 64, "the fingerprint shown is %q", digits.String())
	return digits.String()
}

// unsealed opens the journal's one tasting: every round is in, and the seal that
// was shown is that of the text that the unsealing gave out.
func unsealed(folder, seal string) blind.Opened {
	t := only[journal.Tasting](folder)
	opened, known, err := t.Opened()
	check(err)
	failIf(!known || len(opened.Rounds) != opened.Setting.Plan.Answers(), "%d rounds are in", len(opened.Rounds))
	failIf(t.Commitment != seal || !blind.Verifies(opened.Text, seal), "the seal shown was %s, the one kept %s", seal, t.Commitment)
	return opened
}

// checkTriangle looks that every round was kept as it was answered.
func checkTriangle(folder, seal string) {
	opened := unsealed(folder, seal)
	failIf(len(opened.Rounds) != tasteRounds, "%d rounds were planned", len(opened.Rounds))
	for i, r := range opened.Rounds {
		failIf(len(r.Answer.Picks) != 1 || r.Answer.Picks[0] != r.Plates[1].Label || r.Answer.SkippedRinses == 0, "round %d was answered %+v", i+1, r.Answer)
	}
}
