package say

import (
	"errors"
	"fmt"
	"testing"
	"time"
)

func TestLinesSayThemselves(t *testing.T) {
	at := time.Date(2026, time.March, 7, 17, 5, 0, 0, time.UTC)
	for _, tt := range []struct {
		line Line
		want string
	}{
		{Line{}, ""},
		{Of("No difference shown."), "No difference shown."},
		{N("{{.N}} round", "{{.N}} rounds", 1), "1 round"},
		{N("{{.N}} round", "{{.N}} rounds", 6), "6 rounds"},
		{N("{{.Who}} was right once", "{{.Who}} was right {{.N}} times", 2, With{"Who": "Ines"}), "Ines was right 2 times"},
		{Begin(N("{{.N}} of {{.All}}", "{{.N}} of {{.All}}", 2, With{"All": N("{{.N}} round", "{{.N}} rounds", 3)})), "2 of 3 rounds"},
		{Begin(Of("élan")), "Élan"},
		{And[string](), ""},
		{And("rye"), "rye"},
		{And("rye", "spelt", "wheat"), "rye, spelt and wheat"},
		{Join(Of("One."), Line{}, Of("Two.")), "One. Two."},
		{Of("at {{.T}} for {{.G}}", With{"T": Celsius(24.25, 1), "G": Grams(40, 0)}), "at 24.2 °C for 40 g"},
		{Of("{{.P}} by {{.At}}", With{"P": Round(2.50, 2), "At": Moment{at, WeekdayClock}}), "2.5 by Sat 17:05"},
		{Of("{{.Missing}}, {{broken"), ", {{broken"},
		{Of("{{.Broken"), "{{.Broken"},
	} {
		if got := tt.line.String(); got != tt.want {
			t.Errorf("%+v says %q, want %q", tt.line, got, tt.want)
		}
	}
}

func TestFillLooksEachTextUp(t *testing.T) {
	l := Join(Of("Feed {{.Who}}.", With{"Who": "Gorse"}), N("One loaf.", "{{.N}} loaves.", 3))
	shout := l.Fill(func(text, _ string, _ int) string { return "<" + text + ">" }, func(v any) string { return fmt.Sprint(v) })
	if want := "<<Feed Gorse.> <3 loaves.>>"; shout != want {
		t.Errorf("%q, want %q", shout, want)
	}
}

func TestThousands(t *testing.T) {
	for n, want := range map[float64]string{0: "0", 999: "999", 1000: "1\u202f000", 1234567: "1\u202f234\u202f567"} {
		if got := Thousands(n); got != want {
			t.Errorf("%g reads %q, want %q", n, got, want)
		}
	}
}

func TestErrorsSayWhatTheyHaveToSay(t *testing.T) {
	none := NewError("nothing of the culture is kept")
	kind := errors.New("kind")
	for _, tt := range []struct {
		err  error
		said bool
		want string
	}{
		{fmt.Errorf("feeding 3: %w", none), true, "nothing of the culture is kept"},
		{fmt.Errorf("add: %w", &Error{Said: Of("{{.Name}} is a folder", With{"Name": "crumb"}), Err: kind}), true, "crumb is a folder"},
		{kind, false, ""},
	} {
		l, ok := OfError(tt.err)
		if ok != tt.said || l.String() != tt.want {
			t.Errorf("%v says %q (%v), want %q", tt.err, l, ok, tt.want)
		}
	}
	if !errors.Is(fmt.Errorf("feeding 3: %w", none), none) || !errors.Is(&Error{Err: kind}, kind) {
		t.Error("an error is not told by its kind")
	}
}
