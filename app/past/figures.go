package past

import (
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/crumb"
	"twinloaf/journal/shelf"
)

// Figures beside those that the shelf itself names.
const (
	Prefermented shelf.Figure = "prefermented"
	Wholegrain   shelf.Figure = "wholegrain"
	Inoculation  shelf.Figure = "inoculation"
	DoughWeight  shelf.Figure = "dough weight" // grams
	Volume       shelf.Figure = "volume"       // specific, mL/g
	Height       shelf.Figure = "height"       // mm
	DoughTemp    shelf.Figure = "dough °C"
	InsideTemp   shelf.Figure = "inside °C"
	RoomTemp     shelf.Figure = "room °C"
	ColdHours    shelf.Figure = "cold hours"
	BulkHours    shelf.Figure = "bulk hours"
	CultureAge   shelf.Figure = "culture age" // days
)

// Families of figures, each with a name of its own behind the prefix.
const (
	scorePrefix = "score of "
	crumbPrefix = "crumb "
	sharePrefix = "share of "
)

// ScoreOf names the score of an attribute other than the overall one.
func ScoreOf(attribute string) shelf.Figure { return shelf.Figure(scorePrefix + attribute) }

// CrumbOf names a measure of the crumb.
func CrumbOf(measure string) shelf.Figure { return shelf.Figure(crumbPrefix + measure) }

// ShareOf names the share of a flour.
func ShareOf(flour string) shelf.Figure { return shelf.Figure(sharePrefix + flour) }

// FlourOf gives the flour whose share a figure is; false for any other.
func FlourOf(f shelf.Figure) (flour string, ok bool) {
	return strings.CutPrefix(string(f), sharePrefix)
}

// A Described is a figure as the baker reads it.
type Described struct {
	Key     shelf.Figure
	Name    string // as it stands within a sentence: "dough temperature"
	Measure kit.Measure
	// Step is a difference that a baker would notice or choose, in the unit in which
	// the figure is kept: trends are told for that much.
	Step float64
	// Outcome figures tell how the bread came out; the others what was done.
	Outcome bool
}

// Write gives the figure with its unit, as the baker reads it.
func (d Described) Write(v float64) string { return d.Measure.Write(v) }

// Axis is the figure's name with its unit, for an axis.
func (d Described) Axis() string {
	if d.Measure.Unit == "" {
		return d.Name
	}
	return d.Name + ", " + d.Measure.Unit
}

// Difference writes how far two values lie apart, without a sign. A difference of
// temperatures has no zero point.
func (d Described) Difference(v float64) string {
	m := d.Measure
	if zero := m.Format(0); m.Unit == "°F" && zero != "0" {
		return kit.Units{}.FormatNumber(abs(v)*9/5, 2) + "\u00a0" + m.Unit
	}
	return m.Write(abs(v))
}

func abs(v float64) float64 { return max(v, -v) }

// Describe says what a figure is called and how it is written.
func (r *Record) Describe(f shelf.Figure, u kit.Units) Described {
	for _, d := range known(u) {
		if d.Key == f {
			return d
		}
	}
	points := u.Number("", 1)
	if a, ok := strings.CutPrefix(string(f), scorePrefix); ok {
		return Described{Key: f, Name: lang.L("score of {{.Attribute}}", map[string]any{"Attribute": attributeWord(a)}), Measure: points, Step: 1, Outcome: true}
	}
	if key, ok := FlourOf(f); ok {
		name := r.Flours[key]
		if name == "" {
			name = key
		}
		return Described{Key: f, Name: lang.L("share of {{.Flour}}", map[string]any{"Flour": InSentence(name)}), Measure: u.Percent(0), Step: 10}
	}
	id := strings.TrimPrefix(string(f), crumbPrefix)
	for _, d := range crumb.Definitions() {
		if string(d.ID) == id {
			step := 1.0
			for range d.Decimals {
				step /= 10
			}
			return Described{Key: f, Name: lang.L("crumb: {{.Measure}}", map[string]any{"Measure": InSentence(d.Name)}), Measure: u.Number(d.Unit, d.Decimals), Step: 5 * step, Outcome: true}
		}
	}
	return Described{Key: f, Name: strings.ReplaceAll(string(f), "_", " "), Measure: u.Number("", 2), Step: 1, Outcome: true}
}

// known lists the figures that every journal may have, in the order in which they
// are offered.
func known(u kit.Units) []Described {
	hours := u.Number("h", 1)
	return []Described{
		{shelf.Score, lang.L("overall score"), u.Number("", 1), 1, true},
		{shelf.Rise, lang.L("rise in bulk"), u.Number("×", 2), 0.1, true},
		{shelf.Loss, lang.L("bake loss"), u.Percent(1), 1, true},
		{Height, lang.L("height of the loaf"), u.Length(), 10, true},
		{Volume, lang.L("volume by weight"), u.Number("mL/g", 2), 0.1, true},
		{InsideTemp, lang.L("temperature inside"), u.Temperature(), 1, true},
		{shelf.Hydration, lang.L("hydration"), u.Percent(1), 5, false},
		{shelf.Salt, lang.L("salt"), u.Percent(1), 0.2, false},
		{ColdHours, lang.L("hours of cold rest"), hours, 4, false},
		{BulkHours, lang.L("hours of bulk"), hours, 1, false},
		{DoughTemp, lang.L("dough temperature"), u.Temperature(), 1, false},
		{RoomTemp, lang.L("room temperature"), u.Temperature(), 1, false},
		{Prefermented, lang.L("prefermented flour"), u.Percent(0), 5, false},
		{Inoculation, lang.L("inoculation"), u.Percent(0), 5, false},
		{Wholegrain, lang.L("whole grain"), u.Percent(0), 10, false},
		{CultureAge, lang.L("age of the culture"), u.Number(lang.L("days"), 0), 30, false},
		{DoughWeight, lang.L("weight of the dough"), u.Weight(), 100, false},
	}
}

// Outcomes lists the figures that tell how bread came out and that some bake has.
func (r *Record) Outcomes(u kit.Units) []Described { return r.described(u, true) }

// Factors lists the figures that tell what was done and that some bake has, the
// shares of the commonest flours last.
func (r *Record) Factors(u kit.Units) []Described {
	out := r.described(u, false)
	for i, c := range r.Through(shelf.Filter{}).Counts(shelf.Filter{}).Flours {
		if i == mostFlours {
			break
		}
		out = append(out, r.Describe(ShareOf(c.Key), u))
	}
	return out
}

// mostFlours is of how many flours the share is offered as a factor.
const mostFlours = 8

func (r *Record) described(u kit.Units, outcome bool) []Described {
	has := r.Figures()
	var out []Described
	for _, d := range known(u) {
		if i := slices.Index(has, d.Key); i >= 0 {
			has = slices.Delete(has, i, i+1)
			if d.Outcome == outcome {
				out = append(out, d)
			}
		}
	}
	for _, f := range has {
		if d := r.Describe(f, u); d.Outcome == outcome {
			out = append(out, d)
		}
	}
	return out
}

// attributeWord is what an attribute of the outcome is called.
func attributeWord(key string) string {
	switch key {
	case "crust":
		return lang.L("crust")
	case "openness":
		return lang.L("openness of the crumb")
	case "sourness":
		return lang.L("sourness")
	case "chew":
		return lang.L("chew")
	case "aroma":
		return lang.L("aroma")
	}
	return key
}

// InSentence writes a name as it stands within a sentence: "Strong white" becomes
// "strong white", while "T65" and names of a place stay ("French T65").
func InSentence(name string) string {
	first, rest, _ := strings.Cut(name, " ")
	letters := []rune(first)
	if len(letters) < 2 || !unicode.IsUpper(letters[0]) || hasUpper(string(letters[1:])) || hasUpper(rest) {
		return name
	}
	return string(unicode.ToLower(letters[0])) + name[len(string(letters[0])):]
}

func hasUpper(s string) bool { return strings.IndexFunc(s, unicode.IsUpper) >= 0 }
