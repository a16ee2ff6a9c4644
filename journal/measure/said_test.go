package measure

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"twinloaf/assets/words"
	"twinloaf/journal/say"
)

func TestSay(t *testing.T) {
	at := time.Date(2026, time.March, 7, 17, 5, 0, 0, time.UTC) // a Saturday
	metric, american := Units{}, Units{Fahrenheit: true, Ounces: true, TwelveHour: true, MonthFirst: true}
	comma := Units{DecimalComma: true}
	for _, tt := range []struct {
		name string
		line say.Line
		u    Units
		want string
	}{
		{"nothing", say.Line{}, metric, ""},
		{"a name the baker gave", say.Of("{{.Loaf}} is liked better.", say.With{"Loaf": "{{.Not}} a template"}), metric, "{{.Not}} a template is liked better."},
		{"a temperature", say.Of("at {{.Warm}}", say.With{"Warm": say.Celsius(24.5, 1)}), metric, "at 24.5\u00a0°C"},
		{"a temperature in Fahrenheit", say.Of("at {{.Warm}}", say.With{"Warm": say.Celsius(25, 1)}), american, "at 77.0\u00a0°F"},
		{"a difference in Fahrenheit", say.Of("by {{.Warm}}", say.With{"Warm": say.Quantity{Number: say.Number{Value: 2, Decimals: 1}, Unit: "°C", Difference: true}}), american, "by 3.6\u00a0°F"},
		{"a comma", say.Of("p {{.P}}", say.With{"P": say.Number{Value: 0.037, Decimals: say.AsNeeded}}), comma, "p 0,037"},
		{"a weight", say.Of("{{.G}}", say.With{"G": say.Grams(100, 0)}), american, "3.53\u00a0oz"},
		{"a moment", say.Of("{{.At}}", say.With{"At": say.Moment{At: at, As: say.WeekdayClock}}), american, "Sat 5:05\u00a0pm"},
		{"a day", say.Of("{{.At}}", say.With{"At": say.Moment{At: at, As: say.Day}}), metric, "7\u00a0March"},
		{"lines in a line", say.Join(say.Begin(say.And("a", "b", "c")), say.Of("Then."), say.Line{}), metric, "A, b and c Then."},
	} {
		if got := tt.u.Say(tt.line); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestWhy(t *testing.T) {
	errNone := say.NewError("nothing of the culture is kept")
	for _, tt := range []struct {
		err  error
		want string
	}{
		{fmt.Errorf("feeding 3 of 4: %w", errNone), "Nothing of the culture is kept."},
		{errors.New("disk on fire"), "Something went wrong: disk on fire."},
	} {
		if got := (Units{}).ErrorText(tt.err); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.err, got, tt.want)
		}
	}
}

func TestWordsCountAsTheCatalogueDoes(t *testing.T) {
	if err := words.Load(); err != nil {
		t.Fatal(err)
	}
	find := Units{}.Locale().Find
	for _, c := range []struct {
		text, one string
		n         int
		want      string
	}{
		{"{{.N}} values", "{{.N}} value", 1, "{{.N}} value"},
		{"{{.N}} values", "{{.N}} value", 2, "{{.N}} values"},
		{"{{.N}} values", "{{.N}} value", 1, "{{.N}} value"},
		{"{{.From}} to {{.To}}", "", 0, "{{.From}} to {{.To}}"},
		{"missing", "", 0, "missing"},
	} {
		if got := find(c.text, c.one, c.n); got != c.want {
			t.Errorf("for %d: %q, want %q", c.n, got, c.want)
		}
	}
}
