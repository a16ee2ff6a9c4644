package verdict_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
)

// Two tasters who each hold to their own taste in every round, and by chance to
// the same: twelve answers of twelve, and two tasters of two.
func TestASteadyTasteCountsOnce(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Paired, 2, 6), "", naming(12))})
	if v.Shown || v.Votes == nil || *v.Votes != (verdict.Votes{Counted: 2, Agreeing: 2}) || v.P != 0.5 || v.Critical != 0 {
		t.Errorf("shown %v, votes %+v, p %g", v.Shown, v.Votes, v.P)
	}
	says(t, v.Words, "12 of 12 answers liked “Harbour” better", "each taster counts once, for the loaf named more often: 2 of 2 for “Harbour”, 0 for “Gorse”", "2 tasters cannot show anything, even if all agree")

	// Eight tasters who all lean the same way: 2/2⁸.
	v = judged(t, verdict.Input{Opened: taste(t, plan(blind.Paired, 8, 3), "", func(n int, s blind.Serving, loaf func(string) int) blind.Answer {
		if s.Round == 2 {
			n = 24 // the third round goes to the other loaf
		}
		return naming(24)(n, s, loaf)
	})})
	if !v.Shown || math.Abs(v.P-2.0/256) > 1e-12 || v.Headline.String() != "“Harbour” is liked better." || v.Tally.Agreeing != 16 {
		t.Errorf("%s p %g %+v", v.Headline, v.P, v.Tally)
	}
	// One of them is even and counts for neither.
	v = judged(t, verdict.Input{Opened: taste(t, plan(blind.Paired, 3, 2), "", naming(5))})
	if *v.Votes != (verdict.Votes{Counted: 2, Agreeing: 2, Even: 1}) {
		t.Errorf("%+v", v.Votes)
	}
	says(t, v.Words, "1 for neither")
}

// A single taster's rounds say what that taster likes, and the headline says so.
func TestOneTastersLikingIsOnlyThat(t *testing.T) {
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Paired, 1, 8), "", naming(8))})
	if v.Headline.String() != "Ines likes “Harbour” better." || v.Votes != nil || math.Abs(v.P-2.0/256) > 1e-12 {
		t.Errorf("%s %+v p %g", v.Headline, v.Votes, v.P)
	}
	says(t, v.Words, "If Ines liked neither better")
}

// In scaling, too, several tasters count once each.
func TestScalingCountsTasters(t *testing.T) {
	p := scalingPlan(6)
	p.Tasters = []string{"Ines", "Tom"}
	higher := scaled(func(_, loaf int, _ string) int { return 4 + loaf })
	v := judged(t, verdict.Input{Opened: taste(t, p, "", higher)})
	if a := v.Attributes[0]; v.Shown || a.Test.Pairs != 2 || a.Test.P != 0.5 || len(a.Pairs) != 12 {
		t.Errorf("%+v", v.Attributes[0].Test)
	}
	says(t, slices.Concat(v.Words, v.Details), "Each taster counts once, with the mean of the rounds", "2 tasters cannot show anything")
	p.Rounds = 8
	v = judged(t, verdict.Input{Opened: taste(t, p, "", scaled(func(n, loaf int, _ string) int { return 5 + (n/2+loaf)%2 }))})
	says(t, v.Details, "2 tasters scored both alike on average and are left out of the test.") // though no pair was
	p.Rounds = 6
	sum, err := verdict.Pool([]verdict.Input{{Opened: taste(t, p, "", higher)}, {Opened: taste(t, scalingPlan(2), "", higher)}}, []bool{true, true})
	if err != nil || sum.Attributes[0].Test.Pairs != 2 {
		t.Errorf("Ines in both and Tom make two, not %+v, %v", sum.Attributes[0].Test, err)
	}
}

// What cannot be given is left out and said: no share below chance, and one-sided
// limits with a one-sided test.
func TestSharesSayWhatIsSo(t *testing.T) {
	for _, c := range []struct {
		right int
		want  string
	}{
		{2, "No more were right than guessing gives, so there is no share of those who can tell to give."},
		{5, "Estimated share of tasters who can really tell: 25 %; it may be none, and is at most 67 % (one-sided 95 % confidence limit)."},
		{7, "Estimated share of tasters who can really tell: 55 %, and at least 9 % (one-sided 95 % confidence limit, as the test is one-sided)."},
	} {
		v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Triangle, 10, 1), "", rightFor(c.right))})
		says(t, v.Words, c.want)
		if v.Shown && strings.Contains(c.want, "may be none") {
			t.Errorf("%d right: shown", c.right)
		}
	}
	p := plan(blind.Paired, 10, 1)
	p.Attribute, p.Expected = "sour", 1
	says(t, judged(t, verdict.Input{Opened: taste(t, p, "", naming(3))}).Words, "No more answers than guessing gives named “Harbour”")
	p.Expected = 0
	says(t, judged(t, verdict.Input{Opened: taste(t, p, "", naming(9))}).Words, "Estimated share of tasters who can really tell: 80 % (95 % confidence interval 11 % to 99 %, two-sided as the test is).")
	// Three of four tasters are always right, the fourth never: they differ.
	v := judged(t, verdict.Input{Opened: taste(t, plan(blind.Triangle, 4, 6), "", rightFor(18))})
	says(t, v.Details, "The confidence limits allow for tasters who differ")
	if v.Share.Least >= 0.35 {
		t.Errorf("at least %.2f, as if all were alike", v.Share.Least)
	}
}

// Which of three is more sour, and two of five.
func TestThreeAFCAndTwoOutOfFive(t *testing.T) {
	p := plan(blind.ThreeAFC, 1, 6)
	p.Attribute, p.Expected = "sour", 2
	v := judged(t, verdict.Input{Opened: taste(t, p, "", alone(1))})
	if v.Headline.String() != "“Gorse” is more sour." || math.Abs(v.P-1.0/729) > 1e-12 || v.DPrime == nil {
		t.Errorf("%s p %g", v.Headline, v.P)
	}
	v = judged(t, verdict.Input{Opened: taste(t, plan(blind.TwoOutOfFive, 1, 3), "", alone(2))})
	if v.Headline.String() != "They can be told apart." || math.Abs(v.P-0.001) > 1e-12 || v.DPrime != nil {
		t.Errorf("%s p %g", v.Headline, v.P)
	}
	says(t, v.Details, "No d′ is given for two-out-of-five: its published analysis (Ennis 2013, J Sens Stud 28:297) is not built in.")
}

// alone names the samples of the loaf that has n of them.
func alone(n int) func(int, blind.Serving, func(string) int) blind.Answer {
	return func(_ int, s blind.Serving, loaf func(string) int) blind.Answer {
		var of [3][]string
		for _, label := range s.Samples {
			of[loaf(label)] = append(of[loaf(label)], label)
		}
		for _, labels := range of {
			if len(labels) == n {
				return blind.Answer{Picks: labels}
			}
		}
		panic("no loaf has so many samples")
	}
}
