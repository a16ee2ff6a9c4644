package demo

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// crew are those who taste.
var crew = []string{"Ailsa", "Bram", "Catrin", "Davit", "Ewan", "Freya"}

// rngReader is a fixed source of random bytes.
func (s *story) rngReader() *rand.ChaCha8 {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], s.seed^s.rng.Uint64())
	return rand.NewChaCha8(key)
}

// loaf is a bake as a tasting knows it.
func loaf(b *journal.Bake) blind.Loaf {
	out := blind.Loaf{ID: string(b.ID), Name: b.Name}
	for _, a := range b.Dough().Allergens().Found {
		out.Allergens = append(out.Allergens, string(a.Allergen))
	}
	return out
}

// tasting tells the triangle tasting of the trial: plated by a helper, scored
// by six of the crew in three rounds each, and unsealed.
func (s *story) tasting(t *journal.Trial) {
	at := s.day(trialBaked, 18.5)
	rec := &journal.Tasting{
		Head: journal.Head{ID: s.id(at)}, Name: "Harbour or Gorse?", At: at, Trial: t.ID, Sealed: at.Add(-20 * time.Minute),
		Unsealed: at.Add(55 * time.Minute), Notes: "After supper in the mess. The purser plated.",
	}
	var loaves [2]blind.Loaf
	for i, b := range s.trialBakes {
		rec.Bakes = append(rec.Bakes, b.ID)
		loaves[i] = loaf(b)
	}
	sealed, setting, odd, err := s.plate(blind.Plan{
		Method: blind.Triangle, Mode: blind.WithHelper, Loaves: loaves, Tasters: crew, Rounds: 3,
	})
	if err == nil {
		err = rec.SetSetting(setting)
	}
	if err == nil {
		err = journal.KeepSealed(s.tx, rec.ID, sealed)
	}
	if err == nil {
		err = s.taste(rec, sealed, setting, odd)
	}
	if err != nil {
		s.fail(fmt.Errorf("telling the tasting: %w", err))
	}
	put(s, at, rec)
}

// plate draws and seals a tasting, and looks at the helper's card to learn the
// odd sample of every serving, so that the story can decide who finds it.
func (s *story) plate(plan blind.Plan) (sealed blind.Sealed, setting blind.Setting, odd map[[2]int]string, err error) {
	draft, err := blind.Draw(plan, s.rngReader())
	if err != nil {
		return sealed, setting, nil, err
	}
	card, err := draft.Card()
	if err != nil {
		return sealed, setting, nil, err
	}
	lines, err := card.Lines()
	if err != nil {
		return sealed, setting, nil, err
	}
	odd = map[[2]int]string{}
	for _, l := range lines {
		odd[[2]int{l.Taster, l.Round}] = oddOf(l.Plates)
	}
	sealed, setting, err = draft.Seal()
	return sealed, setting, odd, err
}

// oddOf is the label of the plate whose loaf stands alone.
func oddOf(plates []blind.CardPlate) string {
	for _, p := range plates {
		alone := true
		for _, q := range plates {
			alone = alone && (q.Label == p.Label || q.Loaf != p.Loaf)
		}
		if alone {
			return p.Label
		}
	}
	return ""
}

// rightOnes are the servings of the triangle in which the odd sample is found:
// by taster, how many of the three rounds. Twelve of eighteen in all.
var rightOnes = []int{3, 2, 1, 3, 1, 2}

// taste walks every taster through every round and unseals.
func (s *story) taste(rec *journal.Tasting, sealed blind.Sealed, setting blind.Setting, odd map[[2]int]string) error {
	session := blind.Begin(setting)
	for taster := range setting.Plan.Tasters {
		if err := session.AllergensShown(taster); err != nil {
			return err
		}
		for round := range setting.Plan.Rounds {
			serving, _ := setting.Serving(taster, round)
			choice := odd[[2]int{taster, round}]
			if round >= rightOnes[taster] {
				choice = other(serving.Samples, choice)
			}
			if err := s.tasteRound(session, taster, choice); err != nil {
				return fmt.Errorf("taster %d, round %d: %w", taster+1, round+1, err)
			}
		}
	}
	proof, err := session.Finish()
	if err != nil {
		return err
	}
	opened, err := sealed.Unseal(proof)
	if err != nil {
		return err
	}
	if err := rec.SetProgress(session.Progress()); err != nil {
		return err
	}
	return rec.SetOpened(opened)
}

func other(labels []string, than string) string {
	for _, l := range labels {
		if l != than {
			return l
		}
	}
	return ""
}

func (s *story) tasteRound(session *blind.Session, taster int, choice string) error {
	for {
		now, err := session.At(taster)
		if err != nil {
			return err
		}
		if now.Phase == blind.PhaseAnswer {
			break
		}
		if now.Phase == blind.PhaseRinse {
			err = session.Rinsed(taster, s.rng.IntN(14) == 0)
		} else {
			err = session.Tasted(taster)
		}
		if err != nil {
			return err
		}
	}
	if words := pick(s, "", "", "", "sharper at the end", "hard to say", "softer crust"); words != "" {
		if err := session.Remark(taster, words); err != nil {
			return err
		}
	}
	if err := session.Choose(taster, choice); err != nil {
		return err
	}
	return session.HandIn(taster)
}

// plannedTasting is for the next trial: nothing has been drawn yet.
func (s *story) plannedTasting(t *journal.Trial, bakes [2]*journal.Bake) {
	made := s.now.Add(-20 * time.Hour)
	rec := &journal.Tasting{Head: journal.Head{ID: s.id(made)}, Name: "A night or a day?", At: s.day(-4, 18.5), Trial: t.ID}
	plan := blind.Plan{Method: blind.Paired, Mode: blind.WithHelper, Tasters: crew, Rounds: 2}
	for i, b := range bakes {
		rec.Bakes = append(rec.Bakes, b.ID)
		plan.Loaves[i] = loaf(b)
	}
	if err := rec.SetSetting(blind.Setting{Plan: plan}); err != nil {
		s.fail(err)
	}
	put(s, made, rec)
}
