package journal

import (
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// Lines says what was found, a sentence each.
func (s *SetAside) Lines() []say.Line {
	var out []say.Line
	for _, i := range s.Items {
		out = append(out, i.Line())
	}
	for _, k := range s.Unnamed {
		out = append(out, say.Of("Some {{.Kind}} may be missing that nothing tells of.", say.With{"Kind": plurals[k]}))
	}
	if s.LastChange {
		out = append(out, say.Of("The last change before the damage may be missing."))
	}
	if s.Steps > 0 {
		out = append(out, say.N("One earlier change can no longer be undone.", "{{.N}} earlier changes can no longer be undone.", s.Steps))
	}
	if len(out) == 0 {
		out = append(out, say.Of("Nothing that you recorded is missing: only what is worked out from it was damaged, and it was made anew."))
	}
	return out
}

// Line is the sentence on one item.
func (i AsideItem) Line() say.Line {
	with := say.With{"What": i.what()}
	switch i.State {
	case store.Whole:
		return say.Of("{{.What}}: one letter was damaged, and has been set right.", with)
	case store.Earlier:
		return say.Of("{{.What}}: restored as an earlier change had left it.", with)
	default:
		return say.Of("{{.What}}: could not be read, and was set aside.", with)
	}
}

func (i AsideItem) what() say.Line {
	with := say.With{"Name": i.Name, "Day": say.Moment{At: i.Day, As: say.Date}}
	if i.Name == "" {
		with["Name"] = say.Of("(no name)")
	}
	if i.Day.IsZero() && i.Name == "" {
		return say.N("one of the {{.Kind}}", "{{.N}} of the {{.Kind}}", len(i.IDs), say.With{"Kind": plurals[i.Kind]})
	}
	if i.Day.IsZero() {
		with["Day"] = say.Of("no known day")
	}
	switch i.Kind {
	case KindCulture:
		return say.Of("Culture {{.Name}}", with)
	case KindFlour:
		return say.Of("Flour {{.Name}}", with)
	case KindFormula:
		return say.Of("Formula {{.Name}}", with)
	case KindTrial:
		return say.Of("Trial {{.Name}}, {{.Day}}", with)
	case KindTasting:
		if i.Seal {
			return say.Of("The sealed plan of the tasting {{.Name}}, {{.Day}}", with)
		}
		return say.Of("Tasting {{.Name}}, {{.Day}}", with)
	case KindView:
		return say.Of("View {{.Name}}", with)
	case KindSettings:
		return say.Of("The settings")
	case KindFeeding:
		return say.N("One feeding of {{.Name}}", "{{.N}} feedings of {{.Name}}", len(i.IDs), with)
	case KindReading:
		return say.N("One reading of {{.Name}}", "{{.N}} readings of {{.Name}}", len(i.IDs), with)
	case KindMove:
		return say.N("One move of {{.Name}}", "{{.N}} moves of {{.Name}}", len(i.IDs), with)
	case KindTempLog:
		return say.N("One temperature log of {{.Name}}", "{{.N}} temperature logs of {{.Name}}", len(i.IDs), with)
	case KindSeries:
		return say.Of("Row of pictures {{.Name}}, {{.Day}}", with)
	case KindPhoto:
		return say.N("One photo of {{.Name}}, {{.Day}}", "{{.N}} photos of {{.Name}}, {{.Day}}", len(i.IDs), with)
	default:
		return say.Of("Bake {{.Name}}, {{.Day}}", with)
	}
}

// plurals names each kind in the plural.
var plurals = map[Kind]say.Line{
	KindCulture:  say.Of("cultures"),
	KindFeeding:  say.Of("feedings"),
	KindReading:  say.Of("readings"),
	KindMove:     say.Of("moves of cultures"),
	KindTempLog:  say.Of("temperature logs"),
	KindFlour:    say.Of("flours"),
	KindFormula:  say.Of("formulas"),
	KindTrial:    say.Of("trials"),
	KindTasting:  say.Of("tastings"),
	KindSeries:   say.Of("rows of pictures"),
	KindPhoto:    say.Of("photos"),
	KindView:     say.Of("views of the shelf"),
	KindSettings: say.Of("settings"),
	KindBake:     say.Of("bakes"),
}
