package blind_test

import (
	"bytes"
	"encoding/gob"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"log"
	"log/slog"
	"os"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/vault"
)

// holder keeps a sealed tasting as careless code might: fmt reaches unexported
// fields without calling their methods.
type holder struct {
	sealed  blind.Sealed
	pointer *blind.Sealed
	Public  blind.Sealed
	card    blind.Card
	draft   *blind.Draft
	any     any
}

// spoken writes a value in every way that a careless program could.
func spoken(t *testing.T, values ...any) string {
	t.Helper()
	var out bytes.Buffer
	for _, v := range values {
		for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x", "%X", "%d", "%t", "%T"} {
			fmt.Fprintf(&out, verb+"\n", v)
		}
		fmt.Fprintln(&out, v)
		data, err := json.Marshal(v)
		fmt.Fprintln(&out, "json", string(data), err)
		data, err = xml.Marshal(v)
		fmt.Fprintln(&out, "xml", string(data), err)
		switch v.(type) {
		case blind.Progress, blind.Turn: // gob writes their maps in any order
		default:
			var stream bytes.Buffer
			err = gob.NewEncoder(&stream).Encode(v)
			fmt.Fprintln(&out, "gob", stream.String(), err)
		}
		slog.New(slog.NewTextHandler(&out, &slog.HandlerOptions{ReplaceAttr: timeless})).Info("said", "value", v)
		slog.New(slog.NewJSONHandler(&out, &slog.HandlerOptions{ReplaceAttr: timeless})).Info("said", "value", v)
		log.New(&out, "", 0).Print(v)
		fmt.Fprintln(&out, fmt.Errorf("wrapped: %v", v))
	}
	return out.String()
}

func timeless(_ []string, a slog.Attr) slog.Attr {
	if a.Key == slog.TimeKey {
		return slog.Attr{}
	}
	return a
}

// addressless masks the addresses of pointers, which tell nothing and differ
// from one run to the next, and of the code of functions.
func addressless(said string, pointers ...any) string {
	for _, p := range pointers {
		at := reflect.ValueOf(p).Pointer()
		for _, form := range []string{"%x", "%X", "%d"} {
			said = strings.ReplaceAll(said, fmt.Sprintf(form, at), "ADDRESS")
		}
	}
	return said
}

// Whatever is printed, logged or encoded of a sealed tasting is the same for
// the two possible assignments, byte for byte, but for the commitment, which
// is a hash of the assignment with 256 random bits.
func TestNothingSaidTellsTheAssignment(t *testing.T) {
	for _, plan := range everyPlan() {
		t.Run(name(plan), func(t *testing.T) {
			var said [2]string
			var cards [2][]blind.CardLine
			for i, reader := range twins(11) {
				draft, err := blind.Draw(plan, reader)
				ok(t, err)
				card, err := draft.Card()
				ok(t, err)
				cards[i], err = card.Lines()
				ok(t, err)
				before := spoken(t, draft, *draft, card, &card, holder{card: card, draft: draft, any: draft})
				sealed, setting, err := draft.Seal()
				ok(t, err)
				session := blind.Begin(setting)
				tasteRound(t, session, 0, firstPicks(plan))
				step, err := session.At(0)
				ok(t, err)
				_, early := session.Finish()
				_, refused := sealed.Unseal(blind.Proof{})
				after := spoken(t, sealed, &sealed, setting, session.Progress(), session, step, draft, card,
					holder{sealed: sealed, pointer: &sealed, Public: sealed, card: card, draft: draft, any: sealed},
					[]blind.Sealed{sealed}, map[string]blind.Sealed{"tasting": sealed}, early, refused)
				said[i] = strings.ReplaceAll(before+after, setting.Commitment, "COMMITMENT")
				said[i] = hexWords(said[i], setting.Commitment)
				said[i] = addressless(said[i], draft, &sealed)
			}
			if said[0] != said[1] {
				a, b := strings.Split(said[0], "\n"), strings.Split(said[1], "\n")
				for i := range min(len(a), len(b)) {
					if a[i] != b[i] {
						t.Fatalf("line %d differs:\n%s\n%s", i, a[i], b[i])
					}
				}
				t.Fatal("what is said differs in length")
			}
			// The test would see nothing if the two were the same tasting.
			for i, line := range cards[0] {
				same := 0
				for j, plate := range line.Plates {
					other := cards[1][i].Plates[j]
					if open := plate.Label == blind.ReferenceLabel && plan.Mode == blind.Alone; !open && plate.Loaf == other.Loaf {
						same++
					}
					if plate.Label != other.Label {
						t.Fatalf("the two tastings have other codes: %s, %s", plate.Label, other.Label)
					}
				}
				// In a 3-AFC one plate of three stays what it was.
				if want := map[blind.Method]int{blind.ThreeAFC: 1}[plan.Method]; same != want {
					t.Fatalf("%d plates of a round are the same loaf in both", same)
				}
			}
		})
	}
}

// hexWords masks the commitment where %x and %X wrote it.
func hexWords(said, commitment string) string {
	said = strings.ReplaceAll(said, fmt.Sprintf("%x", commitment), "COMMITMENT")
	return strings.ReplaceAll(said, fmt.Sprintf("%X", commitment), "COMMITMENT")
}

func TestTheCardIsGivenOnceAndGoesBlank(t *testing.T) {
	draft, err := blind.Draw(planFor(blind.Triangle, blind.WithHelper, 1, 2), chance(1))
	ok(t, err)
	card, err := draft.Card()
	ok(t, err)
	if _, err := draft.Card(); !errors.Is(err, blind.ErrCardGiven) {
		t.Errorf("second card: %v", err)
	}
	_, _, err = draft.Seal()
	ok(t, err)
	if lines, err := card.Lines(); !errors.Is(err, blind.ErrSealed) || lines != nil {
		t.Errorf("the card reads %v after sealing: %v", lines, err)
	}
	if _, err := draft.Card(); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("card after sealing: %v", err)
	}
	if _, _, err := draft.Seal(); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("sealed twice: %v", err)
	}
	if _, err := (blind.Card{}).Lines(); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("an empty card: %v", err)
	}
}

func TestASealVerifiesAndAnyChangedByteDoesNot(t *testing.T) {
	for _, plan := range everyPlan() {
		t.Run(name(plan), func(t *testing.T) {
			s := mustSeal(t, plan, chance(5))
			kept, err := vault.Bytes(s.sealed, chance(1))
			ok(t, err)
			restored, err := vault.Restore(kept, s.setting)
			ok(t, err)
			again, err := vault.Bytes(restored, chance(1))
			ok(t, err)
			if !bytes.Equal(kept, again) {
				t.Fatal("kept and restored differ")
			}
			for i := range kept {
				for _, flip := range []byte{1, 2, 3, 0x80, 0xff} {
					changed := bytes.Clone(kept)
					changed[i] ^= flip
					if _, err := vault.Restore(changed, s.setting); !errors.Is(err, blind.ErrTampered) {
						t.Fatalf("byte %d changed by %#x went unnoticed: %v", i, flip, err)
					}
				}
			}
			for _, cut := range [][]byte{nil, kept[:1], kept[:len(kept)-1], append(bytes.Clone(kept), 1)} {
				if _, err := vault.Restore(cut, s.setting); !errors.Is(err, blind.ErrTampered) {
					t.Fatalf("%d bytes went unnoticed: %v", len(cut), err)
				}
			}
		})
	}
}

// The commitment covers codes, order, names and method too.
func TestAChangedSettingDoesNotVerify(t *testing.T) {
	s := mustSeal(t, planFor(blind.Triangle, blind.WithHelper, 2, 2), chance(6))
	kept, err := vault.Bytes(s.sealed, chance(1))
	ok(t, err)
	for what, change := range map[string]func(*blind.Setting){
		"codes swapped":   func(s *blind.Setting) { c := s.Servings[0].Samples; c[0], c[1] = c[1], c[0] },
		"rounds swapped":  func(s *blind.Setting) { v := s.Servings; v[0], v[1] = v[1], v[0] },
		"loaves swapped":  func(s *blind.Setting) { l := &s.Plan.Loaves; l[0], l[1] = l[1], l[0] },
		"taster renamed":  func(s *blind.Setting) { s.Plan.Tasters[0] = "Nobody" },
		"method changed":  func(s *blind.Setting) { s.Plan.Method = blind.Tetrad },
		"commitment cut":  func(s *blind.Setting) { s.Commitment = s.Commitment[1:] },
		"commitment gone": func(s *blind.Setting) { s.Commitment = "" },
	} {
		data, err := json.Marshal(s.setting)
		ok(t, err)
		var changed blind.Setting
		ok(t, json.Unmarshal(data, &changed))
		if _, err := vault.Restore(kept, changed); err != nil {
			t.Fatalf("a setting kept as JSON no longer verifies: %v", err)
		}
		change(&changed)
		if _, err := vault.Restore(kept, changed); !errors.Is(err, blind.ErrTampered) {
			t.Errorf("%s went unnoticed: %v", what, err)
		}
	}
}

func TestAnyChangedByteOfTheTextDoesNotVerify(t *testing.T) {
	s := mustSeal(t, planFor(blind.DuoTrio, blind.WithHelper, 2, 3), chance(8))
	session := blind.Begin(s.setting)
	tasteAll(t, session, firstPicks(s.setting.Plan))
	proof, err := session.Finish()
	ok(t, err)
	opened, err := s.sealed.Unseal(proof)
	ok(t, err)
	if !blind.Verifies(opened.Text, s.setting.Commitment) {
		t.Fatal("the text does not verify as it is")
	}
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(opened.Text)-1).Draw(t, "byte")
		flip := rapid.ByteRange(1, 255).Draw(t, "flip")
		changed := []byte(opened.Text)
		changed[i] ^= flip
		if blind.Verifies(string(changed), s.setting.Commitment) {
			t.Fatalf("byte %d changed to %q still verifies", i, changed[i])
		}
	})
}

// testdata/blind/seal.txt is the text of one fixed tasting, and
// testdata/blind/seal.sha256 what "sha256sum seal.txt" (GNU coreutils 9.1)
// printed for it: the commitment can be checked with standard tools.
func TestTheCommitmentIsWhatSha256sumPrints(t *testing.T) {
	plan := planFor(blind.Triangle, blind.WithHelper, 2, 2)
	plan.Tasters[1] = "Ines \"the second\"\nloaf 1: nobody's"
	s := mustSeal(t, plan, chance(2026))
	session := blind.Begin(s.setting)
	tasteAll(t, session, firstPicks(plan))
	proof, err := session.Finish()
	ok(t, err)
	opened, err := s.sealed.Unseal(proof)
	ok(t, err)
	if text := read(t, "seal.txt"); opened.Text != text {
		t.Errorf("the canonical text is now\n%s\nit was\n%s", opened.Text, text)
	}
	if sum, _, _ := strings.Cut(read(t, "seal.sha256"), " "); sum != s.setting.Commitment {
		t.Errorf("sha256sum printed %s, the commitment is %s", sum, s.setting.Commitment)
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/blind/" + name)
	ok(t, err)
	return string(text)
}

func TestUnsealAsksForTheProofOfThisTasting(t *testing.T) {
	plan := planFor(blind.Triangle, blind.WithHelper, 1, 2)
	a, b := mustSeal(t, plan, chance(1)), mustSeal(t, plan, chance(2))
	session := blind.Begin(b.setting)
	if _, err := session.Finish(); !errors.Is(err, blind.ErrIncomplete) {
		t.Errorf("finished before a bite: %v", err)
	}
	tasteRound(t, session, 0, firstPicks(plan))
	if _, err := session.Finish(); !errors.Is(err, blind.ErrIncomplete) {
		t.Errorf("finished half-way: %v", err)
	}
	tasteRound(t, session, 0, firstPicks(plan))
	proof, err := session.Finish()
	ok(t, err)
	if _, err := a.sealed.Unseal(proof); !errors.Is(err, blind.ErrNoProof) {
		t.Errorf("another tasting's proof: %v", err)
	}
	if _, err := a.sealed.Unseal(blind.Proof{}); !errors.Is(err, blind.ErrNoProof) {
		t.Errorf("no proof: %v", err)
	}
	if _, err := (blind.Sealed{}).Unseal(proof); !errors.Is(err, blind.ErrSealed) {
		t.Errorf("nothing sealed: %v", err)
	}
	opened, err := b.sealed.Unseal(proof)
	ok(t, err)
	for _, r := range opened.Rounds {
		for _, plate := range r.Plates {
			if want := b.loafOf(r.Taster, r.Round, plate.Label); plate.Loaf != want {
				t.Errorf("plate %s opened as loaf %d, the card said %d", plate.Label, plate.Loaf, want)
			}
		}
	}
}
