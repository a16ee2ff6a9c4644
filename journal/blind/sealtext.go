package blind

import (
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
)

// canonicalText is the text that the commitment is the hash of: the whole plan,
// who tastes what in which order, which plate is which loaf, and the random
// number. It is UTF-8 with line feeds, in this form:
//
//	twinloaf sealed tasting, version 2
//	method: triangle
//	plated: with a helper
//	asked: "sour"
//	expected: loaf 1
//	risk of a false alarm: 0.05
//	rounds: 2
//	line 1: "Sour" from "not at all" to "extremely"
//	loaf 1: "Harbour loaf" "01J…" contains "rye" "wheat"
//	loaf 2: "Gorse loaf" "01J…"
//	taster 1: "Ines"
//	taster 1 round 1: 482=1 913=2 275=2
//	…
//	random number: 64 hexadecimal digits
//
// Names are quoted as Go quotes strings, so that no name can look like another
// line. What was not asked, expected or noted has no line. Alone, the labels are
// the slips of the round.
func canonicalText(s Setting, secret secret) string {
	var text strings.Builder
	if s.Version < settingVersion {
		s.planTextOne(&text)
	} else {
		fmt.Fprintf(&text, "twinloaf sealed tasting, version %d\n", s.Version)
		s.planText(&text)
	}
	at := 0
	for _, serving := range s.Servings {
		fmt.Fprintf(&text, "taster %d round %d:", serving.Taster+1, serving.Round+1)
		if serving.OpenReference != 0 {
			fmt.Fprintf(&text, " %s=%d", ReferenceLabel, serving.OpenReference)
		}
		for _, label := range s.sealedLabels(serving) {
			fmt.Fprintf(&text, " %s=%d", label, secret.loaves[at])
			at++
		}
		text.WriteByte('\n')
	}
	name := "random number"
	if s.Version < settingVersion {
		name = "salt"
	}
	fmt.Fprintf(&text, "%s: %s\n", name, hex.EncodeToString(secret.salt[:]))
	return text.String()
}

// planText writes the whole plan.
func (s Setting) planText(text *strings.Builder) {
	p := s.Plan
	fmt.Fprintf(text, "method: %s\nplated: %s\n", p.Method, p.Mode)
	if p.KeyOnPaper {
		text.WriteString("key: on the helper's paper\n")
	}
	if p.Attribute != "" {
		fmt.Fprintf(text, "asked: %s\n", strconv.Quote(p.Attribute))
	}
	if p.Expected != 0 {
		fmt.Fprintf(text, "expected: loaf %d\n", p.Expected)
	}
	fmt.Fprintf(text, "risk of a false alarm: %s\nrounds: %d\n", strconv.FormatFloat(p.Risk(), 'g', -1, 64), p.Rounds)
	for i, a := range p.Attributes {
		fmt.Fprintf(text, "line %d: %s", i+1, strconv.Quote(a.Name))
		if a.Low != "" || a.High != "" {
			fmt.Fprintf(text, " from %s to %s", strconv.Quote(a.Low), strconv.Quote(a.High))
		}
		if a.Hedonic {
			text.WriteString(", liking")
		}
		text.WriteByte('\n')
	}
	for i, loaf := range p.Loaves {
		fmt.Fprintf(text, "loaf %d: %s %s", i+1, strconv.Quote(loaf.Name), strconv.Quote(loaf.ID))
		for j, a := range loaf.Allergens {
			if j == 0 {
				text.WriteString(" contains")
			}
			fmt.Fprintf(text, " %s", strconv.Quote(a))
		}
		text.WriteByte('\n')
	}
	for i, name := range p.Tasters {
		fmt.Fprintf(text, "taster %d: %s\n", i+1, strconv.Quote(name))
	}
}

// planTextOne writes what version 1 sealed of the plan.
func (s Setting) planTextOne(text *strings.Builder) {
	fmt.Fprintf(text, "twinloaf sealed tasting, version 1\nmethod: %s\nplated: %s\n", s.Plan.Method, s.Plan.Mode)
	for i, loaf := range s.Plan.Loaves {
		fmt.Fprintf(text, "loaf %d: %s %s\n", i+1, strconv.Quote(loaf.Name), strconv.Quote(loaf.ID))
	}
	for i, name := range s.Plan.Tasters {
		fmt.Fprintf(text, "taster %d: %s\n", i+1, strconv.Quote(name))
	}
}
