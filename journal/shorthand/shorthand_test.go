package shorthand_test

import (
	"math"
	"strconv"
	"testing"
	"time"

	"twinloaf/journal/shorthand"
)

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

var comma = shorthand.Style{Comma: true}

// A Wednesday.
var now = time.Date(2026, 11, 25, 8, 54, 30, 0, time.UTC)

func TestWhenIsSaid(t *testing.T) {
	for text, want := range map[string]string{
		"half past seven": "25 07:30", "half seven": "25 07:30", "half past 7": "25 07:30", "half past seven in the evening": "25 19:30",
		"quarter past six": "25 06:15", "quarter to eight": "25 07:45", "quarter after nine": "25 09:15", "ten past six": "25 06:10",
		"twenty to nine": "25 08:40", "five to ten": "25 09:55", "25 past 6": "25 06:25", "7 o'clock": "25 07:00", "seven o’clock": "25 07:00",
		"at seven": "25 07:00", "at 7": "25 07:00", "at seven in the evening": "25 19:00", "7 in the morning": "25 07:00", "8 at night": "25 20:00",
		"tomorrow at six": "26 06:00", "tomorrow half past six": "26 06:30", "yesterday at quarter past nine": "24 09:15",
		"tonight at nine": "25 21:00", "tonight 9": "25 21:00", "this evening at eight": "25 20:00", "this morning at 6": "25 06:00",
		"half an hour ago": "25 08:24", "an hour ago": "25 07:54", "in half an hour": "25 09:24", "in an hour and a half": "25 10:24",
		"in 40 min": "25 09:34", "in two hours": "25 10:54", "1 h 30 min ago": "25 07:24", "midday": "25 12:00", "saturday at noon": "28 12:00",
		"jetzt": "25 08:54", "vor 20 min": "25 08:34", "vor 20 Minuten": "25 08:34", "vor einer halben Stunde": "25 08:24", "vor 2 Stunden": "25 06:54",
		"in 40 Minuten": "25 09:34", "in einer Stunde": "25 09:54", "in anderthalb Stunden": "25 10:24",
		"halb acht": "25 07:30", "halb 8": "25 07:30", "halb acht abends": "25 19:30", "viertel nach sieben": "25 07:15", "viertel vor acht": "25 07:45",
		"viertel acht": "25 07:15", "dreiviertel acht": "25 07:45", "drei viertel acht": "25 07:45", "zehn nach sechs": "25 06:10", "zehn vor acht": "25 07:50",
		"fünf vor halb neun": "25 08:25", "fünf nach halb neun": "25 08:35", "sieben Uhr": "25 07:00", "um 7": "25 07:00", "um sieben": "25 07:00",
		"um 7 Uhr": "25 07:00", "19 Uhr": "25 19:00", "19 Uhr 30": "25 19:30", "19.30 Uhr": "25 19:30", "19:30 Uhr": "25 19:30", "7:30": "25 07:30",
		"gestern 21:10": "24 21:10", "gestern um 21 Uhr": "24 21:00", "gestern Abend um 9": "24 21:00", "vorgestern 8 Uhr": "23 08:00",
		"heute 7:30": "25 07:30", "morgen 6 Uhr": "26 06:00", "morgen früh um 6": "26 06:00", "morgen halb sieben": "26 06:30", "übermorgen 6:00": "27 06:00",
		"Samstag 8 Uhr": "28 08:00", "am Samstag um 8": "28 08:00", "24. November 07:30": "24 07:30", "mittags": "25 12:00", "heute Abend um 8": "25 20:00",
		"7.30": "25 07:30", "19.30": "25 19:30", "07.05 Uhr": "25 07:05", "um 7.30": "25 07:30", "um 7.30 Uhr": "25 07:30", "at 10.05": "25 10:05", "um 10.05": "25 10:05",
		"gestern 21.10": "24 21:10", "yesterday 10.05": "24 10:05", "24.11. 7.30": "24 07:30", "24.11. 10.05": "24 10:05", "Samstag 8.30": "28 08:30", "7.30 in the evening": "25 19:30",
		"Tue 24 Nov 07:30": "24 07:30", "Dienstag 24.11.": "24 12:00", "24.11": "24 12:00", "24.11.": "24 12:00", "um 24.11": "24 12:00",
	} {
		got, err := shorthand.Style{}.When(text, now)
		if err != nil || got.Format("2 15:04") != want {
			t.Errorf("%q is %s (%v), want %s", text, got.Format("2 15:04"), err, want)
		}
	}
	for _, text := range []string{"", "soon", "half", "half past", "quarter", "7.60", "24.30", "7.301", "past six", "seven eight", "halb", "um", "at", "this evening", "abends", "vor", "25 uhr", "99 past 7", "Mon 24 Nov 07:30", "Saturday 10.05", "today fri", "half past thirty", "in the evening"} {
		if got, err := (shorthand.Style{}).When(text, now); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}

func TestRise(t *testing.T) {
	for text, want := range map[string]shorthand.Rise{
		"1.8": {Times: 1.8}, "1,8": {Times: 1.8}, "1.8x": {Times: 1.8}, "x1.8": {Times: 1.8}, "×2": {Times: 2}, "2×": {Times: 2}, "2 times": {Times: 2}, "2-fold": {Times: 2},
		"20 %": {Times: 1.2}, "20%": {Times: 1.2}, "+20 %": {Times: 1.2}, "80 percent": {Times: 1.8}, "um 80 %": {Times: 1.8}, "80 Prozent": {Times: 1.8}, "1,8-fach": {Times: 1.8}, "1,8fach": {Times: 1.8},
		"1.2": {Times: 1.2}, "doubled": {Times: 2}, "Doubled": {Times: 2}, "verdoppelt": {Times: 2}, "tripled": {Times: 3}, "by half": {Times: 1.5}, "half as much again": {Times: 1.5},
		"92 mm": {MM: 92}, "92mm": {MM: 92}, "9.2 cm": {MM: 92}, "9,2 cm": {MM: 92}, "92": {MM: 92}, "3 in": {MM: 76.2}, "6": {MM: 6}, "5.9": {Times: 5.9},
	} {
		if got, err := (shorthand.Style{}).Rise(text); err != nil || math.Abs(got.Times-want.Times) > 1e-9 || math.Abs(got.MM-want.MM) > 1e-9 {
			t.Errorf("%q is %+v (%v), want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "high", "-1", "0", "1:2", "x", "%", "-100 %", "2 kg", "1.8 1.9"} {
		if got, err := (shorthand.Style{}).Rise(text); err == nil {
			t.Errorf("%q is taken for %+v", text, got)
		}
	}
}

func TestRatio(t *testing.T) {
	for text, want := range map[string][3]float64{
		"1:2:2": {1, 2, 2}, "1:5:5": {1, 5, 5}, "1 : 2 : 2": {1, 2, 2}, "1/2/2": {1, 2, 2}, "1 2 2": {1, 2, 2}, "1:2": {1, 2, 2}, "1 to 2 to 2": {1, 2, 2}, "1 zu 2 zu 2": {1, 2, 2},
		"1:2:1.6": {1, 2, 1.6}, "1:2:1,6": {1, 2, 1.6}, "2:3:3": {2, 3, 3}, "1:0.5:0.5": {1, .5, .5}, "1:0:0": {1, 0, 0},
	} {
		k, f, w, err := shorthand.Style{}.Ratio(text)
		if got := [3]float64{k, f, w}; err != nil || got != want {
			t.Errorf("%q is %v (%v), want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "1", "1:", "1:2:", ":1:2", "1::2", "0:1:1", "1:2:3:4", "a:b:c", "-1:2:2", "1:-2:2"} {
		if _, _, _, err := (shorthand.Style{}).Ratio(text); err == nil {
			t.Errorf("%q is taken for a ratio", text)
		}
	}
}

func TestSpansWeightsAndTemperatures(t *testing.T) {
	type read func(shorthand.Style, string) (float64, error)
	span, weight, temp := read(shorthand.Style.Span), read(shorthand.Style.Weight), read(shorthand.Style.Temperature)
	for _, c := range []struct {
		read read
		text string
		want float64
	}{
		{span, "45", 45}, {span, "45 min", 45}, {span, "4 h", 240}, {span, "4h30", 270}, {span, "4 h 30", 270}, {span, "4:30", 270}, {span, "4 h 30 min", 270}, {span, "1.5 h", 90}, {span, "1½ h", 90}, {span, "90 minutes", 90},
		{span, "an hour", 60}, {span, "half an hour", 30}, {span, "an hour and a half", 90}, {span, "two hours", 120}, {span, "2 hours and 15 minutes", 135}, {span, "three quarters of an hour", 45},
		{span, "eine Stunde", 60}, {span, "eine halbe Stunde", 30}, {span, "anderthalb Stunden", 90}, {span, "2 Std", 120}, {span, "2 Std. 30 Min.", 150}, {span, "zwei Stunden", 120}, {span, "2 Stunden und 15 Minuten", 135}, {span, "Viertelstunde", 15}, {span, "12 Stunden", 720}, {span, "2 Tage", 2880},
		{weight, "300", 300}, {weight, "300 g", 300}, {weight, "1,234.5", 1234.5}, {weight, "1.234,5", 1234.5}, {weight, "1.000.000", 1e6}, {weight, "1,00,000", 1e5}, {weight, "1’234’567.8", 1234567.8}, {weight, "1.5 kg", 1500}, {weight, "1 lb 2 oz", pound + 2*ounce}, {weight, "500 Gramm", 500}, {weight, "ein Pfund", 500}, {weight, "half a pound", pound / 2}, {weight, "1 Kilo", 1000},
		{temp, "24", 24}, {temp, "24 °C", 24}, {temp, "24°", 24}, {temp, "24C", 24}, {temp, "75F", 215. / 9}, {temp, "75 °F", 215. / 9}, {temp, "24 Grad", 24}, {temp, "24 degrees", 24}, {temp, "75 degrees F", 215. / 9}, {temp, "24,5", 24.5}, {temp, "-18", -18},
	} {
		if got, err := c.read(shorthand.Style{}, c.text); err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%q is %v (%v), want %v", c.text, got, err, c.want)
		}
	}
	if got, err := (shorthand.Style{Fahrenheit: true}).Temperature("75"); err != nil || math.Abs(got-215./9) > 1e-9 {
		t.Errorf("75 where degrees are Fahrenheit is %v, %v", got, err)
	}
	if got, err := comma.Weight("1.000 g"); err != nil || got != 1000 {
		t.Errorf("1.000 g with a decimal comma is %v, %v", got, err)
	}
	for _, c := range []struct {
		read read
		text string
	}{{span, "soon"}, {span, "4:75"}, {weight, "300 sacks"}, {weight, ""}, {weight, "500 20 g"}, {weight, "300-250 g"}, {weight, "300–250 g"}, {weight, "300 g - 250 g"}, {weight, "1 lb-2 oz"}, {weight, "12.11.2026"}, {weight, "1.2.3 kg"}, {weight, "1,5.0"}, {weight, "1,2,3"}, {weight, "1.234,567,8"}, {weight, "500 g 20"}, {span, "1 30 min"}, {temp, "warm"}, {temp, "24 K"}, {temp, "-300"}, {span, "-"}} {
		if got, err := c.read(shorthand.Style{}, c.text); err == nil {
			t.Errorf("%q is taken for %v", c.text, got)
		}
	}
}

// FuzzFigure looks for figures that are none, and times that are no whole minute.
func FuzzFigure(f *testing.F) {
	for _, text := range []string{"half past seven", "fünf vor halb neun", "1:2:2", "80 %", "92 mm", "75F", "1 lb 2 oz", "4:30", "24 Nov 07:30", "1 1/2", "½", "−20", "1e9", "in 1/0 min"} {
		f.Add(text, true)
	}
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		s := shorthand.Style{Comma: comma}
		finite := func(what string, v float64, err error) {
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("%s of %q is %v", what, text, v)
			}
			if err != nil && err.Error() == "" {
				t.Errorf("%s of %q is refused without a word", what, text)
			}
		}
		v, err := s.Number(text)
		finite("the number", v, err)
		v, err = s.Span(text)
		finite("the span", v, err)
		v, err = s.Weight(text)
		finite("the weight", v, err)
		v, err = s.Temperature(text)
		finite("the temperature", v, err)
		r, err := s.Rise(text)
		finite("the rise", r.Times+r.MM, err)
		k, fl, w, err := s.Ratio(text)
		finite("the ratio", k+fl+w, err)
		if at, err := s.When(text, now); err == nil && (at.Second() != 0 || at.Nanosecond() != 0 || at.Year() < 1800 || at.Year() > 2300) {
			t.Errorf("%q is %v", text, at)
		}
	})
}
