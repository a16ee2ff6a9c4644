package journal

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/blind"
	"twinloaf/journal/journaltest/race"
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// finished is a journal with a tasting that was tasted to its end and unsealed. What
// is to be done first is done before anybody tastes.
func finished(t *testing.T, plan blind.Plan, first ...func(*blind.Session) error) (*Journal, ID) {
	t.Helper()
	j := openTest(t, t.TempDir(), newClock())
	id := plannedTasting(t, j, plan)
	code := mustPlate(t, j, id)
	for _, do := range first {
		if err := j.Score(id, do); err != nil {
			t.Fatal(err)
		}
	}
	mustTaste(t, j, id)
	if err := j.Unseal(id, code); err != nil {
		t.Fatal(err)
	}
	if err := j.CheckSeal(id); err != nil {
		t.Fatal(err)
	}
	mustBeSound(t, j)
	return j, id
}

// mustPlate plates and seals, and gives the code on the card.
func mustPlate(t *testing.T, j *Journal, id ID) string {
	t.Helper()
	plating, err := j.Plate(id)
	if err != nil {
		t.Fatal(err)
	}
	card, err := plating.Card()
	if err != nil {
		t.Fatal(err)
	}
	code := card.Code()
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	return code
}

// mustTaste tastes everything, one step at a time; alone, the slips are turned over.
func mustTaste(t *testing.T, j *Journal, id ID) {
	t.Helper()
	for {
		session, err := j.Session(id)
		if err != nil {
			t.Fatal(err)
		}
		if session.Complete() {
			return
		}
		err = j.Score(id, func(s *blind.Session) error {
			if wanted := s.SlipsWanted(); len(wanted) > 0 {
				serving, _ := s.Setting().Serving(0, wanted[0])
				return s.EnterSlips(wanted[0], serving.Slips[:len(serving.Samples)]...)
			}
			for taster, sheet := range s.Progress().Sheets {
				if sheet.Over() {
					continue
				}
				step, err := s.At(taster)
				if err != nil {
					return err
				}
				switch step.Phase {
				case blind.PhaseAllergens:
					return s.AllergensShown(taster)
				case blind.PhaseRinse:
					return s.Rinsed(taster, true)
				case blind.PhaseSample:
					for i, a := range s.Setting().Plan.Attributes {
						if err := s.Score(taster, a.Name, 4+i); err != nil {
							return err
						}
					}
					return s.Tasted(taster)
				}
				if n := s.Setting().Plan.Method.Picks(); n > 0 {
					if err := s.Choose(taster, step.Serving.Samples[:n]...); err != nil {
						return err
					}
				}
				if err := s.Remark(taster, "nutty"); err != nil {
					return err
				}
				return s.HandIn(taster)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// walk gives, for every word, number and truth in a JSON value, the value with that
// one changed, and for every member and last element the value without it.
func walk(v any, path string, change func(what string, with any)) {
	switch v := v.(type) {
	case string:
		change(path, v+"1")
	case float64:
		change(path, v+1)
	case bool:
		change(path, !v)
	case []any:
		for i := range v {
			walk(v[i], fmt.Sprintf("%s[%d]", path, i), func(what string, with any) {
				was := v[i]
				v[i] = with
				change(what, v)
				v[i] = was
			})
		}
		if len(v) > 0 {
			change(path+" without its last", v[:len(v)-1])
		}
	case map[string]any:
		for k := range v {
			was := v[k]
			walk(was, path+"."+k, func(what string, with any) {
				v[k] = with
				change(what, v)
				v[k] = was
			})
			if nothing(was) {
				continue // left out it says the same
			}
			delete(v, k)
			change(path+" without "+k, v)
			v[k] = was
		}
	}
}

// nothing reports whether a member says no more than one that is not there.
func nothing(v any) bool {
	switch v := v.(type) {
	case map[string]any:
		for _, of := range v {
			if !nothing(of) {
				return false
			}
		}
		return true
	case []any:
		return len(v) == 0
	}
	return v == nil || v == false || v == 0.0 || v == ""
}

// Whatever part of a finished tasting is changed in the journal's file, with every
// checksum set right: the page is told, for it asks for the verdict, and so is the
// check.
func TestEveryChangedPartOfATastingIsTold(t *testing.T) {
	for name, plan := range plansOfAllMethods() {
		t.Run(name, func(t *testing.T) {
			j, id := finished(t, plan)
			everyChangeIsTold(t, j, id)
		})
	}
	t.Run("people who leave", func(t *testing.T) {
		j, id := finished(t, triangle(2, "Ines", "Tom", "Ada"),
			func(s *blind.Session) error { return s.AllergensShown(0) },
			func(s *blind.Session) error { return s.HandInMissing(0, "a plate was dropped") },
			func(s *blind.Session) error { return s.HandOver(0, "Bo") },
			func(s *blind.Session) error { return s.Stop(1, "a cold") },
			func(s *blind.Session) error { return tasteRound(s, 2) },
			func(s *blind.Session) error { return s.EndEarly("the ferry left") })
		everyChangeIsTold(t, j, id)
	})
}

// everyChangeIsTold changes every part of a tasting that is open, and each byte that
// the vault holds of it.
func everyChangeIsTold(t *testing.T, j *Journal, id ID) {
	t.Helper()
	whole, err := Get[Tasting](j, id)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	told := func(what string, change func(*Tasting)) {
		t.Helper()
		n++
		rec := *whole
		change(&rec)
		if _, err := VerdictInput(j, &rec); err == nil {
			t.Errorf("%s: the verdict is told as if nothing were", what)
		}
		if err := j.view(func(st *store.Tx) error { return rec.checkSeal(&Tx{st: st, j: j}) }); err == nil {
			t.Errorf("%s: the check says nothing", what)
		}
		if n%12 != 1 {
			return // to write each of them takes long
		}
		put(t, j, &rec)
		if seals := sealsOf(t, j); len(seals) != 1 {
			t.Errorf("%s: the check says %v", what, seals)
		}
	}
	for part, of := range map[string]func(*Tasting) *jsontext.Value{
		"plan": func(t *Tasting) *jsontext.Value { return &t.Plan }, "scores": func(t *Tasting) *jsontext.Value { return &t.Session },
		"result": func(t *Tasting) *jsontext.Value { return &t.Result },
	} {
		var value any
		if err := json.Unmarshal(*of(whole), &value); err != nil {
			t.Fatal(err)
		}
		walk(value, "", func(what string, with any) {
			b, err := json.Marshal(with)
			if err != nil {
				t.Fatal(err)
			}
			told(part+what, func(rec *Tasting) { *of(rec) = b })
		})
	}
	told("commitment", func(rec *Tasting) { rec.Commitment = strings.Repeat("0", 64) })
	told("fingerprint of the answers", func(rec *Tasting) { rec.Answered = strings.Repeat("0", 64) })
	told("sealed", func(rec *Tasting) { rec.Sealed = rec.Closed })
	told("bakes", func(rec *Tasting) { rec.Bakes = []ID{rec.Bakes[1], rec.Bakes[0]} })
	t.Logf("%d changes", n)
	put(t, j, whole)
	mustBeSound(t, j)
	// The vault is read, too: the version, the random number, and every plate.
	secret := inVault(t, j, id)
	for i := range secret {
		altered := bytes.Clone(secret)
		altered[i] ^= 3
		putInVault(t, j, id, altered)
		if _, err := VerdictInput(j, whole); !errors.Is(err, blind.ErrTampered) {
			t.Errorf("byte %d of the vault: %v", i, err)
		}
		if seals := sealsOf(t, j); len(seals) != 1 {
			t.Errorf("byte %d of the vault: the check says %v", i, seals)
		}
	}
	if report := mustCheck(t, j); len(report.Seals) != 1 {
		t.Errorf("the whole check says %v", report.Seals)
	}
	putInVault(t, j, id, secret)
	mustBeSound(t, j)
}

// plansOfAllMethods are a small tasting by each method, with a helper and alone, and
// one whose key is on the helper's paper.
func plansOfAllMethods() map[string]blind.Plan {
	plans := map[string]blind.Plan{}
	for _, m := range race.Few(blind.Methods(), 1) {
		helped, alone := triangle(1, "Ines", "Tom"), triangle(2, "Ines")
		alone.Mode = blind.Alone
		for _, p := range []blind.Plan{helped, alone} {
			p.Method = m
			switch m {
			case blind.ThreeAFC:
				p.Attribute, p.Expected = "sour", 2
			case blind.Scaling:
				p.Attributes = []blind.Attribute{{Name: "Sour", Low: "not at all", High: "extremely"}, blind.Liking()}
			}
			plans[string(m)+" "+string(p.Mode)] = p
			if m == blind.Paired {
				p.Attribute = "sour"
				plans["sour "+string(p.Mode)] = p
			}
		}
	}
	paper := triangle(1, "Ines")
	paper.KeyOnPaper = true
	plans["key on paper"] = paper
	return plans
}

// sealsOf is what the check says of seals, without all that it looks at besides.
func sealsOf(t *testing.T, j *Journal) []say.Line {
	t.Helper()
	var report Report
	if err := j.view(func(st *store.Tx) error { return checkSeals(&Tx{st: st, j: j}, &report) }); err != nil {
		t.Fatal(err)
	}
	return report.Seals
}

func inVault(t *testing.T, j *Journal, id ID) (body []byte) {
	t.Helper()
	err := j.view(func(st *store.Tx) (err error) { body, err = kept(&Tx{st: st, j: j}, id); return err })
	if err != nil {
		t.Fatal(err)
	}
	return body
}

// putInVault puts something else into the vault, with its checksum.
func putInVault(t *testing.T, j *Journal, id ID, body []byte) {
	t.Helper()
	err := j.DoWithoutUndo("alter the vault", func(tx *Tx) error {
		tx.secret = true
		return tx.st.Side(sideVault).Put(string(id), body)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// While it is sealed, whatever of the vault is changed is told before anybody tastes,
// by the check, and again before it is unsealed.
func TestAChangedVaultIsToldWhileSealed(t *testing.T) {
	for name, plan := range plansOfAllMethods() {
		t.Run(name, func(t *testing.T) {
			j := openTest(t, t.TempDir(), newClock())
			id := plannedTasting(t, j, plan)
			code := mustPlate(t, j, id)
			secret := inVault(t, j, id)
			told := func(when string) {
				t.Helper()
				for _, i := range []int{0, 1, len(secret) / 2, len(secret) - 1} {
					altered := bytes.Clone(secret)
					altered[i] ^= 3
					putInVault(t, j, id, altered)
					if err := j.CheckSeal(id); !errors.Is(err, blind.ErrTampered) {
						t.Errorf("%s, byte %d: %v", when, i, err)
					}
					if seals := sealsOf(t, j); len(seals) != 1 {
						t.Errorf("%s, byte %d: the check says %v", when, i, seals)
					}
				}
			}
			told("before tasting")
			mustTaste(t, j, id)
			told("all in")
			if err := j.Unseal(id, code); !errors.Is(err, blind.ErrTampered) {
				t.Errorf("it was unsealed: %v", err)
			}
			putInVault(t, j, id, secret)
			if err := j.Unseal(id, code); err != nil {
				t.Fatal(err)
			}
			mustBeSound(t, j)
		})
	}
}

func put(t *testing.T, j *Journal, rec *Tasting) {
	t.Helper()
	if err := j.DoWithoutUndo("alter", func(tx *Tx) error { return Put(tx, rec) }); err != nil {
		t.Fatal(err)
	}
}

func mustCheck(t *testing.T, j *Journal) Report {
	t.Helper()
	report, err := j.Check(t.Context(), false)
	if err != nil {
		t.Fatal(err)
	}
	return report
}

// A plan that was changed after sealing is told before anybody tastes.
func TestAChangedPlanIsToldBeforeAnybodyTastes(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := plannedTasting(t, j, triangle(2, "Ines"))
	mustPlate(t, j, id)
	if err := j.CheckSeal(id); err != nil {
		t.Fatal(err)
	}
	rec, _ := Get[Tasting](j, id)
	setting, _ := rec.Setting()
	setting.Servings[0].Samples[0], setting.Servings[0].Samples[1] = setting.Servings[0].Samples[1], setting.Servings[0].Samples[0]
	if err := rec.SetSetting(setting); err != nil {
		t.Fatal(err)
	}
	put(t, j, rec)
	if err := j.CheckSeal(id); !errors.Is(err, blind.ErrTampered) {
		t.Errorf("two codes were swapped: %v", err)
	}
}

// With the key on the helper's paper the journal's files do not open the tasting;
// its code does, and a lost paper leaves only to end it.
func TestTheKeyOnTheHelpersPaper(t *testing.T) {
	dir := t.TempDir()
	j := openTest(t, dir, newClock())
	plan := triangle(1, "Ines")
	plan.KeyOnPaper = true
	id, lost := plannedTasting(t, j, plan), plannedTasting(t, j, plan)
	code := mustPlate(t, j, id)
	mustPlate(t, j, lost)
	mustTaste(t, j, id)
	if err := j.CheckSeal(id); err != nil {
		t.Fatal(err)
	}
	for _, wrong := range []string{"", "00000-00000"} {
		if err := j.Unseal(id, wrong); !errors.Is(err, blind.ErrCode) {
			t.Errorf("opened with %q: %v", wrong, err)
		}
	}
	if rec, _ := Get[Tasting](j, id); rec.IsOpen() {
		t.Fatal("a wrong code opened it")
	}
	if err := j.Unseal(id, strings.ToLower(code)); err != nil {
		t.Fatal(err)
	}
	mustBeSound(t, j) // also without the paper
	if err := j.CloseUnopened(lost); err != nil {
		t.Fatal(err)
	}
	rec, _ := Get[Tasting](j, lost)
	if !rec.IsClosed() || rec.IsSealed() || rec.IsOpen() {
		t.Errorf("%+v", rec)
	}
	if err := j.CloseUnopened(id); err == nil {
		t.Error("an open tasting was closed unopened")
	}
	mustBeSound(t, j)
}

// What the help says about checking by hand holds with sha256sum alone: the text
// that was sealed, and the answers, print the fingerprints that were shown, and so
// does each line “before” of the answers for all that stands above it.
func TestCheckedByHand(t *testing.T) {
	j, id := finished(t, triangle(2, "Ines", "Tom"))
	rec, _ := Get[Tasting](j, id)
	o, _, err := rec.Opened()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	sum := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("sha256sum", path).Output()
		if err != nil {
			t.Fatalf("sha256sum (coreutils) is needed: %v", err)
		}
		return strings.Fields(string(out))[0]
	}
	if got := sum("seal.txt", o.Text); got != rec.Commitment {
		t.Errorf("seal.txt: sha256sum prints %s, shown was %s", got, rec.Commitment)
	}
	answers := o.AnswerText()
	if got := sum("answers.txt", answers); got != rec.Answered {
		t.Errorf("answers.txt: sha256sum prints %s, shown was %s", got, rec.Answered)
	}
	above, links := "", 0
	for line := range strings.SplitAfterSeq(answers, "\n") {
		if want, ok := strings.CutPrefix(line, "before "); ok {
			_, want, _ = strings.Cut(strings.TrimSpace(want), ": ")
			if got := sum("above.txt", above); got != want {
				t.Errorf("above %q sha256sum prints %s", line, got)
			}
			links++
		}
		above += line
	}
	if links != 3 {
		t.Errorf("%d links of four answers", links)
	}
}
