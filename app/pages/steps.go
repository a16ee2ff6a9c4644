package pages

import (
	"twinloaf/app/kit"
	"twinloaf/journal/plan"
)

// StepWord says what a kind of step is called.
func StepWord(k plan.Kind) string { return kit.Units{}.Say(k.Line()) }

// StepTitle is what a step is called: by its own name, or else by its kind.
func StepTitle(k plan.Kind, name string) string {
	return kit.Units{}.Say(plan.Step{Kind: k, Name: name}.Line())
}
