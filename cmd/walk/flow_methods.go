package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/paper/papertest"
)

// A methodTasting is a tasting of the walk through the methods.
type methodTasting struct {
	name string
	plan blind.Plan
	ask  []string // what is pressed on the plan's page for the question and the method
	keys []string // that answer a round
	// papers is up for the one whose card, sheets and verdict are printed.
	papers bool
}

// methodTastings are those that the other walks do not taste by: with a helper, of
// two tasters of whom the first declines, and alone. The triangle is in walks of its
// own, and so are scores with a helper.
func methodTastings() []methodTasting {
	of := func(mode blind.Mode, name string, m blind.Method, ask []string, keys ...string) methodTasting {
		t := methodTasting{name: name, plan: blind.Plan{Method: m, Mode: mode, Rounds: 1, Tasters: []string{"Ines", "Jory"}}, ask: ask, keys: keys}
		if mode == blind.Alone {
			t.name, t.plan.Tasters = name+" alone", t.plan.Tasters[:1]
		}
		if m == blind.ThreeAFC {
			t.plan.Attribute, t.plan.Expected = "sour", 1
		}
		return t
	}
	var all []methodTasting
	for _, mode := range []blind.Mode{blind.WithHelper, blind.Alone} {
		all = append(all,
			of(mode, "like the reference", blind.DuoTrio, []string{"Duo-trio"}, "1"),
			of(mode, "two and two", blind.Tetrad, []string{"Tetrad"}, "1", "2"),
			of(mode, "two of five", blind.TwoOutOfFive, []string{"Two-out-of-five"}, "1", "2"),
			of(mode, "better liked", blind.Paired, []string{"Which is liked better?"}, "1"),
			of(mode, "most sour", blind.ThreeAFC, []string{"Which has more of something?", "3-AFC"}, "1"))
	}
	all = append(all, of(blind.Alone, "how each scores", blind.Scaling, []string{"How does each score?"}))
	all[0].papers = true
	for i := range all {
		all[i].plan.KeyOnPaper = all[i].name == "better liked"
	}
	return all
}

// tasteByMethods bakes a fair pair and tastes it by each method, with a helper and
// alone, from the plan to the verdict, all in the window. With a helper the first
// taster declines, and nobody waits for her.
func tasteByMethods(w *walk) {
	p, folder := w.program()
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	changeJournal(folder, func(tx *journal.Tx) error { _, _, err := larder(tx, at); return err })
	p.home = filepath.Join(w.dir, "home")
	check(os.Mkdir(p.home, 0o755))
	p.setClock(at)
	p.start()
	p.beginTrial()
	all := methodTastings()
	for _, t := range all {
		doing(t.name, func() {
			p.planBy(t)
			p.tasteBy(t)
		})
	}
	p.quit()
	tastedBy(folder, all)
	p.papersTell(folder, all[0].name)
}

// The papers that the first tasting is printed on.
const (
	cardPaper    = "plating card.pdf"
	sheetsPaper  = "score sheets.pdf"
	verdictPaper = "like the reference.pdf"
)

// printing presses a button that saves a paper in the home folder.
func (p *program) printing(button, name string) gesture {
	return func() {
		p.steps(p.pressing(button), p.pressing(name), p.keys("Return"), p.seeing("Saved as "+filepath.Join(p.home, name)), p.picture("printed"))
	}
}

// papersTell looks that the card names both loaves and the score sheets none, and that
// sheets and verdict bear both fingerprints.
func (p *program) papersTell(folder, name string) {
	tastings := records[journal.Tasting](folder)
	i := slices.IndexFunc(tastings, func(t *journal.Tasting) bool { return t.Name == name })
	failIf(i < 0, "%s is not there", name)
	for paper, wants := range map[string][]string{
		cardPaper: twoCultures, sheetsPaper: {tastings[i].Commitment, tastings[i].Answered}, verdictPaper: {tastings[i].Commitment, tastings[i].Answered, twoCultures[0]},
	} {
		b := must(os.ReadFile(filepath.Join(p.home, paper)))
		text := strings.Join(strings.Fields(papertest.Text(b)), "")
		for _, want := range wants {
			failIf(!strings.Contains(text, want), "%s does not say %q: %q", paper, want, text)
		}
		failIf(paper == sheetsPaper && (strings.Contains(text, twoCultures[0]) || strings.Contains(text, twoCultures[1])), "the score sheets of a sealed tasting name a loaf: %q", text)
	}
}

// planBy plans a tasting of the pair.
func (p *program) planBy(t methodTasting) {
	p.steps(p.keys("ctrl+4"), p.seeing("Two cultures"), p.pressing("Two cultures"), p.seeing("Move to the bin"), p.keys("t"),
		p.seeing("What this plan can find"), p.pressing("what you will call it"), p.typing(t.name))
	for _, words := range t.ask {
		p.steps(p.pressing(words), p.caughtUp)
	}
	if t.plan.Mode == blind.Alone {
		p.steps(p.pressing("the taster, alone"), p.caughtUp)
	}
	p.steps(p.pressing("a name"), p.typing(strings.Join(t.plan.Tasters, ", ")), p.keys("Return"), p.missing("nobody yet"),
		p.scrolling(8), // all of the field comes into sight
		p.missing("nobody yet"), p.fillingIn("How many rounds each?"), p.keys("ctrl+a"), p.typing(fmt.Sprint(t.plan.Rounds)), p.keys("Tab"))
	if t.plan.KeyOnPaper {
		p.steps(p.pressing("on the helper's paper"), p.caughtUp)
	}
}

// tastedBy looks that every tasting was planned by its method and is open.
func tastedBy(folder string, all []methodTasting) {
	tastings := records[journal.Tasting](folder)
	kept := map[string]blind.Plan{}
	for _, t := range tastings {
		o, open, err := t.Opened()
		failIf(err != nil || !open, "%s is not open: %w", t.Name, err)
		kept[t.Name] = o.Setting.Plan
	}
	for _, t := range all {
		got, want := kept[t.name], t.plan
		failIf(got.Method != want.Method || got.Mode != want.Mode || got.Rounds != want.Rounds || !slices.Equal(got.Tasters, want.Tasters) || got.Attribute != want.Attribute || got.Expected != want.Expected,
			"%s was planned as %+v", t.name, got)
	}
}

func (p *program) tasteBy(t methodTasting) {
	picture := func(of string) gesture { return p.picture(strings.ReplaceAll(t.name, " ", "-") + "-" + of) }
	draw := "Nobody is looking"
	if t.plan.Mode == blind.Alone {
		draw = "Generate the codes"
	}
	p.steps(picture("plan"), p.scrolling(-20), p.pressing("Plate it"),
		p.seeing(fmt.Sprintf(" · %d round", t.plan.Rounds)), p.pressing(draw), p.seeing("Sealing blanks the card"), picture("card"))
	if t.papers {
		p.printing("Print the card", cardPaper)()
	}
	code := ""
	if t.plan.KeyOnPaper {
		code = p.paperCode()
	}
	p.steps(p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"), p.seeing("This is the fingerprint"), p.tellingNothing, picture("sealed"), p.pressing("Begin tasting"), p.missing("This is the fingerprint"))
	if t.plan.Mode == blind.WithHelper {
		p.steps(p.seeing("Now Ines"), p.keys("Return"), p.seeing("Before the first bite"), p.tellingNothing, picture("allergens"),
			p.pressing("I will not taste"), p.seeing("Not taste?"), p.keys("Return"), p.seeing("Now Jory"), picture("next"))
	}
	p.tasteOn(t, picture)
	p.steps(p.seeing("fingerprint of the answers"), p.tellingNothing, picture("all-in"), p.keys("Return"), p.seeing("sealed still"), p.tellingNothing, picture("sealed-still"))
	if t.papers {
		p.printing("Print the filled sheets", sheetsPaper)()
	}
	p.steps(p.keys("u"), p.seeing("Unseal the tasting?"))
	if code != "" {
		p.steps(p.typing("00000-00000"), p.keys("Return"), p.seeing("That is not the code"), picture("wrong-code"), p.keys("ctrl+a"), p.typing(code))
	}
	p.steps(p.keys("Return"), p.seeing("Was it a fair pair?"), picture("verdict"))
	if t.plan.Mode == blind.WithHelper {
		p.see("chose not to taste")
	}
	if t.papers {
		p.steps(p.keys("p"), p.pressing(verdictPaper), p.keys("Return"), p.seeing("Saved as "+filepath.Join(p.home, verdictPaper)))
	}
}

// tasteOn does whatever the screen asks for until every score is in.
func (p *program) tasteOn(t methodTasting, picture func(string) gesture) {
	answered := false
	for range 60 {
		things := p.things()
		on := func(words string) bool { _, ok := outline.Find(things, words); return ok }
		switch {
		case on("fingerprint of the answers"):
			return
		case on("Turn over the slips"):
			p.steps(p.turnEach(t.plan.Method.Samples()), picture("slips"), p.keys("Return"), p.missing("Turn over the slips"))
		case on("I cannot answer this round"):
			if !answered {
				p.steps(p.keys(t.keys...), picture("answer"))
				answered = true
			}
			p.steps(p.keys("Return"), p.missing("I cannot answer this round"))
		case t.plan.Method == blind.Scaling && on("Now taste"):
			p.steps(p.scoring(given), picture("scored"))
			if on("Done, and rinse") {
				p.steps(p.pressing("Done, and rinse"), p.skipRinse)
			} else {
				p.steps(p.pressing("Done"), p.missing("Now taste"))
			}
		case on("I am "), on("I have seen it"), on("Step "), on("Now taste"), on("Skip the pause"):
			before := strings.Join(outline.Texts(things), "\n")
			p.keys("Return")()
			p.wait("the next step", func(things []outline.Thing) bool { return strings.Join(outline.Texts(things), "\n") != before })
		default:
			panic(fmt.Errorf("it goes on nowhere: %q", outline.Texts(things)))
		}
	}
	panic(fmt.Errorf("it never ends"))
}

// turnEach says that the slips lay in the order of their codes: the nth of the nth
// row.
func (p *program) turnEach(places int) gesture {
	return func() {
		slips := slices.DeleteFunc(p.things(), func(t outline.Thing) bool { return t.Kind != "text" || len(t.Text) != 3 || !code.MatchString(t.Text) })
		failIf(len(slips) < places*places, "%d slips are offered for %d places", len(slips), places)
		for place := range places {
			t := slips[len(slips)/places*place+place]
			p.clickOn(t)
		}
	}
}

// paperCode reads the code on the card.
func (p *program) paperCode() string {
	texts := p.texts()
	for _, t := range texts {
		if _, c, ok := strings.Cut(t, "To unseal: "); ok {
			return strings.TrimSpace(c)
		}
	}
	panic(fmt.Errorf("no code is on the card: %q", texts))
}
