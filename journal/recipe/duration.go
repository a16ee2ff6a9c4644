package recipe

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

// isoDuration is ISO 8601-1:2019, section 5.5.2, without years and months: how long
// those are, nobody can say. The last number may have decimals, by point or comma.
var isoDuration = regexp.MustCompile(`^P(?:(\d+(?:[.,]\d+)?)W)?(?:(\d+(?:[.,]\d+)?)D)?(?:T(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$`)

// longest is the longest duration that is read: nobody ferments for years.
const longest = 366 * 24 * time.Hour

// ParseDuration reads an ISO 8601 duration of weeks, days, hours, minutes and
// seconds; false for anything else, and for more than a year.
func ParseDuration(s string) (time.Duration, bool) {
	m := isoDuration.FindStringSubmatch(strings.ToUpper(strings.TrimSpace(s)))
	if m == nil {
		return 0, false
	}
	var sum float64
	any := false
	for i, unit := range [...]time.Duration{7 * 24 * time.Hour, 24 * time.Hour, time.Hour, time.Minute, time.Second} {
		if m[i+1] == "" {
			continue
		}
		any = true
		n, err := strconv.ParseFloat(strings.Replace(m[i+1], ",", ".", 1), 64)
		if err != nil {
			return 0, false
		}
		sum += n * float64(unit)
	}
	if !any || sum > float64(longest) {
		return 0, false
	}
	return time.Duration(sum).Round(time.Second), true
}

// FormatDuration writes a duration as ISO 8601 in days, hours and minutes; what is left
// of a minute is rounded. It is empty for nothing.
func FormatDuration(d time.Duration) string {
	d = d.Round(time.Minute)
	if d <= 0 {
		return ""
	}
	var b strings.Builder
	b.WriteByte('P')
	if days := d / (24 * time.Hour); days > 0 {
		b.WriteString(strconv.Itoa(int(days)) + "D")
		d -= days * 24 * time.Hour
	}
	if d > 0 {
		b.WriteByte('T')
	}
	if h := d / time.Hour; h > 0 {
		b.WriteString(strconv.Itoa(int(h)) + "H")
	}
	if m := d % time.Hour / time.Minute; m > 0 {
		b.WriteString(strconv.Itoa(int(m)) + "M")
	}
	return b.String()
}
