package past

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2/lang"

	"twinloaf/assets/words"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// A Described is a figure as the baker reads it.
type Described struct {
	Key     shelf.Metric
	Name    string // as it stands within a sentence: "dough temperature"
	Measure measure.Measure
	// Step is a difference that a baker would notice or choose, in the unit in which
	// the figure is kept: trends are told for that much.
	Step float64
	// Outcome figures tell how the bread came out; the others what was done.
	Outcome bool
	// More names bakes that have much of it, Less those that have little: "taller
	// loaves". A factor has only More, as a sentence begins with it: "Wetter doughs".
	More, Less string
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

// Describe says what a figure is called and how it is written.
func (r *BakeIndex) Describe(f shelf.Metric, u measure.Units) Described {
	for _, d := range known(u) {
		if d.Key == f {
			return d
		}
	}
	points := u.Number("", 1)
	if a, ok := f.Attribute(); ok {
		what := map[string]any{"Attribute": attributeWord(a)}
		return Described{Key: f, Name: lang.L("score of {{.Attribute}}", what), Measure: points, Step: 1, Outcome: true,
			More: lang.L("more points for {{.Attribute}}", what), Less: lang.L("fewer points for {{.Attribute}}", what)}
	}
	if key, ok := f.Flour(); ok {
		name := cmp.Or(r.Flours[key], key)
		what := map[string]any{"Flour": InSentence(name)}
		return Described{Key: f, Name: lang.L("share of {{.Flour}}", what), Measure: u.Percent(0), Step: 10, More: lang.L("More {{.Flour}}", what)}
	}
	id, _ := f.Crumb()
	for _, d := range crumb.Definitions() {
		if string(d.ID) == id {
			step := 1.0
			for range d.Decimals {
				step /= 10
			}
			m := u.Number(d.Unit, d.Decimals)
			if d.Share {
				m = u.Share(d.Decimals - 2)
			}
			return measured(f, lang.L("{{.Measure}} of the crumb", map[string]any{"Measure": InSentence(lang.L(d.Name))}), InSentence(lang.L(d.Name)), m, 5*step)
		}
	}
	name := strings.ReplaceAll(string(f), "_", " ")
	return measured(f, name, name, u.Number("", 2), 1)
}

// measured is an outcome that has no words of its own for much and little.
func measured(f shelf.Metric, name, short string, m measure.Measure, step float64) Described {
	what := map[string]any{"Figure": short}
	return Described{Key: f, Name: name, Measure: m, Step: step, Outcome: true,
		More: lang.L("a higher {{.Figure}}", what), Less: lang.L("a lower {{.Figure}}", what)}
}

// known lists the figures that every journal may have, in the order in which they
// are offered.
func known(u measure.Units) []Described {
	hours := u.Number("h", 1)
	outcome := func(key shelf.Metric, name, more, less string, m measure.Measure, step float64) Described {
		return Described{Key: key, Name: name, More: more, Less: less, Measure: m, Step: step, Outcome: true}
	}
	factor := func(key shelf.Metric, name, more string, m measure.Measure, step float64) Described {
		return Described{Key: key, Name: name, More: more, Measure: m, Step: step}
	}
	return []Described{
		outcome(shelf.Score, lang.L("overall score"), lang.L("higher scores"), lang.L("lower scores"), u.Number("", 1), 1),
		outcome(shelf.Rise, lang.L("rise in bulk"), lang.L("more rise in bulk"), lang.L("less rise in bulk"), u.Times(), 0.1),
		outcome(shelf.Loss, lang.L("bake loss"), lang.L("more bake loss"), lang.L("less bake loss"), u.Percent(1), 1),
		outcome(shelf.Height, lang.L("height of the loaf"), lang.L("taller loaves"), lang.L("flatter loaves"), u.Length(), 10),
		outcome(shelf.Volume, lang.L("specific volume"), lang.L("lighter loaves"), lang.L("denser loaves"), u.Number("ml/g", 2), 0.1),
		outcome(shelf.InsideTemp, lang.L("core temperature"), lang.L("loaves with a hotter core"), lang.L("loaves with a cooler core"), u.Temperature(), 1),
		factor(shelf.Hydration, lang.L("hydration"), lang.L("Wetter doughs"), u.Percent(1), 5),
		factor(shelf.Salt, lang.L("salt"), lang.L("More salt"), u.Percent(1), 0.2),
		factor(shelf.ColdHours, lang.L("cold proof"), lang.L("Longer cold proofs"), hours, 4),
		factor(shelf.ProofHours, lang.L("proof"), lang.L("Longer proofs"), hours, 1),
		factor(shelf.BulkHours, lang.L("time in bulk"), lang.L("Longer bulks"), hours, 1),
		factor(shelf.DoughTemp, lang.L("dough temperature"), lang.L("Warmer doughs"), u.Temperature(), 1),
		factor(shelf.RoomTemp, lang.L("room temperature"), lang.L("Warmer rooms"), u.Temperature(), 1),
		factor(shelf.Prefermented, lang.L("prefermented flour"), lang.L("More prefermented flour"), u.Percent(0), 5),
		factor(shelf.Inoculation, lang.L("inoculation"), lang.L("More inoculation"), u.Percent(0), 5),
		factor(shelf.Wholegrain, lang.L("wholegrain"), lang.L("More wholegrain"), u.Percent(0), 10),
		factor(shelf.CultureAge, lang.L("age of the culture"), lang.L("Older cultures"), u.Number(lang.L("days"), 0), 30),
		factor(shelf.DoughWeight, lang.L("weight of the dough"), lang.L("Larger doughs"), u.Weight(), 100),
	}
}

// Outcomes lists the figures that tell how bread came out and that some bake has.
func (r *BakeIndex) Outcomes(u measure.Units) []Described { return r.described(u, true) }

// Factors lists the figures that tell what was done and that some bake has, the
// shares of the commonest flours last.
func (r *BakeIndex) Factors(u measure.Units) []Described {
	out := r.described(u, false)
	for i, c := range r.Filter(shelf.Filter{}).Counts(shelf.Filter{}).Flours {
		if i == mostFlours {
			break
		}
		out = append(out, r.Describe(shelf.ShareOf(c.Key), u))
	}
	return out
}

// mostFlours is of how many flours the share is offered as a factor.
const mostFlours = 8

func (r *BakeIndex) described(u measure.Units, outcome bool) []Described {
	has := r.Metrics()
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
// "strong white", while "T65" and names of a place stay ("French T65"), and so does every
// noun where the language writes it so.
func InSentence(name string) string {
	if words.Capitals() {
		return name
	}
	first, rest, _ := strings.Cut(name, " ")
	letters := []rune(first)
	if len(letters) < 2 || !unicode.IsUpper(letters[0]) || !unicode.IsLower(letters[1]) || hasUpper(string(letters[1:])) || hasUpper(rest) {
		return name
	}
	return string(unicode.ToLower(letters[0])) + name[len(string(letters[0])):]
}

func hasUpper(s string) bool { return strings.IndexFunc(s, unicode.IsUpper) >= 0 }

// Titled writes a name as a title begins: "hydration" becomes "Hydration".
func Titled(name string) string {
	letters := []rune(name)
	if len(letters) == 0 {
		return name
	}
	return string(unicode.ToUpper(letters[0])) + string(letters[1:])
}
