package tastings

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// bakeNames calls each of several bakes by its name and when it was, so that no two are
// called alike: by the day, and by the hour where the day has another of that name, as two
// loaves of one formula often have. whens are the times alone.
func bakeNames(all []*journal.BakeSummary, u measure.Units, now time.Time) (names, whens []string) {
	taken := map[string]int{}
	for _, c := range all {
		taken[bakeName(c, u.Day(c.At, now))]++
	}
	again := map[string]int{}
	for _, c := range all {
		when := u.Day(c.At, now)
		if taken[bakeName(c, when)] > 1 {
			when = u.Moment(c.At, now)
		}
		name := bakeName(c, when)
		again[name]++
		if n := again[name]; n > 1 {
			when = fmt.Sprintf("%s (%d)", when, n)
			name = bakeName(c, when)
		}
		switch c.State {
		case journal.Planned:
			name += " · " + lang.L("planned")
		case journal.Running:
			name += " · " + lang.L("under way")
		}
		names, whens = append(names, name), append(whens, when)
	}
	return names, whens
}

func bakeName(c *journal.BakeSummary, when string) string {
	return lang.L("{{.Name}} · {{.Day}}", map[string]any{"Name": named(c.Name, lang.L("a bake")), "Day": when})
}
