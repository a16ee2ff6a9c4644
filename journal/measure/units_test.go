package measure_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/measure"
)

func TestParseNumber(t *testing.T) {
	point, comma := measure.Units{}, measure.Units{DecimalComma: true}
	cases := []struct {
		u    measure.Units
		text string
		want float64
	}{
		{point, "500", 500},
		{point, " 24.6 ", 24.6},
		{point, "24,6", 24.6},
		{point, "1,200", 1200},
		{point, "0,385", 0.385},
		{point, "1,2345", 1.2345},
		{point, "1.200", 1.2},
		{point, "1,234.5", 1234.5},
		{point, "1.234,5", 1234.5},
		{point, "1,234,567", 1234567},
		{point, "1 200", 1200},
		{point, "1\u202f200", 1200},
		{point, "1'200", 1200},
		{point, "-18", -18},
		{point, "−18", -18},
		{point, "1/2", 0.5},
		{point, "1 1/2", 1.5},
		{point, "½", 0.5},
		{point, "2½", 2.5},
		{comma, "24,6", 24.6},
		{comma, "24.6", 24.6},
		{comma, "1.200", 1200},
		{comma, "1,200", 1.2},
		{comma, "0.385", 0.385},
	}
	for _, c := range cases {
		got, err := c.u.ParseNumber(c.text)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("ParseNumber(%q, comma %v) = %v, %v; want %v", c.text, c.u.DecimalComma, got, err, c.want)
		}
	}
	for _, bad := range []string{"", " ", "abc", "12 oz", "--3", "1/0", "."} {
		if got, err := point.ParseNumber(bad); err == nil {
			t.Errorf("ParseNumber(%q) = %v; want an error", bad, got)
		}
	}
}

// The sizes of units are those of NIST Handbook 44 (2023), appendix C; the fixed
// points of temperature are defined.
func TestMeasuresReadTypedUnits(t *testing.T) {
	metric, us := measure.Units{}, measure.Units{Fahrenheit: true, Ounces: true}
	cases := []struct {
		what string
		m    measure.Measure
		text string
		want float64
	}{
		{"weight", metric.Weight(), "500", 500},
		{"weight", metric.Weight(), "500g", 500},
		{"weight", metric.Weight(), "1,2 kg", 1200},
		{"weight", metric.Weight(), "12 oz", 12 * 28.349523125},
		{"weight", metric.Weight(), "1 lb 4 oz", 453.59237 + 4*28.349523125},
		{"weight", metric.Weight(), "1½ lb", 1.5 * 453.59237},
		{"weight", us.Weight(), "12", 12 * 28.349523125},
		{"weight", us.Weight(), "340 g", 340},
		{"temperature", metric.Temperature(), "24,6", 24.6},
		{"temperature", metric.Temperature(), "78F", (78 - 32) * 5.0 / 9},
		{"temperature", metric.Temperature(), "212 °F", 100},
		{"temperature", metric.Temperature(), "-40 f", -40},
		{"temperature", us.Temperature(), "32", 0},
		{"temperature", us.Temperature(), "24.6 °C", 24.6},
		{"length", metric.Length(), "11.5", 115},
		{"length", metric.Length(), "4 in", 101.6},
		{"volume", metric.Volume(), "1.8 l", 1800},
		{"volume", us.Volume(), "2 cups", 2 * 236.5882365},
		{"duration", metric.Duration(), "4 h 30 min", 270},
		{"duration", metric.Duration(), "4:30", 270},
		{"duration", metric.Duration(), "90", 90},
		{"duration", metric.Duration(), "1.5 h", 90},
		{"percent", metric.Percent(1), "72 %", 72},
		{"number", metric.Number("ml", 0), "12 ml", 12},
	}
	for _, c := range cases {
		got, err := c.m.Parse(c.text)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s %q = %v, %v; want %v", c.what, c.text, got, err, c.want)
		}
	}
}

func TestMeasuresRefuseWithASentence(t *testing.T) {
	u := measure.Units{}
	cases := []struct {
		m    measure.Measure
		text string
		says string
	}{
		{u.Weight(), "a handful", "not a number"},
		{u.Weight(), "3 cups", "cups"},
		{u.Weight(), "1 lb 4", "no unit"},
		{u.Temperature(), "24 K", "K"},
		{u.Temperature(), "-300 C", "cold"},
	}
	for _, c := range cases {
		if _, err := c.m.Parse(c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("Parse(%q) says %v; want a sentence with %q", c.text, err, c.says)
		}
	}
}

func TestMeasuresWriteOneFace(t *testing.T) {
	metric, us := measure.Units{DecimalComma: true}, measure.Units{Fahrenheit: true, Ounces: true}
	cases := []struct{ got, want string }{
		{metric.Temperature().Write(24.6), "24,6\u00a0°C"},
		{us.Temperature().Write(100), "212\u00a0°F"},
		{metric.Weight().Write(950), "950\u00a0g"},
		{us.Weight().Write(453.59237), "16\u00a0oz"},
		{metric.Duration().Write(270), "4\u00a0h 30\u00a0min"},
		{metric.Percent(0).Write(72.4), "72\u00a0%"},
		{metric.Weight().Write(math.NaN()), "?\u00a0g"},
		{metric.Weight().Write(-0.001), "0\u00a0g"},
	}
	for _, c := range cases {
		if c.got != c.want {
			t.Errorf("wrote %q, want %q", c.got, c.want)
		}
	}
}

// What is written is read as the same figure, to the last place written.
func TestMeasuresReadWhatTheyWrite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := measure.Units{
			Fahrenheit: rapid.Bool().Draw(t, "fahrenheit"), Ounces: rapid.Bool().Draw(t, "ounces"),
			DecimalComma: rapid.Bool().Draw(t, "comma"),
		}
		for name, c := range map[string]struct {
			m    measure.Measure
			step float64
		}{
			"weight": {u.Weight(), 0.3}, "temperature": {u.Temperature(), 0.06},
			"length": {u.Length(), 0.6}, "volume": {u.Volume(), 2},
		} {
			v := rapid.Float64Range(0, 9000).Draw(t, name)
			got, err := c.m.Parse(c.m.Write(v))
			if err != nil || math.Abs(got-v) > c.step {
				t.Fatalf("%s %v was written %q and read as %v, %v", name, v, c.m.Write(v), got, err)
			}
		}
	})
}

func TestLocaleUnits(t *testing.T) {
	cases := []struct {
		locale string
		want   measure.Units
	}{
		{"en-GB", measure.Units{Currency: "GBP"}},
		{"en_US.UTF-8", measure.Units{Fahrenheit: true, Ounces: true, TwelveHour: true, MonthFirst: true, Letter: true, Currency: "USD"}},
		{"en-US", measure.Units{Fahrenheit: true, Ounces: true, TwelveHour: true, MonthFirst: true, Letter: true, Currency: "USD"}},
		{"de-AT", measure.Units{DecimalComma: true, DoughYield: true, Currency: "EUR"}},
		{"de-CH", measure.Units{DoughYield: true, Currency: "CHF"}},
		{"en-AU", measure.Units{TwelveHour: true, Currency: "AUD"}},
		{"nonsense!", measure.Units{}},
	}
	for _, c := range cases {
		if got := measure.LocaleUnits(c.locale); got != c.want {
			t.Errorf("LocaleUnits(%q) = %+v, want %+v", c.locale, got, c.want)
		}
	}
}

func FuzzMeasure(f *testing.F) {
	for _, s := range []string{"1 lb 4 oz", "½", "1/2", "1'200,5 g", "-18 °C", "1e9", "99999999999999999999", "12\u00a0g", "1 2/3 oz"} {
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		u := measure.Units{DecimalComma: comma}
		for _, m := range []measure.Measure{u.Weight(), u.Temperature(), u.Duration(), u.Volume()} {
			v, err := m.Parse(text)
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("Parse(%q) gave %v", text, v)
			}
			if err != nil && err.Error() == "" {
				t.Errorf("Parse(%q) refuses without a sentence", text)
			}
		}
	})
}
