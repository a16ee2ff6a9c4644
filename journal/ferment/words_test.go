package ferment

import (
	"strings"
	"testing"

	"twinloaf/journal/say"
)

// Whatever is told by a kind has words of its own.
func TestEveryKindHasWords(t *testing.T) {
	said := map[string]bool{}
	for _, l := range []say.Line{
		DueFirst.Line(), DueRipe.Line(), DueWeekly.Line(), DueAsleep.Line(), DueSigns.Line(), DueNever.Line(), DueRhythm.Line(),
		TooSoon.Line(), TooLate.Line(), NoTimeLeft.Line(), TooLittle.Line(), WrongTemp.Line(),
		ConditionSafe.Line(), ConditionRises.Line(), ConditionAge.Line(), ConditionSmell.Line(), ConditionAcid.Line(),
		Gompertz.Line(), Logistic.Line(),
	} {
		if said[l.String()] || l.IsZero() {
			t.Errorf("%q is said of two kinds, or nothing is", l)
		}
		said[l.String()] = true
	}
}

func TestWordsOfAForecastSayWhatItRestsOn(t *testing.T) {
	for basis, want := range map[Basis]string{
		BasisPublished: "Guessing from published rates, approximate: nothing has been read of this culture's rise.",
		BasisReadings:  "Guessing from published rates and this feeding's readings (4), approximate.",
		BasisHistory:   "From its own past feedings (7), approximate.",
		BasisBoth:      "From its own past feedings (7) and this one's readings (4), approximate.",
	} {
		if got := (Forecast{Basis: basis, Feedings: 7, Readings: 4}).Rests().String(); got != want {
			t.Errorf("%s: %q, want %q", basis, got, want)
		}
	}
	for _, basis := range []Basis{BasisPublished, BasisReadings} {
		if got := (Forecast{Basis: basis, Kitchen: true}).Rests().String(); !strings.Contains(got, "your other cultures") {
			t.Errorf("%s, beside others: %q", basis, got)
		}
	}
}

// A refusal is understood without the technical words around it.
func TestRefusalsStandAlone(t *testing.T) {
	ask := saturdayAsk()
	ask.Now = ask.RipeAt
	_, late := PlanBuild(NewForecaster(UsualAssumptions(), nil), ask)
	_, much := NewState(MixOf(100, 1)).Feed(Refreshment{Kept: 101, Flour: 50, Water: 50})
	_, few := FitRise([]Point{{Hours: 1, Height: 0.2}})
	for _, tt := range []struct {
		err  error
		want string
	}{
		{late, "the hour it is wanted ripe has passed"},
		{much, "101 g cannot be kept: there are only 100 g in the jar"},
		{few, "A curve needs at least 4 readings at different times before it falls; you have 1."},
		{&TooFewError{Have: 3, Want: 4, LeftOut: 2}, "A curve needs at least 4 readings at different times before it falls; you have 3. Readings that came after the fall: 2."},
		{&InfeasibleError{Obstacle: NoTimeLeft}, "That cannot be done: no feeding time is left between now and then outside the hours of sleep."},
	} {
		l, ok := say.OfError(tt.err)
		if !ok || l.String() != tt.want || !strings.Contains(tt.err.Error(), tt.want) {
			t.Errorf("%v says %q, want %q", tt.err, l, tt.want)
		}
	}
}
