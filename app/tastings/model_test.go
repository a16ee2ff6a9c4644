package tastings

import (
	"bytes"
	"errors"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages"
	"twinloaf/assets"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/blindtest"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
	"twinloaf/journal/paper"
	"twinloaf/journal/paper/papertest"
)

var testStyle = paper.Style{
	Fonts: paper.Fonts{Text: assets.TextRegular, Bold: assets.TextBold, Heading: assets.Heading},
	Made:  time.Date(2026, 3, 4, 19, 0, 0, 0, time.UTC),
}

// flipped reads with the lowest bit of the first byte turned over: the other
// assignment, and all else alike.
type flipped struct {
	io.Reader
	done bool
}

func (r *flipped) Read(p []byte) (int, error) {
	n, err := r.Reader.Read(p)
	if !r.done && n > 0 {
		p[0] ^= 1
		r.done = true
	}
	return n, err
}

func drawn(t *testing.T, plan blind.Plan, flip bool) (blind.Sealed, blind.Setting, []blind.CardLine) {
	t.Helper()
	plan.Loaves = [2]blind.Loaf{{ID: "h", Name: "Harbour loaf"}, {ID: "g", Name: "Gorse loaf"}}
	return blindtest.Seal(t, plan, &flipped{Reader: rand.NewChaCha8([32]byte{9}), done: !flip})
}

func TestScoreSheetsTellNothing(t *testing.T) {
	for _, m := range blind.Methods() {
		plan := blind.Plan{Method: m, Mode: blind.WithHelper, Tasters: []string{"Ines", "Jory"}, Rounds: 2}
		if m == blind.Scaling {
			plan.Attributes = usualAttributes()
		}
		if m == blind.ThreeAFC {
			plan.Attribute, plan.Expected = "sour", 1
		}
		var sheets, filled [2]bytes.Buffer
		for i, flip := range []bool{false, true} {
			_, setting, _ := drawn(t, plan, flip)
			session := tasted(t, setting)
			// The fingerprint of the sealing is printed, and follows from the assignment
			// with 256 random bits: nobody reads it back.
			setting.Commitment = strings.Repeat("0123456789abcdef", 4)
			s := scoreSheets{setting: setting, allergens: []string{"wheat", "sesame"}}
			if err := s.write(&sheets[i], testStyle); err != nil {
				t.Fatal(m, err)
			}
			s.progress, s.answered = session.Progress(), session.Fingerprint()
			if err := s.write(&filled[i], testStyle); err != nil {
				t.Fatal(m, err)
			}
			words := papertest.Text(filled[i].Bytes())
			for _, want := range []string{inFours(setting.Commitment), inFours(session.Fingerprint()), "nutty"} {
				if !strings.Contains(strings.ReplaceAll(words, "\n", " "), want) {
					t.Errorf("%s: the filled sheet does not bear %q: %s", m, want, words)
				}
			}
			if strings.Contains(words, "loaf") && !strings.Contains(words, "Both loaves") || strings.Contains(words, "Gorse") {
				t.Errorf("%s: the filled sheet names a loaf: %s", m, words)
			}
		}
		for _, two := range [][2]bytes.Buffer{sheets, filled} {
			if !bytes.HasPrefix(two[0].Bytes(), []byte("%PDF-")) || !bytes.Equal(two[0].Bytes(), two[1].Bytes()) {
				t.Errorf("%s: the sheets of the two assignments differ", m)
			}
		}
		if bytes.Equal(sheets[0].Bytes(), filled[0].Bytes()) {
			t.Errorf("%s: the filled sheet is blank", m)
		}
	}
}

// tasted is a session in which everybody has handed in the first samples of each
// round, from paper, with the same words.
func tasted(t *testing.T, setting blind.Setting) *blind.Session {
	t.Helper()
	session := blind.Begin(setting)
	for _, serving := range setting.Servings {
		answer := blind.Answer{Remark: "nutty"}
		if n := setting.Plan.Method.Picks(); n > 0 {
			answer.Picks = serving.Samples[:n]
		} else {
			answer.Scores = map[string]map[string]int{}
			for _, l := range serving.Samples {
				answer.Scores[l] = map[string]int{}
				for _, a := range setting.Plan.Attributes {
					answer.Scores[l][a.Name] = 7
				}
			}
		}
		if err := session.TypeIn(serving.Taster, answer); err != nil {
			t.Fatal(err)
		}
	}
	return session
}

// Once it may be told, the filled sheet says what was which.
func TestFilledSheetsSayWhatWasWhich(t *testing.T) {
	plan := blind.Plan{Method: blind.DuoTrio, Mode: blind.WithHelper, Tasters: []string{"Ines"}, Rounds: 2}
	sealed, setting, lines := drawn(t, plan, false)
	session := tasted(t, setting)
	proof, err := session.Finish()
	if err != nil {
		t.Fatal(err)
	}
	o, err := sealed.Unseal(proof)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := (scoreSheets{setting: setting, progress: o.Progress, answered: session.Fingerprint(), rounds: o.Rounds}).write(&b, testStyle); err != nil {
		t.Fatal(err)
	}
	words := papertest.Text(b.Bytes())
	for _, l := range lines {
		for _, p := range l.Plates {
			if want := p.Label + " was " + p.LoafName; !strings.Contains(words, want) {
				t.Errorf("the filled sheet does not say %q: %s", want, words)
			}
		}
	}
}

func TestTheCardIsPrintedAsItIs(t *testing.T) {
	plan := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Tasters: []string{"Ines"}, Rounds: 2}
	var cards [2]bytes.Buffer
	for i, flip := range []bool{false, true} {
		_, setting, lines := drawn(t, plan, flip)
		if err := writeCard(&cards[i], setting.Plan, lines, "", testStyle); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.HasPrefix(cards[0].Bytes(), []byte("%PDF-")) || bytes.Equal(cards[0].Bytes(), cards[1].Bytes()) {
		t.Error("the cards of the two assignments are the same")
	}
	if err := writeCard(io.Discard, plan, nil, "", paper.Style{}); !errors.Is(err, paper.ErrNoFonts) {
		t.Errorf("without fonts: %v", err)
	}
}

func TestAVerdictIsPrinted(t *testing.T) {
	for _, m := range []blind.Method{blind.Paired, blind.Scaling} {
		plan := blind.Plan{Method: m, Mode: blind.WithHelper, Tasters: []string{"Ines"}, Rounds: 1}
		if m == blind.Scaling {
			plan.Attributes = usualAttributes()[:1]
		}
		sealed, setting, _ := drawn(t, plan, false)
		s := blind.Begin(setting)
		answer := blind.Answer{}
		if m == blind.Paired {
			answer.Picks = setting.Servings[0].Samples[:1]
		} else {
			answer.Scores = map[string]map[string]int{}
			for i, l := range setting.Servings[0].Samples {
				answer.Scores[l] = map[string]int{plan.Attributes[0].Name: 4 + i}
			}
		}
		if err := s.TypeIn(0, answer); err != nil {
			t.Fatal(err)
		}
		proof, err := s.Finish()
		if err != nil {
			t.Fatal(err)
		}
		opened, err := sealed.Unseal(proof)
		if err != nil {
			t.Fatal(err)
		}
		in := verdict.Input{Opened: opened}
		v, err := verdict.Of(in)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := writeVerdict(&b, "After supper", in, v, measure.Units{}, testStyle); err != nil || !bytes.HasPrefix(b.Bytes(), []byte("%PDF-")) {
			t.Errorf("%s: %v", m, err)
		}
		if len(v.Words) == 0 {
			t.Errorf("%s: the verdict has no words", m)
		}
		if codes := append(codesOf(opened, 1), codesOf(opened, 2)...); len(codes) != 2 || strings.HasSuffix(headline(v, measure.Units{}), ".") {
			t.Errorf("%s: codes %q, %q", m, codes, headline(v, measure.Units{}))
		}
	}
}

func TestPick(t *testing.T) {
	for _, tt := range []struct {
		chosen []string
		label  string
		n      int
		want   []string
	}{
		{nil, "1", 1, []string{"1"}},
		{[]string{"1"}, "2", 1, []string{"2"}},
		{[]string{"1"}, "1", 1, []string{}},
		{[]string{"1"}, "2", 2, []string{"1", "2"}},
		{[]string{"1", "2"}, "3", 2, []string{"2", "3"}},
		{[]string{"1", "2"}, "1", 2, []string{"2"}},
	} {
		if got := pick(tt.chosen, tt.label, tt.n); !slices.Equal(got, tt.want) {
			t.Errorf("pick(%q, %q, %d) = %q, want %q", tt.chosen, tt.label, tt.n, got, tt.want)
		}
	}
}

// Whoever is in the middle of a round goes on; else those who tasted least.
func TestNextTaster(t *testing.T) {
	_, setting, _ := drawn(t, blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Tasters: []string{"a", "b"}, Rounds: 2}, false)
	s := blind.Begin(setting)
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	hand := func(taster, round int) {
		serving, _ := setting.Serving(taster, round)
		do(s.TypeIn(taster, blind.Answer{Picks: serving.Samples[:1]}))
	}
	want := func(taster int) {
		t.Helper()
		if got := nextTaster(s); got != taster {
			t.Errorf("next is %d, want %d", got, taster)
		}
	}
	want(0)
	hand(0, 0)
	want(1)
	do(s.AllergensShown(0))
	do(s.Tasted(0))
	want(0) // within the second round, which the first taster began
}

func TestPoolingMatchesBreads(t *testing.T) {
	for _, tt := range []struct {
		name      string
		a, b      [2][]string
		same, one bool
	}{
		{"the same bakes", [2][]string{{"x"}, {"y"}}, [2][]string{{"x"}, {"y"}}, true, true},
		{"turned round", [2][]string{{"x"}, {"y"}}, [2][]string{{"y"}, {"x"}}, true, false},
		{"the same cultures, baked again", [2][]string{{"x", "h"}, {"y", "g"}}, [2][]string{{"v", "g"}, {"w", "h"}}, true, false},
		{"one of them is another", [2][]string{{"x"}, {"y"}}, [2][]string{{"x"}, {"z"}}, false, false},
	} {
		if same, one := matched(tt.a, tt.b); same != tt.same || one != tt.one {
			t.Errorf("%s: %v, %v", tt.name, same, one)
		}
	}
}

func TestAskingKeepsThePlanWhole(t *testing.T) {
	plan := blind.Plan{Method: blind.Tetrad, Mode: blind.WithHelper, Tasters: []string{"a"}, Rounds: 3, Loaves: [2]blind.Loaf{{ID: "x"}, {ID: "y"}}}
	for _, q := range []question{likedBetter, moreOf, attributesOf, toldApart, moreOf, likedBetter} {
		ask(&plan, q)
		if err := plan.Check(); err != nil || questionOf(plan) != q {
			t.Errorf("asking %q: %+v, %v", questions()[q], plan, err)
		}
		if got := pages.Asked(plan); q != moreOf && got != questions()[q] {
			t.Errorf("%q is asked as %q", questions()[q], got)
		}
	}
}
