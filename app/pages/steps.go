package pages

import (
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// StepWord says what a kind of step is called.
func StepWord(k plan.Kind) string { return measure.Units{}.Say(k.Line()) }

// StepTitle is what a step is called: by its own name, or else by its kind.
func StepTitle(k plan.Kind, name string) string {
	return measure.Units{}.Say(plan.Step{Kind: k, Name: name}.Line())
}
