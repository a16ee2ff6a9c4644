package templog

import "strings"

// heading is the nearest row above the data of at least two fields, not one of
// them a figure.
func (c columns) heading(firstLine int) []string {
	for i := len(c.rows) - 1; i >= 0; i-- {
		r := c.rows[i]
		if r.line >= firstLine || len(r.fields) < 2 {
			continue
		}
		for _, f := range r.fields {
			if _, _, ok := parseTemp(f); ok {
				return nil
			}
		}
		return r.fields
	}
	return nil
}

// headingRank says how much a heading speaks for a temperature, or against.
func headingRank(h string) int {
	low := strings.ToLower(h)
	for _, no := range []string{"hum", "feuch", "umid", "rh", "%", "dew", "tau", "press", "hpa", "batt", "volt", "index", "no.", "#", "co2", "count", "record"} {
		if strings.Contains(low, no) {
			return -3
		}
	}
	for _, yes := range []string{"temp", "°", "celsius", "fahrenheit", "degc", "degf", "deg c", "deg f", "probe"} {
		if strings.Contains(low, yes) {
			return 3
		}
	}
	return 0
}

// headingUnit finds a unit in a heading.
func headingUnit(h string) Unit {
	low := " " + strings.ToLower(h) + " "
	for _, sign := range []string{"°f", "ºf", "fahrenheit", "degf", "deg f", "deg. f", "(f)", "[f]", "_f "} {
		if strings.Contains(low, sign) {
			return DegreesF
		}
	}
	for _, sign := range []string{"°c", "ºc", "℃", "celsius", "degc", "deg c", "deg. c", "(c)", "[c]", "_c "} {
		if strings.Contains(low, sign) {
			return DegreesC
		}
	}
	return UnitAuto
}
