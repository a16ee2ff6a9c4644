package blind_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"twinloaf/journal/blind"
)

func begin(t testing.TB, p blind.Plan) *blind.Session {
	t.Helper()
	return blind.Begin(mustSeal(t, p, chance(4)).setting)
}

func at(t testing.TB, s *blind.Session, taster int) blind.Turn {
	t.Helper()
	step, err := s.At(taster)
	ok(t, err)
	return step
}

// One round of a triangle, step by step.
func TestARoundGoesSampleBySample(t *testing.T) {
	s := begin(t, planFor(blind.Triangle, blind.WithHelper, 1, 2))
	codes := at(t, s, 0).Serving.Samples
	stands := func(phase blind.Phase, label string) {
		t.Helper()
		if step := at(t, s, 0); step.Phase != phase || step.Label != label {
			t.Fatalf("stands at %q with sample %q, not at %q with %q", step.Phase, step.Label, phase, label)
		}
	}
	stands(blind.PhaseAllergens, "")
	if err := s.Tasted(0); !errors.Is(err, blind.ErrStep) {
		t.Errorf("a bite before the allergens: %v", err)
	}
	ok(t, s.AllergensShown(0))
	stands(blind.PhaseSample, codes[0])
	ok(t, s.Tasted(0))
	stands(blind.PhaseRinse, codes[1])
	if err := s.Choose(0, codes[0]); !errors.Is(err, blind.ErrStep) {
		t.Errorf("an answer before the last sample: %v", err)
	}
	ok(t, s.Rinsed(0, true))
	ok(t, s.Tasted(0))
	ok(t, s.Rinsed(0, false))
	stands(blind.PhaseSample, codes[2])
	ok(t, s.Remark(0, "the first was sourer"))
	ok(t, s.Tasted(0))
	stands(blind.PhaseAnswer, "")
	if err := s.HandIn(0); !errors.Is(err, blind.ErrAnswer) {
		t.Errorf("handed in without an answer: %v", err)
	}
	ok(t, s.Choose(0, codes[1]))
	ok(t, s.Choose(0, codes[2])) // may change until handed in
	ok(t, s.HandIn(0))
	stands(blind.PhaseRinse, at(t, s, 0).Serving.Samples[0])
	got := s.Progress().Sheets[0].Answers[0]
	want := blind.Answer{Picks: []string{codes[2]}, SkippedRinses: 1, Remark: "the first was sourer"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("handed in %+v, want %+v", got, want)
	}
}

func TestThereIsNoWayBackIntoARound(t *testing.T) {
	plan := planFor(blind.Triangle, blind.WithHelper, 1, 1)
	s := begin(t, plan)
	tasteAll(t, s, firstPicks(plan))
	label := s.Setting().Servings[0].Samples[1]
	for what, err := range map[string]error{
		"choose":    s.Choose(0, label),
		"hand in":   s.HandIn(0),
		"taste":     s.Tasted(0),
		"remark":    s.Remark(0, "after all"),
		"missing":   s.HandInMissing(0, "no"),
		"on paper":  s.TypeIn(0, blind.Answer{Picks: []string{label}}),
		"end early": s.EndEarly("enough"),
	} {
		if !errors.Is(err, blind.ErrHandedIn) && !errors.Is(err, blind.ErrStep) {
			t.Errorf("%s after handing in: %v", what, err)
		}
	}
	// What is asked for is a copy: changing it changes nothing.
	p := s.Progress()
	p.Sheets[0].Answers[0].Picks[0] = label
	if s.Progress().Sheets[0].Answers[0].Picks[0] == label {
		t.Error("a handed-in answer was changed through its copy")
	}
	_, err := s.Finish()
	ok(t, err)
	if err := s.Tasted(0); !errors.Is(err, blind.ErrEnded) {
		t.Errorf("a bite after the end: %v", err)
	}
}

// Killed after any step, a session goes on at the same sample: a session that
// is kept as JSON and resumed before every step ends as one that is not.
func TestResumesAtTheSameSample(t *testing.T) {
	for _, plan := range everyPlan() {
		t.Run(name(plan), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				setting := blind.Begin(settings[name(plan)]).Setting()
				straight, killed := blind.Begin(setting), blind.Begin(setting)
				for range rapid.IntRange(0, 40).Draw(t, "steps") {
					taster := rapid.IntRange(0, len(plan.Tasters)-1).Draw(t, "taster")
					verb := rapid.IntRange(0, 9).Draw(t, "verb")
					pick := rapid.IntRange(0, 3).Draw(t, "pick")
					killed = reopened(t, setting, killed)
					a, b := stepBy(straight, taster, verb, pick), stepBy(killed, taster, verb, pick)
					if (a == nil) != (b == nil) {
						t.Fatalf("one went on (%v), the other did not (%v)", a, b)
					}
					checkInvariants(t, straight)
				}
				if x, y := asJSON(t, straight.Progress()), asJSON(t, killed.Progress()); x != y {
					t.Fatalf("straight through:\n%s\nkilled at each step:\n%s", x, y)
				}
			})
		})
	}
}

// settings are drawn once: they do not change.
var settings = func() map[string]blind.Setting {
	all := map[string]blind.Setting{}
	for _, plan := range everyPlan() {
		draft, err := blind.Draw(plan, chance(9))
		if err != nil {
			panic(err)
		}
		_, all[name(plan)], err = draft.Seal()
		if err != nil {
			panic(err)
		}
	}
	return all
}()

func asJSON(t *rapid.T, v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func reopened(t *rapid.T, setting blind.Setting, s *blind.Session) *blind.Session {
	var kept blind.Progress
	if err := json.Unmarshal([]byte(asJSON(t, s.Progress())), &kept); err != nil {
		t.Fatal(err)
	}
	again, err := blind.Resume(setting, kept)
	if err != nil {
		t.Fatalf("resume: %v", err)
	}
	for taster := range kept.Sheets {
		a, _ := s.At(taster)
		b, _ := again.At(taster)
		if asJSON(t, a) != asJSON(t, b) {
			t.Fatalf("resumed elsewhere: %+v, was %+v", b, a)
		}
	}
	return again
}

// stepBy tries one verb, which may well be refused.
func stepBy(s *blind.Session, taster, verb, pick int) error {
	step, _ := s.At(taster)
	plan := s.Setting().Plan
	switch verb {
	case 0:
		return s.AllergensShown(taster)
	case 1, 2:
		for _, a := range plan.Attributes {
			if err := s.Score(taster, a.Name, 1+pick); err != nil {
				return err
			}
		}
		return s.Tasted(taster)
	case 3:
		return s.Rinsed(taster, pick == 0)
	case 4, 5:
		samples := step.Serving.Samples
		if len(samples) == 0 {
			return blind.ErrStep
		}
		picks := []string{samples[pick%len(samples)]}
		if plan.Method == blind.Tetrad {
			picks = append(picks, samples[(pick+1)%len(samples)])
		}
		return s.Choose(taster, picks[:min(len(picks), plan.Method.Picks())]...)
	case 6:
		return s.HandIn(taster)
	case 7:
		if pick != 0 {
			return blind.ErrStep
		}
		return s.HandInMissing(taster, "a plate was dropped")
	case 8:
		return s.ChooseTie(taster)
	}
	return s.Remark(taster, "hm")
}

func checkInvariants(t *rapid.T, s *blind.Session) {
	s, err := blind.Resume(s.Setting(), s.Progress()) // Finish ends it
	if err != nil {
		t.Fatal(err)
	}
	p := s.Progress()
	handedIn := 0
	for _, sheet := range p.Sheets {
		handedIn += len(sheet.Answers)
		if sheet.Round != len(sheet.Answers) || (sheet.Phase == blind.PhaseDone) != (sheet.Round == s.Setting().Plan.Rounds) {
			t.Fatalf("a sheet stands wrong: %+v", sheet)
		}
	}
	if handedIn != s.HandedIn() {
		t.Fatalf("%d handed in, said %d", handedIn, s.HandedIn())
	}
	if _, err := s.Finish(); !s.AllHandedIn() && !errors.Is(err, blind.ErrIncomplete) {
		t.Fatalf("finished with %d rounds handed in: %v", handedIn, err)
	}
	if p2 := s.Progress(); p2.Ended != s.AllHandedIn() && s.Setting().Plan.Mode == blind.WithHelper {
		t.Fatalf("ended %v with all in %v", p2.Ended, s.AllHandedIn())
	}
}

func TestAnswersThatAMethodDoesNotTake(t *testing.T) {
	paired := planFor(blind.Paired, blind.WithHelper, 1, 1)
	sour := paired
	sour.Attribute = "sour"
	for _, c := range []struct {
		why    string
		plan   blind.Plan
		answer func(labels []string) blind.Answer
	}{
		{"nothing", paired, func([]string) blind.Answer { return blind.Answer{} }},
		{"two of one", paired, func(l []string) blind.Answer { return blind.Answer{Picks: l[:2]} }},
		{"a code of nowhere", paired, func([]string) blind.Answer { return blind.Answer{Picks: []string{"000"}} }},
		{"a tie and a choice", paired, func(l []string) blind.Answer { return blind.Answer{Picks: l[:1], Tie: true} }},
		{"a tie on sourness", sour, func([]string) blind.Answer { return blind.Answer{Tie: true} }},
		{"missing and given", paired, func(l []string) blind.Answer { return blind.Answer{Picks: l[:1], Missing: "x"} }},
		{"scores", paired, func(l []string) blind.Answer {
			return blind.Answer{Picks: l[:1], Scores: map[string]map[string]int{l[0]: {"sour": 1}}}
		}},
		{"the same twice", planFor(blind.Tetrad, blind.WithHelper, 1, 1), func(l []string) blind.Answer {
			return blind.Answer{Picks: []string{l[0], l[0]}}
		}},
		{"the reference", planFor(blind.DuoTrio, blind.WithHelper, 1, 1), func([]string) blind.Answer {
			return blind.Answer{Picks: []string{blind.ReferenceLabel}}
		}},
		{"no scores", planFor(blind.Scaling, blind.WithHelper, 1, 1), func([]string) blind.Answer { return blind.Answer{} }},
		{"a ten", planFor(blind.Scaling, blind.WithHelper, 1, 1), func(l []string) blind.Answer {
			row := map[string]int{"sour": 10, "chewy": 1, "liking": 1}
			return blind.Answer{Scores: map[string]map[string]int{l[0]: row, l[1]: row}}
		}},
		{"a line left out", planFor(blind.Scaling, blind.WithHelper, 1, 1), func(l []string) blind.Answer {
			row := map[string]int{"sour": 1, "liking": 1}
			return blind.Answer{Scores: map[string]map[string]int{l[0]: row, l[1]: row}}
		}},
	} {
		s := begin(t, c.plan)
		labels := s.Setting().Servings[0].Samples
		if err := s.TypeIn(0, c.answer(labels)); !errors.Is(err, blind.ErrAnswer) {
			t.Errorf("%s: %v", c.why, err)
		}
	}
}

func TestScalingScoresEachSampleBeforeTheNext(t *testing.T) {
	s := begin(t, planFor(blind.Scaling, blind.WithHelper, 1, 1))
	ok(t, s.AllergensShown(0))
	ok(t, s.Score(0, "sour", 9))
	if err := s.Tasted(0); !errors.Is(err, blind.ErrIncomplete) {
		t.Errorf("went on with a line empty: %v", err)
	}
	for _, bad := range []int{0, 10, -1} {
		if err := s.Score(0, "chewy", bad); !errors.Is(err, blind.ErrAnswer) {
			t.Errorf("score %d: %v", bad, err)
		}
	}
	if err := s.Score(0, "salt", 5); !errors.Is(err, blind.ErrAnswer) {
		t.Errorf("a line of nowhere: %v", err)
	}
	ok(t, s.Score(0, "sour", 7))
	ok(t, s.Score(0, "chewy", 2))
	ok(t, s.Score(0, "liking", 8))
	ok(t, s.Tasted(0))
	if got := at(t, s, 0).Current.Scores[s.Setting().Servings[0].Samples[0]]["sour"]; got != 7 {
		t.Errorf("sour is %d after being changed to 7", got)
	}
}

func TestPaperSheetsAreTypedIn(t *testing.T) {
	s := begin(t, planFor(blind.Triangle, blind.WithHelper, 2, 2))
	labels := func() []string { return at(t, s, 1).Serving.Samples }
	ok(t, s.TypeIn(1, blind.Answer{Picks: labels()[:1]}))
	if phase := at(t, s, 1).Phase; phase != blind.PhaseAllergens {
		t.Errorf("going on at the screen starts at %q: the allergens were not shown", phase)
	}
	if !s.Progress().Sheets[1].Answers[0].OnPaper {
		t.Error("it is not noted that the answer came on paper")
	}
	ok(t, s.AllergensShown(1))
	ok(t, s.Tasted(1))
	if err := s.TypeIn(1, blind.Answer{Picks: labels()[:1]}); !errors.Is(err, blind.ErrStep) {
		t.Errorf("typed in over a round being tasted: %v", err)
	}
	if _, err := s.At(2); err == nil {
		t.Error("a third taster of two")
	}
}

func TestEndingEarlyIsNoted(t *testing.T) {
	plan := planFor(blind.Triangle, blind.WithHelper, 1, 3)
	tasting := mustSeal(t, plan, chance(4))
	s := blind.Begin(tasting.setting)
	tasteRound(t, s, 0, firstPicks(plan))
	ok(t, s.Rinsed(0, false))
	if err := s.EndEarly(""); !errors.Is(err, blind.ErrAnswer) {
		t.Errorf("without a reason: %v", err)
	}
	ok(t, s.EndEarly("the ferry left"))
	proof, err := s.Finish()
	ok(t, err)
	if err := s.EndEarly("again"); !errors.Is(err, blind.ErrEnded) {
		t.Errorf("ended twice: %v", err)
	}
	opened, err := tasting.sealed.Unseal(proof)
	ok(t, err)
	if len(opened.Rounds) != 1 || opened.Progress.EndedEarly != "the ferry left" {
		t.Errorf("%d rounds, reason %q", len(opened.Rounds), opened.Progress.EndedEarly)
	}
	// Reopened the next day, the same tasting unseals again.
	again, err := blind.Resume(tasting.setting, s.Progress())
	ok(t, err)
	proof, err = again.Finish()
	ok(t, err)
	_, err = tasting.sealed.Unseal(proof)
	ok(t, err)
}

func TestAMissingRoundNeedsAReason(t *testing.T) {
	s := begin(t, planFor(blind.Paired, blind.WithHelper, 1, 2))
	if err := s.HandInMissing(0, "dropped"); !errors.Is(err, blind.ErrStep) {
		t.Errorf("before the allergens: %v", err)
	}
	ok(t, s.AllergensShown(0))
	if err := s.HandInMissing(0, ""); !errors.Is(err, blind.ErrAnswer) {
		t.Errorf("without a reason: %v", err)
	}
	ok(t, s.HandInMissing(0, "dropped"))
	if a := s.Progress().Sheets[0].Answers[0]; a.Missing != "dropped" || a.Counts() {
		t.Errorf("%+v", a)
	}
}

func TestProgressThatDoesNotFitIsRefused(t *testing.T) {
	plan := planFor(blind.Triangle, blind.Alone, 1, 2)
	setting := settings["triangle alone"]
	plan.Rounds = setting.Plan.Rounds
	fresh := func() blind.Progress {
		s := blind.Begin(setting)
		tasteRound(t, s, 0, firstPicks(plan))
		return s.Progress()
	}
	for why, change := range map[string]func(*blind.Progress){
		"no sheets":           func(p *blind.Progress) { p.Sheets = nil },
		"no slips":            func(p *blind.Progress) { p.Slips = nil },
		"a round too far":     func(p *blind.Progress) { p.Sheets[0].Round = 2 },
		"a round below":       func(p *blind.Progress) { p.Sheets[0].Round = -1 },
		"a phase of nowhere":  func(p *blind.Progress) { p.Sheets[0].Phase = "lunch" },
		"done too soon":       func(p *blind.Progress) { p.Sheets[0].Phase = blind.PhaseDone },
		"a sample too many":   func(p *blind.Progress) { p.Sheets[0].Sample = 3 },
		"an answer unknown":   func(p *blind.Progress) { p.Sheets[0].Answers[0].Picks = []string{"nowhere"} },
		"slips of nowhere":    func(p *blind.Progress) { p.Slips[0] = []string{"1", "2", "3"} },
		"slips of two plates": func(p *blind.Progress) { p.Slips[0] = setting.Servings[0].Slips[:2] },
	} {
		p := fresh()
		change(&p)
		if _, err := blind.Resume(setting, p); !errors.Is(err, blind.ErrProgress) {
			t.Errorf("%s: %v", why, err)
		}
	}
	if _, err := blind.Resume(setting, fresh()); err != nil {
		t.Errorf("what fits: %v", err)
	}
}

// Kept progress from elsewhere is refused or walks on, and never panics.
func FuzzResume(f *testing.F) {
	setting := settings["triangle alone"]
	data, err := json.Marshal(blind.Begin(setting).Progress())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte(`{"sheets":[{"round":1,"phase":"rinse","answers":[{"picks":["left"]}]}],"slips":[null,null,null,null,null]}`))
	f.Add([]byte(`{}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var p blind.Progress
		if json.Unmarshal(data, &p) != nil {
			return
		}
		s, err := blind.Resume(setting, p)
		if err != nil {
			return
		}
		if _, err := s.At(0); err != nil {
			t.Fatal(err)
		}
		for verb := range 10 {
			_ = stepBy(s, 0, verb, 0) // refused or not, it must not panic
		}
		s.SlipsWanted()
		if !slices.Contains([]blind.Phase{blind.PhaseAllergens, blind.PhaseSample, blind.PhaseRinse, blind.PhaseAnswer, blind.PhaseDone}, s.Progress().Sheets[0].Phase) {
			t.Fatal("a phase of nowhere")
		}
	})
}
