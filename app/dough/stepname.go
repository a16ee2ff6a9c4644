package dough

import (
	"slices"
	"strings"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// StepWord says what a usual kind of step is called; nothing for any other.
func StepWord(k plan.Kind) string {
	if k == plan.Other || !slices.Contains(plan.Kinds(), k) {
		return ""
	}
	return pages.StepWord(k)
}

// NameStep gives a step the name that was typed. One of the usual names makes it a step of
// that kind. A step that was called by its kind stays of it while the name still has the
// kind's word in it, as "Long bulk" has; any other name is the baker's own.
func NameStep(s *journal.Step, typed string) {
	low := strings.ToLower(strings.TrimSpace(typed))
	for _, k := range plan.Kinds() {
		if w := StepWord(k); w != "" && strings.ToLower(w) == low {
			s.Kind, s.Name = string(k), ""
			return
		}
	}
	if w := StepWord(plan.Kind(s.Kind)); s.Kind == "" || w != "" && s.Name == "" && !strings.Contains(low, strings.ToLower(w)) {
		s.Kind = string(plan.Other)
	}
	s.Name = typed
}

// SuggestSteps gives the usual names that go on from what is typed.
func SuggestSteps(typed string) []string {
	low := strings.ToLower(strings.TrimSpace(typed))
	var out []string
	for _, k := range plan.Kinds() {
		if w := StepWord(k); w != "" && strings.HasPrefix(strings.ToLower(w), low) {
			out = append(out, w)
		}
	}
	return out
}
