package findings

import (
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/past"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf/finding"
)

// headline says the answer in one sentence.
func headline(a answer) string {
	data := map[string]any{"Outcome": a.outcome.Name, "Factor": a.factor.Name, "Doughs": past.Titled(a.factor.More), "Came": a.outcome.More}
	switch {
	case a.mixed:
		return lang.L("Too few bakes of one flour to say what {{.Factor}} has to do with {{.Outcome}}", data)
	case a.few:
		return lang.L("Too few bakes to say what {{.Factor}} has to do with {{.Outcome}}", data)
	case a.trend != nil && !told(a):
		return lang.L("No trend of {{.Outcome}} with {{.Factor}} can be told from chance", data)
	case a.trend != nil && a.trend.Slope*a.trend.Rank.Rho <= 0:
		return lang.L("{{.Outcome}} and {{.Factor}} go together, and no line says by how much", capital(data))
	case a.trend != nil:
		if a.trend.Slope < 0 {
			data["Came"] = a.outcome.Less
		}
		return lang.L("{{.Doughs}} went with {{.Came}}", data)
	case a.groups.Test == nil || !told(a):
		return lang.L("No difference of {{.Outcome}} by {{.Factor}} can be told from chance", data)
	}
	first, second := a.groups.Groups[0], a.groups.Groups[1]
	if a.groups.Test.Superiority < 0.5 {
		first, second = second, first
	}
	data["First"], data["Second"] = first.Name, second.Name
	return lang.L("{{.First}} went with {{.Came}} than {{.Second}}", data)
}

// capital begins a sentence with the outcome.
func capital(data map[string]any) map[string]any {
	data["Outcome"] = past.Titled(data["Outcome"].(string))
	return data
}

// finds says what was seen, one sentence each: how much, how sure, on how many bakes.
func finds(a answer, u measure.Units) []string {
	n := map[string]any{"N": u.FormatNumber(float64(a.n), 0), "Enough": finding.Enough}
	if a.mixed {
		return []string{lang.N("{{.N}} bakes have both figures, of too many flours and cultures: flours differ in level, so bakes of different ones cannot be compared, and too few are alike.", a.n, n)}
	}
	if a.few {
		return []string{lang.N("{{.N}} bakes have both figures. From {{.Enough}} on, if the factor varies, there is something to work out; from about twenty on, something to see.", a.n, n)}
	}
	var out []string
	if a.trend != nil {
		out = append(trendWords(a, u), heldWords(a.trend.Held, u), turned(a.trend.Held, a.trend.Rank.Rho, a.trend.Across))
	} else {
		out = groupWords(a, u)
		if a.groups.Test != nil {
			out = append(out, heldWords(a.groups.Held, u), turned(a.groups.Held, 2*a.groups.Test.Superiority-1, a.groups.Across))
		}
	}
	out = append(out, lookedAt(a, u))
	if a.without > 0 {
		out = append(out, withoutWords(a, u))
	}
	return slices.DeleteFunc(out, func(s string) bool { return s == "" })
}

// withoutWords says how many bakes the answer does not rest on.
func withoutWords(a answer, u measure.Units) string {
	return lang.L("{{.N}} of {{.All}} bakes have both figures; the others are left out.", map[string]any{
		"N": u.FormatNumber(float64(a.n), 0), "All": u.FormatNumber(float64(a.n+a.without), 0)})
}

func trendWords(a answer, u measure.Units) []string {
	t, step := a.trend, a.factor.Step
	data := map[string]any{
		"N": u.FormatNumber(float64(t.N), 0), "Used": u.FormatNumber(float64(t.Used), 0), "Outcome": a.outcome.Name,
		"Step": a.factor.Measure.WriteDifference(step), "Factor": a.factor.Name,
		"Change": fine(a.outcome, math.Abs(t.Slope*step), u), "P": pWords(t.Rank.P, u), "Often": oneIn(t.Rank.P, u),
		"Rho": signed(t.Rank.Rho, 2, u),
	}
	var out []string
	switch {
	case t.Slope*step > 0:
		out = append(out, lang.L("Over {{.N}} bakes, the {{.Outcome}} was {{.Change}} higher for each {{.Step}} more of {{.Factor}}: the middle of the slopes between pairs of bakes.", data))
	case t.Slope*step < 0:
		out = append(out, lang.L("Over {{.N}} bakes, the {{.Outcome}} was {{.Change}} lower for each {{.Step}} more of {{.Factor}}: the middle of the slopes between pairs of bakes.", data))
	default:
		out = append(out, lang.L("Over {{.N}} bakes the typical slope is zero: many share the same {{.Outcome}}.", data))
	}
	if t.Limits.Level > 0 {
		data["Low"], data["High"] = fineSigned(a.outcome, t.Limits.Lower*step, u), fineSigned(a.outcome, t.Limits.Upper*step, u)
		out = append(out, lang.L("95 % confidence interval for the slope: {{.Low}} to {{.High}} per {{.Step}}.", data))
	}
	within := t.Held.Name != ""
	if within {
		out = append(out, lang.L("Rank correlation {{.Rho}} among bakes alike. If the two were unrelated, one this strong would turn up {{.Often}} (p\u00a0{{.P}}, reordering).", data))
	} else if t.Rank.Exact {
		out = append(out, lang.L("Rank correlation {{.Rho}}: were the two unconnected, one as strong would come {{.Often}} (p\u00a0{{.P}}, by counting every order).", data))
	} else {
		out = append(out, lang.L("Rank correlation {{.Rho}}. If the two were unrelated, one this strong would turn up {{.Often}} (p\u00a0{{.P}}, random reordering).", data))
	}
	if t.Used < t.N {
		out = append(out, lang.L("Line and chance rest on {{.Used}} of the bakes, drawn evenly from all.", data))
	}
	return out
}

func groupWords(a answer, u measure.Units) []string {
	c := a.groups
	var medians []string
	for _, g := range c.Groups {
		medians = append(medians, lang.L("{{.Name}} {{.Median}} (of {{.N}})", map[string]any{
			"Name": g.Name, "Median": a.outcome.Write(g.Median), "N": u.FormatNumber(float64(len(g.Values)), 0)}))
	}
	out := []string{lang.L("Medians of {{.Outcome}}: {{.List}}.", map[string]any{"Outcome": a.outcome.Name, "List": strings.Join(medians, "; ")})}
	if c.Test == nil {
		return append(out, lang.L("No two of the groups have three bakes each, so they are not compared."))
	}
	data := map[string]any{
		"First": c.Groups[0].Name, "Second": c.Groups[1].Name, "Outcome": a.outcome.Name,
		"Share": u.Percent(0).Write(100 * c.Test.Superiority), "P": pWords(c.Adjusted(), u), "Often": oneIn(c.Adjusted(), u), "Pairs": c.Others + 1,
	}
	out = append(out, lang.L("Taking one bake from each, {{.First}} had the higher {{.Outcome}} in {{.Share}} of pairs (ties count half).", data))
	if c.Test.ShiftLimits.Level > 0 {
		data["Shift"] = fineSigned(a.outcome, c.Test.Shift, u)
		data["Low"], data["High"] = fineSigned(a.outcome, c.Test.ShiftLimits.Lower, u), fineSigned(a.outcome, c.Test.ShiftLimits.Upper, u)
		out = append(out, lang.L("{{.First}} minus {{.Second}}: {{.Shift}} (95 % confidence interval {{.Low}} to {{.High}}).", data))
	}
	chance := lang.L("Were there no difference, one as large would come {{.Often}} (Mann–Whitney, p\u00a0{{.P}}).", data)
	switch {
	case c.Held.Name != "" && c.Others > 0:
		chance = lang.L("Were there no difference, one as large would come {{.Often}} (reordering, p\u00a0{{.P}}, for the {{.Pairs}} pairs of groups there are).", data)
	case c.Held.Name != "":
		chance = lang.L("Were there no difference, one as large would come {{.Often}} (reordering, p\u00a0{{.P}}).", data)
	case c.Others > 0:
		chance = lang.L("Were there no difference, one as large would come {{.Often}} (Mann–Whitney, p\u00a0{{.P}}, for the {{.Pairs}} pairs of groups there are).", data)
	}
	return append(out, chance)
}

// cannot says what cannot be concluded.
func cannot(a answer) string {
	data := map[string]any{"Factor": a.factor.Name, "Outcome": a.outcome.Name}
	switch {
	case a.few:
		return ""
	case told(a) && len(a.links) == 0 && a.n < enoughForLinks:
		return lang.L("This does not show that {{.Factor}} is the cause: these bakes were not randomised, and they are too few to see whether anything else changed with it.", data)
	case len(a.links) > 0 && told(a):
		return lang.L("This does not show that {{.Factor}} is the cause: these bakes were not randomised, and other things changed with it.", data)
	case told(a):
		return lang.L("This does not show that {{.Factor}} is the cause: these bakes were not randomised. Nothing else recorded was clearly linked to it, but not everything is recorded.", data)
	}
	return lang.L("That does not say that {{.Factor}} makes no difference: only that this record shows none larger than its scatter.", data)
}

// told reports whether the answer can be told from chance among all that the
// record can be asked.
func told(a answer) bool { return !a.few && a.found.Factor != "" && a.found.Told() }

// enoughForLinks is how many bakes there must be before it is said that nothing
// else moved along: with thirty a rank correlation of a half is seen (see
// [finding.Together]); with a dozen one of three quarters is missed.
const enoughForLinks = 30

// linkWords says how another factor moved along. name is what it is called.
func linkWords(l finding.Link, name string, a answer, u measure.Units) string {
	data := map[string]any{"Name": name, "Factor": a.factor.Name, "Rho": signed(l.Strength, 2, u),
		"V": u.FormatNumber(l.Strength, 2), "N": u.FormatNumber(float64(l.N), 0), "First": l.First, "Second": l.Second}
	switch {
	case l.Name == dateKey && l.First != "":
		if l.Strength > 0 {
			return lang.L("{{.First}} came later than {{.Second}} ({{.N}} bakes): with time the baker learns, flour and season change", data)
		}
		return lang.L("{{.First}} came earlier than {{.Second}} ({{.N}} bakes): with time the baker learns, flour and season change", data)
	case l.Name == dateKey:
		if l.Strength > 0 {
			return lang.L("later bakes had more of it (rank correlation {{.Rho}}, {{.N}} bakes): with time the baker learns, flour and season change", data)
		}
		return lang.L("later bakes had less of it (rank correlation {{.Rho}}, {{.N}} bakes): with time the baker learns, flour and season change", data)
	case l.First != "" && a.x == nil:
		if l.Strength > 0 {
			return lang.L("{{.First}} had more {{.Name}} than {{.Second}} ({{.N}} bakes)", data)
		}
		return lang.L("{{.First}} had less {{.Name}} than {{.Second}} ({{.N}} bakes)", data)
	case l.First != "":
		if l.Strength > 0 {
			return lang.L("{{.Name}}: more of it with {{.First}} than with {{.Second}} ({{.N}} bakes)", data)
		}
		return lang.L("{{.Name}}: less of it with {{.First}} than with {{.Second}} ({{.N}} bakes)", data)
	case a.x == nil:
		return lang.L("{{.Name}} went along with it (Cramér's V {{.V}}, {{.N}} bakes)", data)
	case l.Strength > 0:
		return lang.L("{{.Name}} rose with it (rank correlation {{.Rho}}, {{.N}} bakes)", data)
	}
	return lang.L("{{.Name}} fell as it rose (rank correlation {{.Rho}}, {{.N}} bakes)", data)
}

// fine writes a difference of an outcome with one more decimal than its figures have.
func fine(d past.Described, v float64, u measure.Units) string {
	text := d.Measure.WriteDifference(v)
	if v != 0 && math.Abs(v) < 1 && d.Measure.Unit == "" {
		return u.FormatNumber(v, 2)
	}
	return text
}

func fineSigned(d past.Described, v float64, u measure.Units) string {
	switch words := fine(d, math.Abs(v), u); {
	case v < 0 && strings.ContainsAny(words, "123456789"):
		return "−" + words
	case v > 0 && strings.ContainsAny(words, "123456789"):
		return "+" + words
	default:
		return words
	}
}

// signed writes a number with its sign and always as many decimals, since such stand below one
// another.
func signed(v float64, decimals int, u measure.Units) string {
	words := u.FixedNumber(math.Abs(v), decimals)
	if v < 0 && strings.ContainsAny(words, "123456789") {
		return "−" + words
	}
	return words
}

// leastP is the smallest chance that is told as a number: what is drawn at random
// tells smaller ones ever less well.
const leastP = 0.001

func pWords(p float64, u measure.Units) string {
	if p < leastP {
		return "< " + u.FormatNumber(leastP, 3)
	}
	switch {
	case p > 0.05 && p < 0.0505: // which is no 0.05, up to which something is told
		return u.FormatNumber(p, 4)
	case p < 0.1:
		return u.FormatNumber(p, 3)
	}
	return u.FormatNumber(p, 2)
}
