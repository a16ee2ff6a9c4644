package kit

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/say"
)

// Say puts a line of the computing rooms into the language of the catalogue and
// writes its quantities in these units.
func (u Units) Say(l say.Line) string { return l.Fill(catalogued, u.write) }

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

// asIs has each name of a template stand for itself, so that the catalogue
// gives its template back unfilled.
type asIs map[string]any

// catalogued finds the words for an English text. The names in it are left to be filled.
func catalogued(text, one string, n int) string {
	names := asIs{}
	for rest := text + one; ; {
		_, after, found := strings.Cut(rest, "{{.")
		if !found {
			break
		}
		name, tail, _ := strings.Cut(after, "}}")
		names[name] = "{{." + name + "}}"
		rest = tail
	}
	if one != "" {
		return lang.N(text, n, names)
	}
	return lang.L(text, names)
}

func (u Units) write(value any) string {
	switch v := value.(type) {
	case say.Number:
		return u.figure(v)
	case say.Quantity:
		return u.quantity(v)
	case say.Moment:
		return u.moment(v)
	}
	return fmt.Sprint(value)
}

// figure writes a number with the digits that were asked for.
func (u Units) figure(n say.Number) string {
	s := strings.Replace(n.String(), "-", "−", 1)
	if u.DecimalComma {
		s = strings.Replace(s, ".", ",", 1)
	}
	return s
}

func (u Units) quantity(q say.Quantity) string {
	switch {
	case q.Unit == "":
		return u.figure(q.Number)
	case q.Unit == "°C" && u.Fahrenheit && q.Difference:
		return u.figure(inFahrenheit(q.Number, 0)) + "\u00a0°F"
	case q.Unit == "°C" && u.Fahrenheit:
		return u.figure(inFahrenheit(q.Number, 32)) + "\u00a0°F"
	case q.Unit == "g" && u.Ounces:
		return u.Weight().Write(q.Value)
	case q.Unit == "mm" && u.Ounces:
		return u.Length().Write(q.Value)
	case q.Unit == "ml" && u.Ounces:
		return u.Volume().Write(q.Value)
	}
	return u.figure(q.Number) + "\u00a0" + lang.L(q.Unit)
}

// inFahrenheit counts degrees from zero on. What was to be written as needed
// gets one decimal at most: 9/5 makes endless ones.
func inFahrenheit(n say.Number, zero float64) say.Number {
	f := n.Value*9/5 + zero
	if n.Decimals == say.AsNeeded {
		return say.Round(f, 1)
	}
	return say.Number{Value: f, Decimals: n.Decimals}
}

func (u Units) moment(m say.Moment) string {
	day := func() string {
		month := lang.L(m.At.Month().String())
		if u.MonthFirst {
			return month + "\u00a0" + strconv.Itoa(m.At.Day())
		}
		return lang.L("{{.Day}}\u00a0{{.Month}}", map[string]any{"Day": m.At.Day(), "Month": month})
	}
	switch m.As {
	case say.WeekdayClock:
		return lang.L(m.At.Format("Mon")) + " " + u.Clock(m.At)
	case say.Day:
		return day()
	case say.DayClock:
		return day() + " " + u.Clock(m.At)
	case say.Date:
		return day() + " " + strconv.Itoa(m.At.Year())
	}
	return u.Clock(m.At)
}
