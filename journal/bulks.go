package journal

import (
	"slices"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/bulk"
	"twinloaf/journal/formula"
	"twinloaf/journal/jar"
	"twinloaf/journal/plan"
)

// A StepReading is what was measured of the dough at one moment of a step; what was not is
// nil. The step's own figures are those of the last reading, and count before it where
// they were corrected since.
type StepReading struct {
	At    time.Time        `json:"at"`
	Dough *formula.Celsius `json:"doughC,omitzero"`
	Air   *formula.Celsius `json:"airC,omitzero"`
	Rise  *float64         `json:"rise,omitzero" limit:"rise"`
	Rest  jsontext.Value   `json:",embed"`
}

// Bulk gives what is known of the bulk fermentation of a bake: from mixing until the dough
// was shaped, chilled or baked. It says false when it is not known when the dough was mixed.
// While it rises, Ended is zero. Figures without a time are taken to be of the end of
// their step for a rise, of its middle for the dough's temperature and of its beginning for
// the air's. seen are more rises, which
// pictures have shown (see [BulkRises]).
func (b *Bake) Bulk(seen ...bulk.Rise) (bulk.Dough, bool) {
	figures := b.Dough().Metrics()
	d := bulk.Dough{
		ID: string(b.ID), Culture: string(b.Culture), Style: FlourKey(b.Name), Inoculation: float64(figures.Prefermented),
		Salt: float64(figures.Salt), Wholegrain: float64(figures.Wholegrain), Grams: float64(figures.Dough), Score: b.Overall(),
	}
	if figures.Prefermented == 0 {
		d.Culture = leavenedOtherwise
	}
	for _, s := range b.Steps {
		k := plan.Kind(s.Kind)
		if s.Skipped || s.At.IsZero() && (len(s.Readings) == 0 || !inBulk(k)) || k == plan.Levain || k == plan.Rest && d.Began.IsZero() && b.mixes() {
			continue // the levain's, and a rest of flour and water before the levain is in
		}
		if !inBulk(k) && !d.Began.IsZero() {
			d.Ended = s.At
			break
		}
		if d.Began.IsZero() {
			d.Began = s.At
		}
		if d.Began.IsZero() {
			continue // something was measured of it before it was said to have begun
		}
		s.measured(&d)
		d.Ended = time.Time{}
		if k == plan.Bulk && !s.End.IsZero() {
			d.Ended = s.End
		}
	}
	if d.Began.IsZero() {
		return bulk.Dough{}, false
	}
	d.Rises = append(d.Rises, seen...)
	slices.SortStableFunc(d.Rises, func(a, b bulk.Rise) int { return a.At.Compare(b.At) })
	if b.Water.Dough != nil {
		d.Dough = append([]bulk.Temp{{At: d.Began, C: float64(*b.Water.Dough)}}, d.Dough...)
	}
	if b.Water.Room != nil {
		d.Air = append([]bulk.Temp{{At: d.Began, C: float64(*b.Water.Room)}}, d.Air...)
	}
	for _, temps := range [][]bulk.Temp{d.Dough, d.Air} { // a step may have been measured after the next had begun
		slices.SortStableFunc(temps, func(a, b bulk.Temp) int { return a.At.Compare(b.At) })
	}
	return d, true
}

// leavenedOtherwise stands for the culture of doughs that have none.
const leavenedOtherwise = "without a culture"

// mixes says that there is a step of mixing that was begun.
func (b *Bake) mixes() bool {
	return slices.ContainsFunc(b.Steps, func(s Step) bool { return plan.Kind(s.Kind) == plan.Mix && !s.At.IsZero() && !s.Skipped })
}

// inBulk says that a dough goes on with its bulk fermentation in a step of the kind. A kind
// of the baker's own may be anything, and is taken for part of it.
func inBulk(k plan.Kind) bool {
	switch k {
	case plan.PreShape, plan.BenchRest, plan.Divide, plan.Proof, plan.ColdRest, plan.Heat, plan.BakeCovered, plan.BakeUncovered, plan.Cool:
		return false
	}
	return true
}

// measured adds what was measured in a step.
func (s Step) measured(d *bulk.Dough) {
	all := slices.Clone(s.Readings)
	lastOf := func(has func(StepReading) bool) int {
		for i := len(all) - 1; i >= 0; i-- {
			if has(all[i]) {
				return i
			}
		}
		return -1
	}
	middle, end := s.At, s.At
	if s.End.After(s.At) {
		middle, end = s.At.Add(s.End.Sub(s.At)/2), s.End
	}
	// The figures of the step are the last word.
	if i := lastOf(func(r StepReading) bool { return r.Dough != nil }); i >= 0 {
		all[i].Dough = s.Dough
	} else if s.Dough != nil && !s.At.IsZero() {
		all = append(all, StepReading{At: middle, Dough: s.Dough})
	}
	if i := lastOf(func(r StepReading) bool { return r.Air != nil }); i >= 0 {
		all[i].Air = s.Air
	} else if s.Air != nil && !s.At.IsZero() {
		all = append(all, StepReading{At: s.At, Air: s.Air})
	}
	if i := lastOf(func(r StepReading) bool { return r.Rise != nil }); i >= 0 {
		all[i].Rise = s.Rise
	} else if s.Rise != nil && !s.End.IsZero() {
		all = append(all, StepReading{At: end, Rise: s.Rise})
	}
	for _, r := range all {
		if r.Dough != nil {
			d.Dough = append(d.Dough, bulk.Temp{At: r.At, C: float64(*r.Dough)})
		}
		if r.Air != nil {
			d.Air = append(d.Air, bulk.Temp{At: r.At, C: float64(*r.Air)})
		}
		if r.Rise != nil {
			d.Rises = append(d.Rises, bulk.Rise{At: r.At, Times: *r.Rise})
		}
	}
}

// Overall is how the bread was scored as a whole; 0 when it was not.
func (b *Bake) Overall() int {
	for _, s := range b.Outcome.Scores {
		if s.Attribute == Overall {
			return s.Score
		}
	}
	return 0
}

// Bulks gives the bulks of all bakes but one that are over, the bin left out.
func Bulks(r Reader, but ID) ([]bulk.Dough, error) {
	bakes, err := All[Bake](r)
	if err != nil {
		return nil, err
	}
	var out []bulk.Dough
	for _, b := range bakes {
		if d, ok := b.Bulk(); !ok || b.ID == but || !d.Over() {
			continue
		}
		seen, err := BulkRises(r, b.ID)
		if err != nil {
			return nil, err
		}
		d, _ := b.Bulk(seen...)
		out = append(out, d)
	}
	return out, nil
}

// BulkRises are the rises of a bake's dough that its rows of pictures have shown, so many
// minutes of them together as one. A row that was not followed yet says nothing.
func BulkRises(r Reader, bake ID) ([]bulk.Rise, error) {
	rows, err := SeriesOf(r, bake)
	if err != nil {
		return nil, err
	}
	var out []bulk.Rise
	for _, s := range rows {
		curves, ok, err := SeriesCurves(r, s)
		if err != nil {
			return nil, err
		}
		for k, one := range s.Jars {
			if ok && one.Bake == bake {
				out = append(out, curves[k].Rises()...)
			}
		}
	}
	return out, nil
}

// Rises are those of a dough that a curve shows, so many minutes of it together as one, and the
// last by itself: with it the bulk may have ended.
func (c SeriesCurve) Rises() []bulk.Rise {
	curve := c.Curve()
	var out []bulk.Rise
	for _, p := range curve.Readings(OneLook) {
		out = append(out, bulk.Rise{At: p.At, Times: p.Rise, SD: p.SD})
	}
	for _, p := range slices.Backward(curve.Points) {
		if p.Lost != jar.Kept {
			continue
		}
		if n := len(out); n > 0 && p.At.After(out[n-1].At) {
			out = append(out, bulk.Rise{At: p.At, Times: p.Rise, SD: p.SD})
		}
		break
	}
	return out
}
