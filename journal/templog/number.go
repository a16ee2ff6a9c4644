package templog

import (
	"strconv"
	"strings"
)

// parseTemp reads a temperature with a decimal point or comma and, perhaps, its
// unit behind it.
func parseTemp(text string) (value float64, unit Unit, ok bool) {
	s := strings.TrimSpace(text)
	switch {
	case s == "":
		return 0, 0, false
	case strings.HasSuffix(s, "C") || strings.HasSuffix(s, "c"):
		s, unit = s[:len(s)-1], DegreesC
	case strings.HasSuffix(s, "F") || strings.HasSuffix(s, "f"):
		s, unit = s[:len(s)-1], DegreesF
	}
	for _, sign := range []string{"°", "º", "˚", "deg", " ", "\u00a0", "\u202f"} {
		s = strings.TrimSuffix(s, sign)
	}
	s = strings.TrimSpace(s)
	s = strings.Replace(s, "\u2212", "-", 1) // the typographic minus
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	// Only figures: ParseFloat would also take "inf", "1e300", "0x1p4" and "1_0".
	if s == "" || strings.Trim(s, "0123456789.+-") != "" {
		return 0, 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, unit, err == nil
}

// celsius turns a figure of a unit into °C. Units: exact definitions.
func celsius(v float64, u Unit) Celsius {
	if u == DegreesF {
		return Celsius((v - 32) / 1.8)
	}
	return Celsius(v)
}

// Believable temperatures of a kitchen, an oven left out: what lies beyond is a
// fault of the sensor.
const (
	coldest Celsius = -60
	hottest Celsius = 150
)

func believable(c Celsius) bool { return c >= coldest && c <= hottest }
