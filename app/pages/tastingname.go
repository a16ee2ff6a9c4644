package pages

import (
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// TastingName is what a tasting is called: the baker's own word, and else its question.
func TastingName(t *journal.Tasting) string {
	if name := strings.TrimSpace(t.Name); name != "" {
		return name
	}
	s, err := t.Setting()
	if err != nil {
		return lang.L("Tasting") // its page tells what is wrong with it
	}
	return Asked(s.Plan)
}

// Asked words the question of a plan.
func Asked(p blind.Plan) string {
	switch {
	case p.Method == blind.Scaling:
		return lang.L("How does each score?")
	case p.Method.Directional() && p.Attribute != "":
		return lang.L("Which is more {{.What}}?", map[string]any{"What": p.Attribute})
	case p.Method == blind.Paired:
		return lang.L("Which is liked better?")
	}
	return lang.L("Can they be told apart?")
}
