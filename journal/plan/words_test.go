package plan

import (
	"errors"
	"testing"
	"time"

	"twinloaf/journal/say"
)

func TestEveryKindOfStepHasAName(t *testing.T) {
	said := map[string]Kind{}
	for _, k := range Kinds() {
		name := k.Line().String()
		if other, twice := said[name]; twice || name == "" {
			t.Errorf("%q is called %q, as %q is", k, name, other)
		}
		said[name] = k
	}
	for step, want := range map[Step]string{
		{Kind: Turns}:                       "Folds",
		{}:                                  "Next step",
		{Kind: "lamination"}:                "lamination",
		{Kind: Bulk, Name: "In {{.Where}}"}: "In {{.Where}}",
	} {
		if got := step.Title(); got != want {
			t.Errorf("%+v is called %q, want %q", step, got, want)
		}
	}
}

func TestLengthsInWords(t *testing.T) {
	for m, want := range map[Minutes]string{0: "0 min", 45: "45 min", 60: "1 h", 795: "13 h 15 min", -90: "−1 h 30 min"} {
		if got := m.String(); got != want {
			t.Errorf("%d minutes read %q, want %q", int(m), got, want)
		}
	}
}

// A refusal is understood by itself, and still known by its kind.
func TestRefusalsAreSentences(t *testing.T) {
	p := Plan{Start: time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC), Steps: CountryLoaf()}
	rest := Ref{Step: "rest"}
	marked, err := p.Done(rest, p.Start)
	if err != nil {
		t.Fatal(err)
	}
	_, dealt := marked.Shift(rest, 10)
	_, early := p.Shift(rest, -30)
	_, none := p.Done(Ref{Step: "proof"}, p.Start)
	long := CountryLoaf()
	long[2].Length = 100
	for _, tt := range []struct {
		err, kind error
		want      string
	}{
		{dealt, ErrDealtWith, "Rest cannot be moved: it has been dealt with already"},
		{early, ErrTooEarly, "Rest cannot be moved by −30 min: it would come before what goes before it"},
		{none, ErrNoSuchMoment, "the plan has no such moment"},
		{Check(nil), ErrSteps, "there are no steps yet"},
		{Check(long), ErrSteps, "these steps make no plan: step 3, Folds: 6 folds, one every 30 min, need more than 1 h 40 min"},
	} {
		l, ok := say.OfError(tt.err)
		if !ok || l.String() != tt.want || !errors.Is(tt.err, tt.kind) {
			t.Errorf("%v says %q, want %q", tt.err, l, tt.want)
		}
	}
}
