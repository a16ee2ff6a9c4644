package tastings

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/blind"
)

// answerForm takes down one answer: from a printed sheet, or as a correction.
// It knows the codes and nothing of what they are.
type answerForm struct {
	setting blind.Setting
	serving blind.Serving
	answer  blind.Answer
	box     *fyne.Container
}

func newAnswerForm(setting blind.Setting, serving blind.Serving) *answerForm {
	f := &answerForm{setting: setting, serving: serving, box: kit.Stack(4)}
	f.build()
	return f
}

func (f *answerForm) build() {
	plan := f.setting.Plan
	if plan.Method.Picks() > 0 {
		f.box.Add(kit.Strong(choosing(plan)))
		f.box.Add(f.pills(plan))
	}
	for _, l := range f.serving.Samples {
		if len(plan.Attributes) == 0 {
			break
		}
		f.box.Add(kit.Subheading(label(l)))
		for _, a := range plan.Attributes {
			f.box.Add(kit.NewScoreRow(a.Name, a.Low, a.High, func(n int) { f.score(l, a.Name, n) }))
		}
	}
	remark := kit.NewTextField(lang.L("In their own words"), lang.L("if they like"))
	remark.OnChanged = func(s string) { f.answer.Remark = strings.TrimSpace(s) }
	missing := kit.NewTextField(lang.L("Or no answer, because"), lang.L("the reason"))
	missing.OnChanged = func(s string) { f.answer.Missing = strings.TrimSpace(s) }
	f.box.Add(remark)
	f.box.Add(missing)
}

func (f *answerForm) pills(plan blind.Plan) fyne.CanvasObject {
	row := kit.Flow(2)
	var pills []*kit.Pill
	show := func() {
		for i, p := range pills {
			if i < len(f.serving.Samples) {
				p.SetChosen(slices.Contains(f.answer.Picks, f.serving.Samples[i]))
			} else {
				p.SetChosen(f.answer.Tie)
			}
		}
	}
	for _, l := range f.serving.Samples {
		pills = append(pills, kit.NewChoicePill(label(l), false, func() {
			f.answer.Tie = false
			f.answer.Picks = pick(f.answer.Picks, l, plan.Method.Picks())
			show()
		}))
	}
	if plan.AllowsTie() {
		pills = append(pills, kit.NewChoicePill(lang.L("neither"), false, func() {
			f.answer.Picks, f.answer.Tie = nil, true
			show()
		}))
	}
	for _, p := range pills {
		row.Add(p)
	}
	return row
}

func (f *answerForm) score(l, attribute string, n int) {
	if f.answer.Scores == nil {
		f.answer.Scores = map[string]map[string]int{}
	}
	if f.answer.Scores[l] == nil {
		f.answer.Scores[l] = map[string]int{}
	}
	f.answer.Scores[l][attribute] = n
	if n == 0 {
		delete(f.answer.Scores[l], attribute)
	}
	if len(f.answer.Scores[l]) == 0 {
		delete(f.answer.Scores, l)
	}
}

// chosen says whether a sample or a score was chosen.
func (f *answerForm) chosen() bool {
	return len(f.answer.Picks) > 0 || f.answer.Tie || len(f.answer.Scores) > 0
}

// result gives the answer; the error says what is still missing of it.
func (f *answerForm) result() (blind.Answer, error) {
	words := lang.L("the answer of this round is still missing")
	switch {
	case f.setting.CheckAnswer(f.serving, f.answer) == nil:
		return f.answer, nil
	case f.answer.Missing != "":
		words = lang.L("the answer is both missing and given")
	case f.setting.Plan.Method == blind.Scaling:
		words = lang.L("every line of every sample needs its score")
	}
	return f.answer, errors.New(words)
}
