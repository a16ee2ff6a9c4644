package blind

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A Link is one thing that happened in a scoring, in the order in which it did:
// an answer handed in, somebody who stopped or handed over, an early end.
type Link struct {
	Kind   LinkKind `json:"kind"`
	Taster int      `json:"taster,omitempty"`
	Round  int      `json:"round,omitempty"` // from 0
	// Before is the fingerprint of everything before it: the SHA-256 of the text
	// of the answers as it was then.
	Before string `json:"before"`
}

// LinkKind says what happened.
type LinkKind string

const (
	linkAnswer   LinkKind = "answer"
	linkStop     LinkKind = "stop"
	linkHandOver LinkKind = "hand over"
	linkEnd      LinkKind = "end"
)

// answerText is the text whose SHA-256 is the fingerprint of the answers. It is
// UTF-8 with line feeds, and every entry follows the fingerprint of all before
// it, so that none can be changed, left out or put elsewhere alone:
//
//	twinloaf answers, version 1
//	method: triangle
//	… the plan, as in the text that is sealed
//	taster 1 round 1: 482 913 275
//	… what everybody is served, in order, and nothing of what it is
//	1: taster 1 "Ines" round 1: 482
//	before 2: 64 hexadecimal digits, the SHA-256 of the text down to the line above
//	2: taster 2 "Tom" round 1: no answer: "a plate was dropped"
//	…
//
// It hangs on nothing that is secret: the two assignments that a tasting can have
// give the same text and the same fingerprint.
//
// Alone, the slips that lay under the plates follow, round by round, in the same
// way. wrong is the first entry, from 0, whose kept fingerprint is not that of
// what stands before it, or -1.
func answerText(s Setting, p Progress) (text string, wrong int) {
	var b strings.Builder
	wrong = -1
	b.WriteString("twinloaf answers, version 1\n")
	s.planText(&b)
	for _, serving := range s.Servings {
		fmt.Fprintf(&b, "taster %d round %d:", serving.Taster+1, serving.Round+1)
		if serving.OpenReference != 0 {
			fmt.Fprintf(&b, " %s=%d", ReferenceLabel, serving.OpenReference)
		}
		for _, label := range s.sealedLabels(serving) {
			b.WriteString(" " + label)
		}
		b.WriteByte('\n')
	}
	n := 0
	entry := func(before string, kept bool, words string) {
		if n > 0 {
			sum := Commitment(b.String())
			if kept && sum != before && wrong < 0 {
				wrong = n
			}
			fmt.Fprintf(&b, "before %d: %s\n", n+1, sum)
		} else if kept && before != Commitment(b.String()) {
			wrong = 0
		}
		n++
		fmt.Fprintf(&b, "%d: %s\n", n, words)
	}
	seats := make([]int, len(p.Sheets)) // how many have taken each place so far
	for _, l := range p.Chain {
		words := ""
		switch l.Kind {
		case linkAnswer:
			words = s.answerWords(p, l)
		case linkStop:
			words = fmt.Sprintf("taster %d stops before round %d", l.Taster+1, l.Round+1)
			if l.Taster < len(p.Sheets) && p.Sheets[l.Taster].Stopped != "" {
				words += ": " + strconv.Quote(p.Sheets[l.Taster].Stopped)
			}
		case linkHandOver:
			name := ""
			if l.Taster < len(seats) {
				if k := seats[l.Taster]; k < len(p.Sheets[l.Taster].Seats) {
					name = p.Sheets[l.Taster].Seats[k].Name
				}
				seats[l.Taster]++
			}
			words = fmt.Sprintf("taster %d hands over to %s before round %d", l.Taster+1, strconv.Quote(name), l.Round+1)
		case linkEnd:
			words = "ended early: " + strconv.Quote(p.EndedEarly)
		}
		entry(l.Before, true, words)
	}
	for round, found := range p.Slips {
		if len(found) == 0 {
			continue
		}
		serving, _ := s.Serving(0, round)
		words := fmt.Sprintf("slips of round %d:", round+1)
		for i, code := range found {
			if i < len(serving.Samples) {
				words += fmt.Sprintf(" %s=%s", strconv.Quote(serving.Samples[i]), code)
			}
		}
		entry("", false, words)
	}
	return b.String(), wrong
}

// answerWords writes one answer.
func (s Setting) answerWords(p Progress, l Link) string {
	name, answer := "", Answer{}
	if l.Taster < len(p.Sheets) {
		name = p.Name(s.Plan, l.Taster, l.Round)
		if answers := p.Sheets[l.Taster].Answers; l.Round < len(answers) {
			answer = answers[l.Round]
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "taster %d %s round %d:", l.Taster+1, strconv.Quote(name), l.Round+1)
	switch {
	case answer.Missing != "":
		fmt.Fprintf(&b, " no answer: %s", strconv.Quote(answer.Missing))
	case answer.Tie:
		b.WriteString(" no preference")
	}
	for _, pick := range answer.Picks {
		fmt.Fprintf(&b, " %s", strconv.Quote(pick))
	}
	serving, _ := s.Serving(l.Taster, l.Round)
	for _, label := range serving.Samples {
		for _, a := range s.Plan.Attributes {
			if score := answer.Scores[label][a.Name]; score != 0 {
				fmt.Fprintf(&b, " %s %s %d;", label, strconv.Quote(a.Name), score)
			}
		}
	}
	if answer.SkippedRinses > 0 {
		fmt.Fprintf(&b, ", pauses cut short %d", answer.SkippedRinses)
	}
	if answer.OnPaper {
		b.WriteString(", from paper")
	}
	if answer.Remark != "" {
		fmt.Fprintf(&b, ", remark %s", strconv.Quote(answer.Remark))
	}
	return b.String()
}

// chained reports whether the answers of a tasting are chained: those of version
// 1 are not.
func (s Setting) chained() bool { return s.Version >= settingVersion }

// link notes what happens now. It is called before what it notes is changed, so
// that Before is the fingerprint of what was.
func (s *Session) link(kind LinkKind, taster, round int) {
	if !s.setting.chained() {
		return
	}
	text, _ := answerText(s.setting, s.progress)
	s.progress.Chain = append(s.progress.Chain, Link{Kind: kind, Taster: taster, Round: round, Before: Commitment(text)})
}

// Fingerprint is the fingerprint of everything handed in so far, alone with the
// slips: the SHA-256 of its text, which tells nothing of which loaf is which. It is
// empty in tastings of version 1.
func (s *Session) Fingerprint() string {
	if !s.setting.chained() {
		return ""
	}
	text, _ := answerText(s.setting, s.progress)
	return Commitment(text)
}

// checkChain says why the kept chain does not fit the answers.
func (s *Session) checkChain() error {
	p := s.progress
	if !s.setting.chained() {
		if len(p.Chain) > 0 {
			return tampered("the chain of answers does not hold what was handed in")
		}
		return nil
	}
	answers, stops, seats := 0, 0, 0
	for _, sheet := range p.Sheets {
		answers, seats = answers+len(sheet.Answers), seats+len(sheet.Seats)
		if sheet.Phase == PhaseStopped {
			stops++
		}
	}
	seen := map[Link]bool{}
	count := map[LinkKind]int{}
	for _, l := range p.Chain {
		if l.Taster < 0 || l.Taster >= len(p.Sheets) || l.Round < 0 || l.Round > s.setting.Plan.Rounds {
			return tampered("the chain of answers names somebody who did not taste")
		}
		if l.Kind == linkEnd && (l.Taster != 0 || l.Round != 0) {
			return tampered("the chain of answers does not hold what was handed in")
		}
		same := Link{Kind: l.Kind, Taster: l.Taster, Round: l.Round}
		if l.Kind == linkAnswer && seen[same] {
			return tampered("an answer stands twice in the chain of answers")
		}
		seen[same] = true
		count[l.Kind]++
	}
	ends := 0
	if p.EndedEarly != "" {
		ends = 1
	}
	if count[linkAnswer] != answers || count[linkStop] != stops || count[linkHandOver] != seats || count[linkEnd] != ends {
		return tampered("the chain of answers does not hold what was handed in")
	}
	if _, wrong := answerText(s.setting, p); wrong >= 0 {
		return tamperedEntry(max(1, wrong))
	}
	return nil
}

// Name is who tasted a round of a taster's place: the taster of the plan, or who
// took over.
func (p Progress) Name(plan Plan, taster, round int) string {
	name := plan.Tasters[taster]
	for _, seat := range p.Sheets[taster].Seats {
		if seat.Round <= round {
			name = seat.Name
		}
	}
	return name
}

// People lists everybody who has a place, in the order of the plan, those who
// took over after those they took over from.
func (p Progress) People(plan Plan) []string {
	var names []string
	add := func(name string) {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for i, name := range plan.Tasters {
		add(name)
		if i < len(p.Sheets) {
			for _, seat := range p.Sheets[i].Seats {
				add(seat.Name)
			}
		}
	}
	return names
}
