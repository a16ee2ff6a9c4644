package journal

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/say"
)

// plannedTasting puts a tasting of two fresh bakes into the journal.
func plannedTasting(t testing.TB, j *Journal, plan blind.Plan) ID {
	t.Helper()
	a, b := newBake(t, j, "one"), newBake(t, j, "two")
	plan.Loaves = [2]blind.Loaf{{ID: string(a)}, {ID: string(b)}}
	rec := &Tasting{At: j.Now(), Bakes: []ID{a, b}}
	if err := rec.SetSetting(blind.Setting{Plan: plan}); err != nil {
		t.Fatal(err)
	}
	if err := j.Do("plan a tasting", func(tx *Tx) error { return Put(tx, rec) }); err != nil {
		t.Fatal(err)
	}
	return rec.ID
}

// sealedTasting puts one into the journal that is plated and sealed.
func sealedTasting(t testing.TB, j *Journal, plan blind.Plan) ID {
	t.Helper()
	id := plannedTasting(t, j, plan)
	plating, err := j.Plate(id)
	if err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	return id
}

// unsealed unseals a tasting and gives what was sealed.
func unsealed(t testing.TB, j *Journal, id ID) blind.Opened {
	t.Helper()
	if err := j.Unseal(id, ""); err != nil {
		t.Fatal(err)
	}
	rec, err := Get[Tasting](j, id)
	if err != nil {
		t.Fatal(err)
	}
	opened, open, err := rec.Opened()
	if err != nil || !open {
		t.Fatal(open, err)
	}
	return opened
}

func triangle(rounds int, tasters ...string) blind.Plan {
	return blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Rounds: rounds, Tasters: tasters}
}

// tasteRound walks one taster through one round.
func tasteRound(s *blind.Session, taster int) error {
	step, err := s.At(taster)
	if err != nil {
		return err
	}
	for step.Phase != blind.PhaseAnswer {
		switch step.Phase {
		case blind.PhaseAllergens:
			err = s.AllergensShown(taster)
		case blind.PhaseSample:
			err = s.Tasted(taster)
		case blind.PhaseRinse:
			err = s.Rinsed(taster, false)
		}
		if err != nil {
			return err
		}
		if step, err = s.At(taster); err != nil {
			return err
		}
	}
	if err := s.Choose(taster, step.Serving.Samples[0]); err != nil {
		return err
	}
	return s.HandIn(taster)
}

func TestATastingFromPlanToVerdict(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	id := plannedTasting(t, j, triangle(1, "Ines"))
	if err := j.PlanTasting(id, "rounds", func(p *blind.Plan) { p.Rounds = 2 }); err != nil {
		t.Fatal(err)
	}
	plating, err := j.Plate(id)
	if err != nil {
		t.Fatal(err)
	}
	card, err := plating.Card()
	if err != nil {
		t.Fatal(err)
	}
	if lines, err := card.Lines(); err != nil || len(lines) != 2 || lines[0].Plates[0].LoafName == "" {
		t.Fatalf("the card reads %v, %v", lines, err)
	}
	if _, err := plating.Card(); !errors.Is(err, blind.ErrCardGiven) {
		t.Errorf("the card was given twice: %v", err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	if _, err := card.Lines(); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("the card can be read after sealing: %v", err)
	}
	if err := j.PlanTasting(id, "rounds", func(p *blind.Plan) { p.Rounds = 9 }); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("a sealed plan was changed: %v", err)
	}
	if _, err := j.Plate(id); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("it was plated twice: %v", err)
	}
	if _, err := j.Undo(); !errors.Is(err, ErrMovedOn) {
		t.Errorf("undo went back behind the seal: %v", err)
	}
	if err := j.Unseal(id, ""); !errors.Is(err, blind.ErrIncomplete) {
		t.Errorf("it was unsealed before a score was in: %v", err)
	}
	if err := j.Score(id, func(s *blind.Session) error { return tasteRound(s, 0) }); err != nil {
		t.Fatal(err)
	}
	// The program ends, and begins again, between two scores.
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	session, err := j.Session(id)
	if err != nil {
		t.Fatal(err)
	}
	if step, err := session.At(0); err != nil || step.Round != 1 || step.Phase != blind.PhaseRinse {
		t.Fatalf("it goes on at %+v, %v", step, err)
	}
	if err := j.Score(id, func(s *blind.Session) error { return tasteRound(s, 0) }); err != nil {
		t.Fatal(err)
	}
	opened := unsealed(t, j, id)
	if err := j.Correct(id, 0, 1, blind.Answer{Picks: opened.Rounds[1].Answer.Picks}, " "); !errors.Is(err, blind.ErrAnswer) {
		t.Errorf("a correction without a reason: %v", err)
	}
	if err := j.Correct(id, 0, 1, blind.Answer{Picks: []string{opened.Setting.Servings[1].Samples[2]}}, "I meant the last"); err != nil {
		t.Fatal(err)
	}
	rec, _ := Get[Tasting](j, id)
	in, err := VerdictInput(j, rec)
	if err != nil || len(in.Corrections) != 1 || in.Opened.Rounds[1].Answer.Picks[0] != opened.Rounds[1].Answer.Picks[0] {
		t.Fatalf("corrected: %+v, %v", in.Corrections, err)
	}
	if v, err := verdict.Of(in); err != nil || v.Tally.Counted != 2 {
		t.Fatalf("%+v, %v", v.Tally, err)
	}
	if err := j.Score(id, func(s *blind.Session) error { return nil }); err == nil {
		t.Error("an unsealed tasting took another score")
	}
	mustBeSound(t, j)
}

func TestAPlatingThatWasLetGoIsDrawnAfresh(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := plannedTasting(t, j, triangle(1, "Ines"))
	codes := map[string]bool{}
	for range 2 {
		plating, err := j.Plate(id)
		if err != nil {
			t.Fatal(err)
		}
		card, err := plating.Card()
		if err != nil {
			t.Fatal(err)
		}
		lines, err := card.Lines()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range lines[0].Plates {
			codes[p.Label] = true
		}
	}
	if len(codes) <= 3 {
		t.Errorf("the same codes were drawn twice: %v", codes)
	}
	if rec, _ := Get[Tasting](j, id); !rec.Sealed.IsZero() || rec.Commitment != "" {
		t.Error("it is sealed")
	}
}

func TestEndedEarlyItCanBeUnsealed(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := sealedTasting(t, j, triangle(6, "Ines"))
	if err := j.Score(id, func(s *blind.Session) error { return tasteRound(s, 0) }); err != nil {
		t.Fatal(err)
	}
	if err := j.Score(id, func(s *blind.Session) error { return s.EndEarly("the ferry left") }); err != nil {
		t.Fatal(err)
	}
	if err := j.Unseal(id, ""); err != nil {
		t.Fatal(err)
	}
	rec, _ := Get[Tasting](j, id)
	in, err := VerdictInput(j, rec)
	if err != nil || in.Opened.Progress.EndedEarly != "the ferry left" {
		t.Fatalf("%q, %v", in.Opened.Progress.EndedEarly, err)
	}
}

// A correction is of a round that was tasted, and names who tasted it, after a hand-over too.
func TestACorrectionNamesWhoTasted(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := sealedTasting(t, j, triangle(3, "Ines"))
	for _, do := range []func(*blind.Session) error{
		func(s *blind.Session) error { return tasteRound(s, 0) },
		func(s *blind.Session) error { return s.HandOver(0, "Bo") },
		func(s *blind.Session) error { return tasteRound(s, 0) },
		func(s *blind.Session) error { return s.EndEarly("the ferry left") },
	} {
		if err := j.Score(id, do); err != nil {
			t.Fatal(err)
		}
	}
	opened := unsealed(t, j, id)
	if len(opened.Rounds) != 2 {
		t.Fatalf("%d rounds", len(opened.Rounds))
	}
	answer := blind.Answer{Picks: []string{opened.Setting.Servings[2].Samples[0]}}
	if err := j.Correct(id, 0, 2, answer, "for a round that nobody tasted"); !errors.Is(err, blind.ErrAnswer) {
		t.Errorf("a round that was not tasted is corrected: %v", err)
	}
	answer.Picks = opened.Rounds[1].Answer.Picks
	if err := j.Correct(id, 0, 1, answer, "looked again"); err != nil {
		t.Fatal(err)
	}
	rec, err := Get[Tasting](j, id)
	if err != nil || rec.Additions[0].What != "round 2 of Bo" {
		t.Errorf("corrected: %+v, %v", rec.Additions, err)
	}
	in, err := VerdictInput(j, rec)
	if err != nil {
		t.Fatal(err)
	}
	v, err := verdict.Of(in)
	if err != nil || !slices.ContainsFunc(v.Cautions, func(l say.Line) bool { return strings.Contains(l.String(), "round 2 of Bo") }) {
		t.Errorf("the verdict says %v, %v", v.Cautions, err)
	}
}
