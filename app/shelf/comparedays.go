package shelf

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// showDays lays the days of the bakes over each other, where any of them is known.
func (p *comparePage) showDays(days charts.Lanes) {
	p.lanes.Objects = nil
	if slices.ContainsFunc(days.Lanes, func(l charts.Lane) bool { return len(l.Blocks) > 0 }) {
		chart := p.env.NewChart(lang.L("days"), fyne.NewSize(look.Space(80), float32(len(days.Lanes))*44+64), nil)
		chart.SetSpec(days)
		p.lanes.Objects = []fyne.CanvasObject{kit.Stack(2, kit.Section(lang.L("The days, laid over each other")), chart)}
	}
	p.lanes.Refresh()
}

// laneNames tells bakes of one name apart by their day.
func laneNames(names []string, bakes []*journal.Bake, s wording) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = name + ", " + s.units.Day(bakes[i].At, s.now)
	}
	return out
}

// timelines lays the days of bakes over each other, in hours since each was mixed.
func timelines(bakes []*journal.Bake, names []string) charts.Lanes {
	out := charts.Lanes{
		X:     charts.Axis{Title: lang.L("hours since mixing began"), Include: []float64{0}},
		Empty: lang.L("No step of these bakes has its times written down."),
	}
	for i, b := range bakes {
		lane := charts.Lane{Name: names[i]}
		begun := began(b)
		for _, step := range b.Steps {
			at, end := step.At, step.End
			if at.IsZero() {
				at = step.PlannedAt
			}
			if at.IsZero() || step.Skipped {
				continue
			}
			if end.IsZero() || end.Before(at) {
				end = at.Add(step.Planned)
			}
			kind := plan.Kind(step.Kind)
			lane.Blocks = append(lane.Blocks, charts.Block{
				From: at.Sub(begun).Hours(), To: end.Sub(begun).Hours(),
				Label: pages.StepTitle(kind, step.Name), Hue: charts.Accent,
				Pale: slices.Contains([]plan.Kind{plan.Rest, plan.BenchRest, plan.Proof, plan.ColdRest, plan.Cool}, kind), Planned: step.At.IsZero(),
			})
			for n, done := range step.Done {
				lane.Ticks = append(lane.Ticks, charts.Tick{At: done.Sub(begun).Hours(), Label: lang.L("fold {{.N}}", map[string]any{"N": n + 1})})
			}
		}
		out.Lanes = append(out.Lanes, lane)
	}
	return out
}

// began is when a bake was mixed, or else when its day began: as it went, or else as
// it was planned.
func began(b *journal.Bake) time.Time {
	var first time.Time
	for _, step := range b.Steps {
		at := step.At
		if at.IsZero() {
			at = step.PlannedAt
		}
		switch {
		case at.IsZero():
		case plan.Kind(step.Kind) == plan.Mix:
			return at
		case first.IsZero() || at.Before(first):
			first = at
		}
	}
	if first.IsZero() {
		return b.At
	}
	return first
}
