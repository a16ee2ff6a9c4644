package room

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/plan"
)

// StepWord says what a kind of step is called.
func StepWord(k plan.Kind) string {
	switch k {
	case plan.Levain:
		return lang.L("Build the levain")
	case plan.Mix:
		return lang.L("Mix")
	case plan.Rest:
		return lang.L("Rest")
	case plan.Turns:
		return lang.L("Turns")
	case plan.Bulk:
		return lang.L("Bulk")
	case plan.Divide:
		return lang.L("Divide and shape")
	case plan.ColdRest:
		return lang.L("Cold rest")
	case plan.Heat:
		return lang.L("Heat the oven")
	case plan.BakeCovered:
		return lang.L("Bake covered")
	case plan.BakeUncovered:
		return lang.L("Bake uncovered")
	case plan.Cool:
		return lang.L("Cool")
	case plan.Other, "":
		return lang.L("Next step")
	}
	return string(k) // the baker's own word
}

// StepTitle is what a step is called: by its own name, or else by its kind.
func StepTitle(k plan.Kind, name string) string {
	if name != "" {
		return name
	}
	return StepWord(k)
}

// MomentTitle is what a moment of a plan is called: "Divide and shape", "Turn 3
// of 6", "Ready".
func MomentTitle(p plan.Plan, m plan.Moment) string {
	if m.Ref == plan.Ready {
		return lang.L("Ready")
	}
	for _, s := range p.Steps {
		switch {
		case s.ID != m.Step:
		case m.Turn > 0:
			return lang.L("Turn {{.N}} of {{.Of}}", map[string]any{"N": m.Turn, "Of": s.Turns})
		default:
			return StepTitle(s.Kind, s.Name)
		}
	}
	return m.Title
}
