package shorthand

import (
	"strconv"
	"strings"
)

// spanWords are spans that are said without a number of their own, in minutes.
var spanWords = map[string]float64{
	"half an hour": 30, "a half hour": 30, "half hour": 30, "an hour and a half": 90, "one and a half hours": 90,
	"a quarter of an hour": 15, "quarter of an hour": 15, "a quarter hour": 15, "three quarters of an hour": 45,
	"an hour": 60, "a minute": 1, "a day": 1440, "half a day": 720, "a couple of hours": 120,
	"eine halbe stunde": 30, "einer halben stunde": 30, "halbe stunde": 30, "einer viertelstunde": 15, "eine viertelstunde": 15, "viertelstunde": 15,
	"einer dreiviertelstunde": 45, "eine dreiviertelstunde": 45, "dreiviertelstunde": 45,
}

// Span reads minutes: "45", "45 min", "4 h 30 min", "4:30", "1h30", "an hour and a half",
// "anderthalb Stunden".
func (s Style) Span(text string) (float64, error) {
	if len(text) > longest {
		return 0, ErrNumber
	}
	low := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	if v, ok := spanWords[low]; ok {
		return v, nil
	}
	if h, m, ok := strings.Cut(strings.TrimSuffix(strings.TrimSuffix(low, " h"), " std"), ":"); ok {
		hours, err1 := strconv.ParseUint(h, 10, 16)
		minutes, err2 := strconv.ParseUint(m, 10, 8)
		if err1 != nil || err2 != nil || minutes >= 60 {
			return 0, ErrNumber
		}
		return float64(hours)*60 + float64(minutes), nil
	}
	if h, m, ok := strings.Cut(low, "h"); ok { // 1h30
		if hours, err := strconv.ParseUint(strings.TrimSpace(h), 10, 16); err == nil && m != "" {
			if minutes, err := strconv.ParseUint(strings.TrimSpace(m), 10, 8); err == nil && minutes < 60 {
				return float64(hours)*60 + float64(minutes), nil
			}
		}
	}
	low = strings.NewReplacer(" and ", " ", " und ", " ").Replace(low)
	return s.Sum(low, "min", spans)
}
