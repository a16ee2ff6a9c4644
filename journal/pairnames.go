package journal

import (
	"strconv"
	"strings"
)

// PairNames is what two bakes are called beside one another, so that a tasting can say
// which is which: by their names or, where these are the same, by what comes after a comma:
// the culture, the day on which they were begun, the hour of one day, or a number. Of two of
// which one has no name, that one stays without.
func PairNames(r Reader, a, b *Bake) [2]string {
	pair := [2]*Bake{a, b}
	var out, culture, hour, day, number [2]string
	for i, b := range pair {
		out[i] = strings.TrimSpace(b.Name)
		if c, err := Get[Culture](r, b.Culture); err == nil { // without one it is told by something else
			culture[i] = c.Name
		}
		if !b.At.IsZero() {
			hour[i], day[i] = b.At.Format("15:04"), b.At.Format("2006-01-02")
		}
		number[i] = strconv.Itoa(i + 1)
	}
	if !strings.EqualFold(out[0], out[1]) {
		return out
	}
	by := number
	for _, told := range [][2]string{culture, day, hour} {
		if told[0] != told[1] && told[0] != "" && told[1] != "" {
			by = told
			break
		}
	}
	for i, name := range out {
		out[i] = strings.TrimPrefix(name+", "+by[i], ", ")
	}
	return out
}
