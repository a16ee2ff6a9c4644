package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// A methodTasting is a tasting of the walk through the methods.
type methodTasting struct {
	name string
	plan blind.Plan
	keys []string // that answer a round
}

// methodTastings are those that the other walks do not taste by: with a helper, of
// two tasters of whom the first declines, and alone.
func methodTastings() []methodTasting {
	both := func(m blind.Method, name string, keys ...string) methodTasting {
		return methodTasting{name, blind.Plan{Method: m, Mode: blind.WithHelper, Rounds: 1, Tasters: []string{"Ines", "Jory"}}, keys}
	}
	alone := func(m blind.Method, name string, keys ...string) methodTasting {
		t := both(m, name, keys...)
		t.plan.Mode, t.plan.Tasters = blind.Alone, []string{"Ines"}
		return t
	}
	sour, own := both(blind.ThreeAFC, "most sour", "1"), alone(blind.ThreeAFC, "most sour alone", "1")
	for _, t := range []*methodTasting{&sour, &own} {
		t.plan.Attribute, t.plan.Expected = "sour", 1
	}
	paper := both(blind.Paired, "better liked", "1")
	paper.plan.KeyOnPaper = true
	return []methodTasting{
		both(blind.DuoTrio, "like the reference", "1"), both(blind.Tetrad, "two and two", "1", "2"),
		both(blind.TwoOutOfFive, "two of five", "1", "2"), paper, sour,
		alone(blind.DuoTrio, "like the reference alone", "1"), alone(blind.Tetrad, "two and two alone", "1", "2"),
		alone(blind.TwoOutOfFive, "two of five alone", "1", "2"), alone(blind.Paired, "better liked alone", "1"), own,
	}
}

// tasteByMethods tastes by each method, with a helper and alone, from the plan to
// the verdict. With a helper the first taster declines, and nobody waits for her.
func tasteByMethods(w *walk) error {
	folder := filepath.Join(w.dir, "journal")
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	if err := bakePair(folder, at.Add(-6*time.Hour)); err != nil {
		return fmt.Errorf("baking the pair: %w", err)
	}
	all := methodTastings()
	err := inJournal(folder, func(tx *journal.Tx) error {
		bakes, err := journal.All[journal.Bake](tx)
		if err != nil {
			return err
		}
		for _, t := range all {
			_, err := journal.NewTasting(tx, journal.TastingPlan{Name: t.name, At: at, Bakes: [2]journal.ID{bakes[0].ID, bakes[1].ID}, Plan: t.plan})
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("planning: %w", err)
	}
	p := newProgram(w.screen, w.exe, w.dir, folder)
	defer func() { _ = p.kill() }()
	if err := errors.Join(p.setClock(at), p.start()); err != nil {
		return err
	}
	for _, t := range all {
		if err := p.tasteBy(t); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
	}
	return p.quit()
}

func (p *program) tasteBy(t methodTasting) error {
	picture := func(of string) gesture { return p.picture(strings.ReplaceAll(t.name, " ", "-") + "-" + of) }
	draw := "Nobody is looking"
	if t.plan.Mode == blind.Alone {
		draw = "Generate the codes"
	}
	err := p.steps(p.keys("ctrl+4"), p.seeing("Trials and tastings"), p.pressing(t.name), p.seeing("What this plan can find"), picture("plan"),
		p.keys("p"), p.pressing(draw), p.seeing("Sealing blanks the card"), picture("card"))
	if err != nil {
		return err
	}
	code := ""
	if t.plan.KeyOnPaper {
		if code, err = p.paperCode(); err != nil {
			return err
		}
	}
	err = p.steps(p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"), p.seeing("This is the fingerprint"), p.tellingNothing, picture("sealed"), p.pressing("Begin tasting"))
	if err != nil {
		return err
	}
	if t.plan.Mode == blind.WithHelper {
		err := p.steps(p.seeing("Now Ines"), p.keys("Return"), p.seeing("Before the first bite"), p.tellingNothing, picture("allergens"),
			p.pressing("I will not taste"), p.seeing("Not taste?"), p.keys("Return"), p.seeing("Now Jory"), picture("next"))
		if err != nil {
			return err
		}
	}
	if err := p.tasteOn(t, picture); err != nil {
		return err
	}
	err = p.steps(p.seeing("fingerprint of the answers"), p.tellingNothing, picture("all-in"), p.keys("Return"), p.seeing("sealed still"), p.tellingNothing, picture("sealed-still"),
		p.keys("u"), p.seeing("Unseal the tasting?"))
	if err != nil {
		return err
	}
	if code != "" {
		err = p.steps(p.typing("00000-00000"), p.keys("Return"), p.seeing("That is not the code"), picture("wrong-code"), p.keys("ctrl+a"), p.typing(code))
	}
	err = errors.Join(err, p.steps(p.keys("Return"), p.seeing("Was it a fair pair?"), picture("verdict")))
	if err == nil && t.plan.Mode == blind.WithHelper {
		err = p.see("chose not to taste")
	}
	return err
}

// tasteOn does whatever the screen asks for until every score is in.
func (p *program) tasteOn(t methodTasting, picture func(string) gesture) error {
	answered := false
	for range 60 {
		things, err := p.things()
		if err != nil {
			return err
		}
		on := func(words string) bool { _, ok := outline.Find(things, words); return ok }
		switch {
		case on("fingerprint of the answers"):
			return nil
		case on("Turn over the slips"):
			err = p.steps(p.turnEach(t.plan.Method.Samples()), picture("slips"), p.keys("Return"), p.missing("Turn over the slips"))
		case on("I cannot answer this round"):
			if !answered {
				err = p.steps(p.keys(t.keys...), picture("answer"))
				answered = true
			}
			err = errors.Join(err, p.steps(p.keys("Return"), p.missing("I cannot answer this round")))
		case on("I am "), on("I have seen it"), on("Step "), on("Now taste"), on("Skip the pause"):
			before := strings.Join(outline.Texts(things), "\n")
			err = p.keys("Return")()
			if err == nil {
				_, err = p.wait("the next step", func(things []outline.Thing) bool { return strings.Join(outline.Texts(things), "\n") != before })
			}
		default:
			return fmt.Errorf("it goes on nowhere: %q", outline.Texts(things))
		}
		if err != nil {
			return err
		}
	}
	return fmt.Errorf("it never ends")
}

// turnEach says that the slips lay in the order of their codes: the nth of the nth
// row.
func (p *program) turnEach(places int) gesture {
	return func() error {
		things, err := p.things()
		if err != nil {
			return err
		}
		var slips []outline.Thing
		for _, t := range things {
			if t.Kind == "text" && len(t.Text) == 3 && code.MatchString(t.Text) {
				slips = append(slips, t)
			}
		}
		for place := range places {
			t := slips[len(slips)/places*place+place]
			if err := p.click(t.X+t.W/2, t.Y+t.H/2); err != nil {
				return err
			}
		}
		return nil
	}
}

// paperCode reads the code on the card.
func (p *program) paperCode() (string, error) {
	things, err := p.things()
	if err != nil {
		return "", err
	}
	for _, t := range outline.Texts(things) {
		if _, c, ok := strings.Cut(t, "To unseal: "); ok {
			return strings.TrimSpace(c), nil
		}
	}
	return "", fmt.Errorf("no code is on the card: %q", outline.Texts(things))
}
