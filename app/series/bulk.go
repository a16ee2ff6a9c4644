package series

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/bulk"
	"twinloaf/journal/measure"
)

// bulk is the bulk fermentation of the dough in a jar, with what its curve shows by now; false
// for a culture, and where it is not known when the dough was mixed.
func (p *seriesPage) bulk(k int) (bulk.Dough, bool) {
	if p.doughs[k] == nil {
		return bulk.Dough{}, false
	}
	var seen []bulk.Rise
	if k < len(p.now.curves) {
		seen = p.now.curves[k].Rises()
	}
	return p.doughs[k].Bulk(seen...)
}

// bulks are those of all jars.
func (p *seriesPage) bulks() []bulk.Dough {
	out := make([]bulk.Dough, len(p.doughs))
	for k := range out {
		out[k], _ = p.bulk(k)
	}
	return out
}

// bulkHeading says how far a dough had risen when its bulk ended; while it goes on, what else
// is to be said.
func bulkHeading(d bulk.Dough, otherwise string, u measure.Units) string {
	rise, ok := d.EndRise()
	if !ok || !d.Over() {
		return otherwise
	}
	return lang.L("{{.Rise}} at the end of the bulk, after {{.Span}}", map[string]any{"Rise": u.Times().Write(rise), "Span": u.Span(d.Ended.Sub(d.Began).Round(time.Minute))})
}

// otherDoughs are those that were rising when the first picture was taken, but for what is in
// the first jar.
func (p *seriesPage) otherDoughs() ([]*journal.Bake, error) {
	all, err := journal.All[journal.Bake](p.env.Journal)
	if err != nil {
		return nil, err
	}
	const about = time.Hour // of the first picture
	first := p.rec.From.Add(-p.rec.Ahead)
	var out []*journal.Bake
	for _, b := range all {
		d, ok := b.Bulk()
		rising := ok && !d.Began.After(first.Add(about)) && (d.Ended.After(first) || d.Ended.IsZero() && first.Sub(d.Began) < 48*time.Hour)
		if rising && b.ID != p.rec.Jars[0].Bake {
			out = append(out, b)
		}
	}
	return out, nil
}
