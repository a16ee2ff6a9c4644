package measure

import (
	"strings"

	"twinloaf/assets/words"
	"twinloaf/journal/say"
)

// Say puts a line of the computing rooms into the language of the catalogue and
// writes its quantities in these units.
func (u Units) Say(l say.Line) string { return l.Fill(words.Find, u.write) }

// SayAll says several lines.
func (u Units) SayAll(lines []say.Line) []string {
	said := make([]string, len(lines))
	for i, l := range lines {
		said[i] = u.Say(l)
	}
	return said
}

// ErrorText gives the sentence that an error has for the baker. An error that comes
// from the system, and not from one of our rooms, is told as it is.
func (u Units) ErrorText(err error) string {
	s := u.Say(say.Begin(whyOf(err)))
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "!") && !strings.HasSuffix(s, "?") {
		s += "."
	}
	return s
}

// whyOf finds what an error has to say.
func whyOf(err error) say.Line {
	if l, ok := say.OfError(err); ok {
		return l
	}
	if t := say.TroubleOf(err); t != say.NoTrouble {
		return t.Line()
	}
	return say.Of("something went wrong: {{.What}}", say.With{"What": err.Error()})
}

// write writes a value of a line in these units.
func (u Units) write(value any) string {
	q, ok := value.(say.Quantity)
	switch {
	case !ok:
	case q.Unit == "°C" && u.Fahrenheit && q.Difference:
		return u.write(inFahrenheit(q.Number, 0))
	case q.Unit == "°C" && u.Fahrenheit:
		return u.write(inFahrenheit(q.Number, 32))
	case q.Unit == "g" && u.Ounces:
		return u.Weight().Write(q.Value)
	case q.Unit == "mm" && u.Ounces:
		return u.Length().Write(q.Value)
	case q.Unit == "ml" && u.Ounces:
		return u.Volume().Write(q.Value)
	}
	return u.Locale().Write(value)
}

// inFahrenheit counts degrees from zero on. What was to be written as needed
// gets one decimal at most: 9/5 makes endless ones.
func inFahrenheit(n say.Number, zero float64) say.Quantity {
	f := n.Value*9/5 + zero
	if n.Decimals == say.AsNeeded {
		return say.Quantity{Number: say.Round(f, 1), Unit: "°F"}
	}
	return say.Quantity{Number: say.Number{Value: f, Decimals: n.Decimals}, Unit: "°F"}
}
