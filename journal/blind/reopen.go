package blind

import (
	"encoding/hex"
	"fmt"
	"strings"

	"twinloaf/journal/say"
)

// Reopen makes an opened tasting from what was kept of it: the public setting,
// the answers, the text that was sealed, and the fingerprint of the answers (empty
// in tastings of version 1). What was which is read out of the text and of nothing
// else, and the text must be that of this very setting. The error wraps
// [ErrTampered] and says what does not fit.
//
// What fits may still have been changed as a whole, by somebody who made all of it
// anew: against that stand the fingerprints that were photographed or printed when
// they were shown.
func Reopen(setting Setting, progress Progress, text, answers string) (Opened, error) {
	if !Verifies(text, setting.Commitment) {
		return Opened{}, tampered("the text that was sealed does not have the fingerprint that was shown")
	}
	secret, ok := readSecret(setting, text)
	if !ok || canonicalText(setting, secret) != text {
		return Opened{}, tampered("the plan is not the one that was sealed: method, question, loaves, tasters or codes were changed")
	}
	session, err := Resume(setting, progress)
	if err != nil {
		return Opened{}, err
	}
	if !progress.Ended {
		return Opened{}, tampered("the answers are not those of a finished tasting")
	}
	if setting.chained() && session.Fingerprint() != answers {
		return Opened{}, tampered("the answers do not have the fingerprint that they had when the last was handed in")
	}
	return opened(setting, progress.clone(), secret, text), nil
}

// readSecret reads the assignment and the random number out of a sealed text.
func readSecret(setting Setting, text string) (secret, bool) {
	var s secret
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) <= len(setting.Servings) {
		return s, false
	}
	_, digits, _ := strings.Cut(lines[len(lines)-1], ": ")
	number, err := hex.DecodeString(digits)
	if err != nil || len(number) != saltSize {
		return s, false
	}
	copy(s.salt[:], number)
	from := len(lines) - 1 - len(setting.Servings)
	for i, serving := range setting.Servings {
		_, plates, ok := strings.Cut(lines[from+i], ":")
		if !ok {
			return s, false
		}
		fields := strings.Fields(plates)
		if serving.OpenReference != 0 && len(fields) > 0 {
			fields = fields[1:] // it is no secret, and stands first
		}
		if len(fields) != len(setting.sealedLabels(serving)) {
			return s, false
		}
		for _, field := range fields {
			_, loaf, _ := strings.Cut(field, "=")
			if loaf != "1" && loaf != "2" {
				return s, false
			}
			s.loaves = append(s.loaves, loaf[0]-'0')
		}
	}
	return s, true
}

// opened puts together what was which.
func opened(setting Setting, progress Progress, secret secret, text string) Opened {
	o := Opened{Setting: cloneSetting(setting), Progress: progress, Text: text}
	loaves := secret.loaves
	for _, serving := range setting.Servings {
		labels := setting.sealedLabels(serving)
		mine := loaves[:len(labels)]
		loaves = loaves[len(labels):]
		answers := progress.Sheets[serving.Taster].Answers
		if serving.Round >= len(answers) {
			continue
		}
		round := Round{Taster: serving.Taster, Round: serving.Round, Answer: answers[serving.Round]}
		if setting.Plan.Mode == Alone {
			round.Plates = alonePlates(serving, mine, progress.Slips[serving.Round])
		} else {
			for i, label := range labels {
				round.Plates = append(round.Plates, Plate{Label: label, Loaf: int(mine[i])})
			}
		}
		o.Rounds = append(o.Rounds, round)
	}
	return o
}

// Who is who tasted a round.
func (o Opened) Who(r Round) string { return o.Progress.Name(o.Setting.Plan, r.Taster, r.Round) }

// AnswerText is the text whose SHA-256 is the fingerprint of the answers; empty in
// tastings of version 1.
func (o Opened) AnswerText() string {
	if !o.Setting.chained() {
		return ""
	}
	text, _ := answerText(o.Setting, o.Progress)
	return text
}

// tampered makes an error of the kind ErrTampered with what does not fit.
func tampered(why string) error { return &say.Error{Said: say.Of(why), Err: ErrTampered} }

// tamperedEntry says which entry of the chain of answers does not fit.
func tamperedEntry(n int) error {
	return fmt.Errorf("check the chain of answers: %w", &say.Error{
		Said: say.Of("what was handed in as number {{.N}} is not what it was", say.With{"N": n}), Err: ErrTampered})
}
