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

// planTasting plans the triangle tasting of the trial.
func (s *story) planTasting(t *journal.Trial) {
	at := s.day(trialBaked, 18.5)
	rec := &journal.Tasting{
		Head: journal.Head{ID: s.id(at)}, Name: "Harbour or Gorse?", At: at, Trial: t.ID,
		Notes: "After supper in the mess. The purser plated.",
	}
	plan := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Tasters: crew, Rounds: 3}
	s.loaves(rec, plan, s.trialBakes)
	put(s, at, rec)
	s.tastingID = rec.ID
}

// tasting tells how the triangle went: six of the crew tasted three rounds each,
// and were right in twelve of eighteen.
func (s *story) tasting() error {
	return s.hold(s.tastingID, s.day(trialBaked, 18.5), []int{3, 2, 1, 3, 1, 2})
}

// secondTasting tells of the rest of the two loaves, tasted the evening after in
// the same way by those who were off watch: the two add up.
func (s *story) secondTasting() error {
	at := s.day(trialBaked-1, 18.5)
	first, err := journal.Get[journal.Tasting](s.j, s.tastingID)
	if err != nil {
		return err
	}
	setting, err := first.Setting()
	if err != nil {
		return err
	}
	plan := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Loaves: setting.Plan.Loaves, Tasters: []string{"Ailsa", "Davit", "Gwen"}, Rounds: 2}
	rec := &journal.Tasting{
		Head: journal.Head{ID: s.id(at)}, Name: "Once more, a day old", At: at, Trial: first.Trial, Bakes: first.Bakes,
		Notes: "What was left of both loaves. Planned beforehand: whatever comes out is added up.",
	}
	if err := rec.SetSetting(blind.Setting{Plan: plan}); err != nil {
		return err
	}
	if err := s.write("second tasting", func() { put(s, at, rec) }); err != nil {
		return err
	}
	return s.hold(rec.ID, at, []int{2, 1, 1})
}

// hold tells how a triangle was plated and sealed, scored and unsealed; right
// says in how many of the rounds each taster found the odd sample.
func (s *story) hold(id journal.ID, at time.Time, right []int) error {
	s.clock = at.Add(-20 * time.Minute)
	plating, err := s.j.Plate(id)
	if err != nil {
		return err
	}
	odd, err := oddOnes(plating)
	if err != nil {
		return err
	}
	if err := plating.Seal(); err != nil {
		return err
	}
	s.clock = at.Add(50 * time.Minute)
	if err := s.j.Score(id, func(session *blind.Session) error { return s.taste(session, odd, right) }); err != nil {
		return err
	}
	s.clock = at.Add(55 * time.Minute)
	return s.j.Unseal(id, "")
}

// oddOnes looks at the helper's card to learn the odd sample of every serving,
// so that the story can decide who finds it.
func oddOnes(plating *journal.Plating) (map[[2]int]string, error) {
	card, err := plating.Card()
	if err != nil {
		return nil, err
	}
	lines, err := card.Lines()
	if err != nil {
		return nil, err
	}
	odd := map[[2]int]string{}
	for _, l := range lines {
		odd[[2]int{l.Taster, l.Round}] = oddOf(l.Plates)
	}
	return odd, nil
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

// taste walks every taster through every round.
func (s *story) taste(session *blind.Session, odd map[[2]int]string, right []int) error {
	setting := session.Setting()
	for taster := range setting.Plan.Tasters {
		if err := session.AllergensShown(taster); err != nil {
			return err
		}
		for round := range setting.Plan.Rounds {
			serving, _ := setting.Serving(taster, round)
			choice := odd[[2]int{taster, round}]
			if round >= right[taster] {
				choice = other(serving.Samples, choice)
			}
			if err := s.tasteRound(session, taster, choice); err != nil {
				return fmt.Errorf("taster %d, round %d: %w", taster+1, round+1, err)
			}
		}
	}
	return nil
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

// planNextTasting is for the next trial: nothing has been drawn yet.
func (s *story) planNextTasting(t *journal.Trial) {
	made := s.now.Add(-20 * time.Hour)
	rec := &journal.Tasting{Head: journal.Head{ID: s.id(made)}, Name: "A night or a day?", At: s.day(-4, 18.5), Trial: t.ID}
	plan := blind.Plan{Method: blind.Paired, Mode: blind.WithHelper, Tasters: crew, Rounds: 2}
	bakes, err := journal.TrialBakes(s.tx, t)
	if err != nil {
		s.fail(err)
		return
	}
	s.loaves(rec, plan, [2]*journal.Bake(bakes))
	put(s, made, rec)
}

// loaves has a tasting planned of two bakes.
func (s *story) loaves(rec *journal.Tasting, plan blind.Plan, bakes [2]*journal.Bake) {
	loaves, err := journal.LoavesOf(s.tx, bakes)
	s.fail(err)
	plan.Loaves, rec.Bakes = loaves, []journal.ID{bakes[0].ID, bakes[1].ID}
	s.fail(rec.SetSetting(blind.Setting{Plan: plan}))
}
