package shorthand

import "strings"

// mostLines is how many lines of a text are read.
const mostLines = 200

// Lines reads a list of ingredients as it is pasted from a page or a mail, one a line.
// Empty lines are passed over. A text of one line may hold several parts, with commas or
// semicolons between them, if each has its amount. Where a page puts the amount on a line
// of its own, it belongs to the name that follows.
func (s Style) Lines(text string) []Line {
	var out []Line
	for row := range strings.SplitSeq(strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n").Replace(text), "\n") {
		if strings.TrimSpace(row) == "" {
			continue
		}
		if len(out) == mostLines {
			break
		}
		l := s.Line(row)
		if n := len(out); n > 0 && out[n-1].Doubt == NoName && l.Doubt == NoAmount {
			joined := out[n-1]
			joined.Text, joined.Name, joined.Doubt = joined.Text+" "+l.Text, l.Name, NoDoubt
			out[n-1] = joined
			continue
		}
		out = append(out, l)
	}
	if len(out) == 1 {
		if parts := s.parts(text); parts != nil {
			return parts
		}
	}
	return out
}

// parts reads several amounts on one line; nil where it is one ingredient.
func (s Style) parts(text string) []Line {
	for _, mark := range []string{";", ", ", " + "} {
		pieces := strings.Split(text, mark)
		if len(pieces) < 2 || len(pieces) > mostLines {
			continue
		}
		var out []Line
		for _, p := range pieces {
			l := s.Line(p)
			if l.Doubt != NoDoubt || l.Heading || l.Bare && mark == ", " && len(strings.Fields(p)) < 2 {
				out = nil
				break
			}
			out = append(out, l)
		}
		if out != nil {
			return out
		}
	}
	return nil
}
