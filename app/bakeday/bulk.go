package bakeday

import (
	"context"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/bulk"
	"twinloaf/journal/plan"
)

// bulkSection says, while a dough is in bulk, when it will be over, and offers to shape then.
type bulkSection struct {
	face   *dayStage
	object *kit.Text
	move   *kit.Link

	known map[journal.ID]*bulk.Forecaster // what was learned, without the dough itself
	seen  map[journal.ID][]bulk.Rise      // what pictures have shown of the dough
	said  time.Time                       // when show last said what is expected
	by    plan.Minutes                    // by which shaping would have to move
	ref   plan.Ref                        // of shaping
}

func newBulkSection(f *dayStage) *bulkSection {
	p := &bulkSection{face: f, known: map[journal.ID]*bulk.Forecaster{}, seen: map[journal.ID][]bulk.Rise{}, object: kit.NewText(kit.Span{Size: look.TextLarge})}
	p.move = kit.NewLink("", p.shape)
	return p
}

// foreseen is what a forecast of a dough rests on.
type foreseen struct {
	known *bulk.Forecaster
	seen  []bulk.Rise
}

// learn learns from the other bakes, away from the main goroutine.
func (p *bulkSection) learn() {
	env, id := p.face.env, p.face.bake.ID
	pages.Fetch(env, func(ctx context.Context) (out foreseen, err error) {
		until := env.Journal.Until(ctx)
		past, err := journal.Bulks(until, id)
		if err != nil {
			return out, err
		}
		out.known = bulk.Learn(past)
		out.seen, err = journal.BulkRises(until, id)
		return out, err
	}, func(out foreseen, err error) {
		if env.Failed(err) {
			return
		}
		p.known[id], p.seen[id] = out.known, out.seen
		p.show()
		p.face.showMeasured()
	})
}

// show says what is expected of the dough by now; nothing when it is not in bulk.
func (p *bulkSection) show() {
	b, now := p.face.bake, p.face.env.Now()
	p.said = now
	words, link := "", ""
	if f, ok := p.expect(b, now); ok {
		u := p.face.env.Units()
		words = u.Say(f.Line(now.Location()))
		if p.by != 0 {
			link = lang.L("Move shaping to {{.When}}", map[string]any{"When": u.Clock(f.End.Mid.In(now.Location()).Round(fiveMinutes))})
		}
	}
	p.object.Say(words)
	p.move.Say(link)
}

// age says anew what is expected once five minutes have gone by: that a dough is not over
// yet tells something, too.
func (p *bulkSection) age(now time.Time) {
	if now.Sub(p.said).Abs() >= fiveMinutes {
		p.show()
	}
}

const (
	fiveMinutes = 5 * time.Minute
	worthMoving = 10 // minutes by which shaping is off what the dough will do
)

// expect is what is expected of a dough in bulk, and finds by how much shaping is off it.
func (p *bulkSection) expect(b *journal.Bake, now time.Time) (bulk.Forecast, bool) {
	p.by = 0
	known := p.known[b.ID]
	d, ok := b.Bulk(p.seen[b.ID]...)
	if known == nil || !ok || d.Began.After(now) || !d.Ended.IsZero() {
		return bulk.Forecast{}, false
	}
	shape, ok := shaping(b, now)
	if !ok {
		return bulk.Forecast{}, false
	}
	f, err := known.End(d, now)
	if err != nil {
		return bulk.Forecast{}, false
	}
	by := plan.Minutes(f.End.Mid.Round(fiveMinutes).Sub(shape.Due).Round(time.Minute) / time.Minute)
	if !f.Overdue && f.End.Mid.After(now) && max(by, -by) >= worthMoving {
		p.by, p.ref = by, shape.Ref
	}
	return f, true
}

// shaping is the moment that ends the bulk, while it is still to come.
func shaping(b *journal.Bake, now time.Time) (plan.Moment, bool) {
	day, _ := b.Day()
	mixed := false
	for _, m := range day.Timeline(now) {
		switch m.Kind {
		case plan.Mix, plan.Rest, plan.Turns, plan.Bulk:
			mixed = true
		case plan.PreShape, plan.Divide, plan.Proof, plan.ColdRest, plan.Heat, plan.BakeCovered, plan.BakeUncovered:
			if mixed && m.Turn == 0 {
				return m, m.State == plan.Pending
			}
		}
	}
	return plan.Moment{}, false
}

// shape moves shaping, and all that follows, to when the bulk should be over.
func (p *bulkSection) shape() {
	ref, by := p.ref, p.by
	if by == 0 {
		return
	}
	p.face.act.shift(p.face.bake.ID, lang.L("shaping, when the bulk is over"), plan.Move{Ref: ref, By: by})
}
