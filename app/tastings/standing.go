package tastings

import (
	"context"
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
)

// standing says beside the list what was asked and is answered, the newest question first: the
// tastings of one question added up.
type standing struct {
	env    *pages.Env
	box    *fyne.Container
	cancel func()
}

func newStanding(env *pages.Env) *standing {
	return &standing{env: env, box: kit.Stack(6), cancel: func() {}}
}

// show works out what unsealed tastings say, away from the main goroutine.
func (s *standing) show(rows []listRow) {
	s.cancel()
	var open []*journal.Tasting
	for _, r := range rows {
		if r.open != nil {
			open = append(open, r.open)
		}
	}
	kit.SetVisible(s.box, len(open) > 0)
	if len(open) == 0 {
		return
	}
	slices.SortStableFunc(open, func(a, b *journal.Tasting) int { return b.Unsealed.Compare(a.Unsealed) })
	s.cancel = pages.Fetch(s.env, func(ctx context.Context) ([]pooled, error) { return answersOf(s.env.Journal.Until(ctx), open) },
		func(sums []pooled, err error) {
			if s.env.Failed(err) {
				return
			}
			s.fill(sums)
		})
}

// answersOf adds up the tastings of each question.
func answersOf(r journal.Reader, open []*journal.Tasting) ([]pooled, error) {
	var out []pooled
	told := map[journal.ID]bool{}
	for _, t := range open {
		if told[t.ID] {
			continue
		}
		sum, err := poolOf(r, t)
		if errors.Is(err, blind.ErrTampered) {
			continue // its row says so
		}
		if err != nil {
			return nil, err
		}
		if len(sum.tastings) == 1 {
			if sum.verdict, err = verdict.Of(sum.inputs[0]); err != nil {
				return nil, err
			}
		}
		for _, added := range sum.tastings {
			told[added.ID] = true
		}
		out = append(out, sum)
	}
	return out, nil
}

func (s *standing) fill(sums []pooled) {
	u := s.env.Units()
	s.box.Objects = nil
	for _, sum := range sums {
		plan := sum.inputs[0].Opened.Setting.Plan
		of := lang.L("{{.One}} and {{.Other}}", map[string]any{"One": plan.Loaves[0].Name, "Other": plan.Loaves[1].Name})
		words := kit.Stack(2, kit.Section(of), kit.NewText(kit.Span{Text: headline(sum.verdict, u), Size: look.TextLarge, Serif: true}))
		if n := len(sum.tastings); n > 1 {
			words.Add(kit.Faint(lang.L("Added up: {{.N}} tastings of this question", map[string]any{"N": n})))
		}
		words.Add(kit.Body(strings.Join(u.SayAll(sum.verdict.Words), " ")))
		if low, share, high, ok := sum.verdict.Interval(plan); ok {
			words.Add(newIntervalBar(low, share, high))
		}
		if plan.Method.Discriminates() {
			words.Add(kit.Gap(1))
			words.Add(rightOf(sum.verdict.Tally))
		}
		s.box.Add(words)
	}
	kit.SetVisible(s.box, len(sums) > 0)
	s.box.Refresh()
}

// rightOf tells how many answers of each taster were right.
func rightOf(t verdict.Tally) fyne.CanvasObject {
	most := 0
	for _, share := range t.PerTaster {
		most = max(most, share.Counted)
	}
	column := kit.Stack(1, kit.Section(lang.L("Right answers of each taster")))
	for _, share := range t.PerTaster {
		if share.Counted > 0 {
			dots := newCountDots(share.Agreeing, share.Counted, 0)
			column.Add(kit.Row(4, kit.Width(look.Space(24), kit.NewElided(kit.Span{Text: share.Taster})), kit.Width(dotsWide(most), dots),
				kit.NewLine(kit.Span{Text: lang.L("{{.N}} of {{.Of}}", map[string]any{"N": share.Agreeing, "Of": share.Counted}), Color: look.ColorFaint})))
		}
	}
	return column
}
