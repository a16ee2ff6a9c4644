package journal

import (
	"fmt"
	"slices"
	"strings"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/vault"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/store"
)

// Session gives the scoring of a sealed tasting as it stands, to look at. What
// is done to it is not kept: see [Journal.Score].
func (j *Journal) Session(id ID) (*blind.Session, error) {
	t, err := Get[Tasting](j, id)
	if err != nil {
		return nil, err
	}
	return t.session()
}

func (t *Tasting) session() (*blind.Session, error) {
	if !t.IsSealed() {
		return nil, fmt.Errorf("scoring tasting %s: it is not sealed", t.ID)
	}
	setting, err := t.Setting()
	if err != nil {
		return nil, err
	}
	progress, err := t.Progress()
	if err != nil {
		return nil, err
	}
	if len(progress.Sheets) == 0 {
		return blind.Begin(setting), nil
	}
	return blind.Resume(setting, progress)
}

// onTasting makes a change of a tasting that cannot be undone.
func (j *Journal) onTasting(id ID, label string, fn func(tx *Tx, t *Tasting) error) error {
	return j.DoWithoutUndo(label, func(tx *Tx) error {
		t, err := Get[Tasting](tx, id)
		if err != nil {
			return err
		}
		if err := fn(tx, t); err != nil {
			return err
		}
		return Put(tx, t)
	})
}

// Score does one step of the scoring and keeps it before it returns. It cannot
// be undone. When step fails, nothing is kept.
func (j *Journal) Score(id ID, step func(*blind.Session) error) error {
	return j.onTasting(id, "scores", func(_ *Tx, t *Tasting) error {
		session, err := t.session()
		if err != nil {
			return err
		}
		if err := step(session); err != nil {
			return err
		}
		if err := t.setProgress(session.Progress()); err != nil {
			return err
		}
		t.Answered = ""
		if session.Complete() {
			t.Answered = session.Fingerprint()
		}
		return nil
	})
}

// CloseUnopened ends a tasting whose key was on the helper's paper when the paper
// is lost: what was which will never be known. It cannot be undone.
func (j *Journal) CloseUnopened(id ID) error {
	return j.onTasting(id, "end the tasting unopened", func(_ *Tx, t *Tasting) error {
		if !t.IsSealed() || t.Locked == "" {
			return fmt.Errorf("ending tasting %s unopened: its key is not on a paper", id)
		}
		t.Closed = j.Now()
		return nil
	})
}

// Unseal opens a tasting of which every score that is still to come is in, or
// which was ended early. It cannot be undone. code is that on the helper's paper,
// where the key lies there, and else empty; a wrong one gives an error that wraps
// [blind.ErrCode], and nothing is changed. The error wraps [blind.ErrIncomplete]
// when scores are still to come.
func (j *Journal) Unseal(id ID, code string) error {
	return j.onTasting(id, "unseal the tasting", func(tx *Tx, t *Tasting) error {
		session, err := t.session()
		if err != nil {
			return err
		}
		proof, err := session.Finish()
		if err != nil {
			return err
		}
		if err := t.checkSeal(tx); err != nil {
			return err
		}
		sealed, err := sealedOf(tx, id, session.Setting(), code)
		if err != nil {
			return err
		}
		opened, err := sealed.Unseal(proof)
		if err != nil {
			return err
		}
		t.Unsealed, t.Answered = j.Now(), session.Fingerprint()
		if t.Locked != "" {
			// It is open now: what was locked is kept as it is, so that it can be
			// checked again without the paper.
			plain, err := vault.Plain(sealed)
			if err != nil {
				return err
			}
			tx.secret, t.Locked = true, ""
			if err := tx.st.Side(sideVault).Put(string(id), plain); err != nil {
				return err
			}
		}
		if err := t.setProgress(session.Progress()); err != nil {
			return err
		}
		return t.setOpened(opened)
	})
}

// Correct adds a correction to an unsealed tasting. What was handed in stays.
func (j *Journal) Correct(id ID, taster, round int, answer blind.Answer, reason string) error {
	return j.onTasting(id, "add a correction", func(_ *Tx, t *Tasting) error {
		opened, open, err := t.Opened()
		if err != nil {
			return err
		}
		if !open {
			return fmt.Errorf("correcting tasting %s: %w", id, blind.ErrSealed)
		}
		at := slices.IndexFunc(opened.Rounds, func(r blind.Round) bool { return r.Taster == taster && r.Round == round })
		serving, ok := opened.Setting.Serving(taster, round)
		if at < 0 || !ok || strings.TrimSpace(reason) == "" {
			return fmt.Errorf("correcting tasting %s: a round that was tasted and a reason are needed: %w", id, blind.ErrAnswer)
		}
		if err := opened.Setting.CheckAnswer(serving, answer); err != nil {
			return err
		}
		t.Additions = append(t.Additions, Correction{
			At: j.Now(), Taster: taster, Round: round, Answer: &answer, Reason: strings.TrimSpace(reason),
			What: fmt.Sprintf("round %d of %s", round+1, opened.Who(opened.Rounds[at])),
		})
		return nil
	})
}

// VerdictInput gives an unsealed tasting with its corrections and the
// differences between its bakes. The error wraps [blind.ErrSealed] before that, and
// [blind.ErrTampered] when a part of it was changed, in the vault too.
func VerdictInput(r Reader, t *Tasting) (verdict.Input, error) {
	opened, open, err := t.Opened()
	if err != nil {
		return verdict.Input{}, err
	}
	if !open {
		return verdict.Input{}, fmt.Errorf("judging tasting %s: %w", t.ID, blind.ErrSealed)
	}
	err = r.view(func(st *store.Tx) error { return t.checkKept(&Tx{st: st}, opened.Setting) })
	if err != nil {
		return verdict.Input{}, fmt.Errorf("judging tasting %s: %w", t.ID, err)
	}
	in := verdict.Input{Opened: opened}
	for _, c := range t.Additions {
		if c.Answer != nil {
			in.Corrections = append(in.Corrections, verdict.Correction{Taster: c.Taster, Round: c.Round, Answer: *c.Answer, Reason: c.Reason})
		}
	}
	unfair, err := TastingFairness(r, t)
	if err != nil {
		return verdict.Input{}, err
	}
	for _, u := range unfair {
		in.Differences = append(in.Differences, u.Difference)
	}
	return in, nil
}
