package bakes

import (
	"context"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/bulk"
)

// bulkNote says beneath the timeline how long the bulk took, what was foretold of it, and
// how far off such forecasts have been.
type bulkNote struct {
	page *bakePage
	text *kit.Text

	known *bulk.Forecaster // from the bulks before this one; nil until they are read
	tests bulk.BackTest
	seen  []bulk.Rise // what pictures have shown of the dough
}

// backTested is how many of the last bulks are foretold anew.
const backTested = 10

func newBulkNote(p *bakePage) *bulkNote { return &bulkNote{page: p, text: kit.Small("")} }

// learn reads the other bulks and foretells the last of them, away from the main goroutine.
func (n *bulkNote) learn(b *journal.Bake) {
	env, id := n.page.env, b.ID
	d, ok := b.Bulk()
	if !ok {
		return
	}
	type learned struct {
		known *bulk.Forecaster
		tests bulk.BackTest
	}
	pages.Fetch(env, func(ctx context.Context) (learned, error) {
		past, err := journal.Bulks(env.Journal.Until(ctx), id)
		if err != nil {
			return learned{}, err
		}
		return learned{bulk.Learn(bulk.Before(past, d.Began)), bulk.Back(past, backTested, bulk.AsMixed)}, nil
	}, func(l learned, err error) {
		if env.Failed(err) {
			return
		}
		n.known, n.tests = l.known, l.tests
		n.show(b)
	})
}

// show says it of the bake as it is.
func (n *bulkNote) show(b *journal.Bake) {
	d, ok := b.Bulk(n.seen...)
	if n.known == nil || !ok || !d.Over() {
		n.text.Say("")
		return
	}
	u := n.page.units
	words := ""
	if m, ok := n.known.Miss(d); ok {
		words = u.Say(m.Line())
	}
	if t := u.Say(n.tests.Line()); t != "" {
		words += " " + t
	}
	n.text.Say(words)
}
