package tastings

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
)

// pooled is the verdict over every tasting that asked the same question of the
// same two breads.
type pooled struct {
	n       int
	verdict verdict.Verdict
}

// poolOf adds up the unsealed tastings that asked what t asked: by the same
// method, of the same two bakes, or of the same two values of what a trial
// varies. t comes first, so that its loaf 1 is loaf 1 of the sum. Tastings that
// cannot be added up are left out.
func poolOf(r journal.Reader, t *journal.Tasting) (pooled, error) {
	first, err := journal.VerdictInput(r, t)
	if err != nil {
		return pooled{}, err
	}
	all, err := journal.All[journal.Tasting](r)
	if err != nil {
		return pooled{}, err
	}
	mine, err := breads(r, t, first.Opened.Setting.Plan)
	if err != nil {
		return pooled{}, err
	}
	inputs, loafOne := []verdict.Input{first}, []bool{true}
	for _, other := range all {
		if other.ID == t.ID || !other.IsOpen() {
			continue
		}
		in, err := journal.VerdictInput(r, other)
		if err != nil {
			return pooled{}, err
		}
		theirs, err := breads(r, other, in.Opened.Setting.Plan)
		if err != nil {
			return pooled{}, err
		}
		same, one := matched(mine, theirs)
		if !same {
			continue
		}
		if _, err := verdict.Pool([]verdict.Input{first, in}, []bool{true, one}); errors.Is(err, verdict.ErrPool) {
			continue // it asked something else
		}
		inputs, loafOne = append(inputs, in), append(loafOne, one)
	}
	if len(inputs) < 2 {
		return pooled{n: 1}, nil
	}
	v, err := verdict.Pool(inputs, loafOne)
	return pooled{len(inputs), v}, err
}

// breads names the two breads of a tasting for comparing: what its trial varies
// with the value of each, or else the bakes themselves.
func breads(r journal.Reader, t *journal.Tasting, p blind.Plan) ([2][]string, error) {
	var out [2][]string
	for i, l := range p.Loaves {
		out[i] = []string{l.ID}
	}
	if t.Trial == "" {
		return out, nil
	}
	trial, err := journal.Get[journal.Trial](r, t.Trial)
	if errors.Is(err, journal.ErrNotFound) {
		return out, nil
	}
	if err != nil {
		return out, err
	}
	for i, l := range p.Loaves {
		for _, arm := range trial.Arms {
			if string(arm.Bake) == l.ID && arm.Value != "" {
				out[i] = append(out[i], strings.ToLower(trial.Varied+"\x00"+arm.Value))
			}
		}
	}
	return out, nil
}

// matched reports whether two pairs are the same breads, and whether the first
// of one is the first of the other.
func matched(a, b [2][]string) (same, loafOne bool) {
	meet := func(x, y []string) bool {
		for _, s := range x {
			for _, t := range y {
				if s == t {
					return true
				}
			}
		}
		return false
	}
	switch {
	case meet(a[0], b[0]) && meet(a[1], b[1]):
		return true, true
	case meet(a[0], b[1]) && meet(a[1], b[0]):
		return true, false
	}
	return false, false
}

// together shows the sum over several tastings.
func (v *verdictPart) together(sum pooled) fyne.CanvasObject {
	u := v.p.env.Units()
	column := kit.Stack(3, kit.Section(lang.L("All {{.N}} tastings of this question together", map[string]any{"N": sum.n})),
		kit.NewText(kit.Span{Text: headline(sum.verdict, u), Size: look.TextTitle, Serif: true}))
	column.Add(widthOf(880, leadText(u.SayAll(sum.verdict.Words))))
	for _, w := range u.SayAll(slices.Concat(sum.verdict.Details, sum.verdict.Cautions)) {
		column.Add(widthOf(880, kit.Faint(w)))
	}
	return column
}
