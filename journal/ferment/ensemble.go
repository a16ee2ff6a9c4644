package ferment

import (
	"math"
	"sort"
	"time"

	"gonum.org/v1/gonum/stat/distuv"
)

// A belief is what is thought of a rise under way: for each filter a normal of the
// four figures, in that filter's thermal time, and its weight.
type belief struct {
	readings int
	parts    []part
	temps    *warmthLine
}

type part struct {
	gaussian
	family family
	line   *timeline
	weight float64
	widen  float64 // by how much the spread of the top is stretched
	warmer float64 // by how much a degree quickens it, in the logarithm
}

// believe joins the past with the readings so far.
func (f *Forecaster) believe(c Course, x features, temps *warmthLine, now time.Time) *belief {
	b := &belief{temps: temps}
	after := make([]gaussian, len(f.filters))
	parts := make([]part, len(f.filters))
	var line *timeline
	var of paceTable
	likely := f.weights(nil)
	for i, w := range f.filters {
		if likely[i] < hopeless {
			after[i].log = math.Inf(-1)
			continue
		}
		if line == nil || &w.pace[0] != &of[0] {
			line, of = temps.timeline(w.pace), w.pace
		}
		seen := sights(c, line, now)
		b.readings = 0
		for _, s := range seen {
			if !s.with {
				b.readings++
			}
		}
		_, ahead := w.aged(x).foresee(f.assume, x, line)
		after[i] = w.family.look(ahead, seen, w.scatter())
		widen := 1.0 // the spread of all cultures
		if f.feedings > 0 {
			widen = math.Hypot(w.surprise(), f.misfit()/math.Sqrt(after[i].cov[xTop][xTop]))
		}
		parts[i] = part{gaussian: after[i], family: w.family, line: line, widen: widen, warmer: w.pace.lean(temps.mean(8))}
	}
	for i, w := range f.weights(after) {
		if w > 0.01 {
			parts[i].weight = w
			b.parts = append(b.parts, parts[i])
		}
	}
	return b
}

// hopeless is the weight of a filter that the past speaks so clearly against that this
// feeding's readings need not be asked.
const hopeless = 0.002

// formless is the sd of the logarithm of the time to the top that the form of a rise would
// leave open if no height were read of a feeding: no jar follows a curve of ours, and a top
// that is found by one is off the same way each time, so that no later feeding tells. The
// more heights of each, the less is left to the curve. It was set on the first four laws of
// the package trials.
const formless = 0.2

// misfit is that sd for this culture. Where the baker noted when it stood highest, the
// curve has no say.
func (f *Forecaster) misfit() float64 {
	looks := f.heights / float64(max(1, f.feedings))
	told := f.told / float64(max(1, f.feedings))
	return formless / (1 + max(1, looks)) * math.Max(0, 1-2*told)
}

// members is about how many curves a band is drawn from.
const members = 300

// A member is one rise that may come, and the hours of the clock of its turns.
type member struct {
	hump           hump
	line           *timeline
	known, stretch float64 // thermal hours known, and by how much the rest is slower
	from, top, to  float64
}

// clock turns thermal time into hours of the clock.
func (m member) clock(th, longest float64) float64 {
	if th > m.known {
		th = m.known + (th-m.known)*m.stretch
	}
	h, ok := m.line.clockAt(th)
	if !ok || !(h < longest) {
		return longest
	}
	return h
}

// at is the rise at an hour of the clock.
func (m member) at(h float64) float64 {
	th := m.line.thermalAt(h)
	if th > m.known {
		th = m.known + (th-m.known)/m.stretch
	}
	return m.hump.at(th)
}

// ensemble spreads curves evenly over what is believed (a Halton sequence: nothing
// is drawn at random).
func (b *belief) ensemble(longest float64) []member {
	total := 0.0
	for _, p := range b.parts {
		total += p.weight
	}
	var out []member
	i := 0
	for _, p := range b.parts {
		root, ok := lower(p.cov)
		if !ok {
			continue
		}
		known := p.line.thermalAt(b.temps.known)
		n := max(1, int(math.Round(members*p.weight/total)))
		for range n {
			z := figures{normal(i, 2), normal(i, 3), normal(i, 5), normal(i, 7), normal(i, 13)}
			x := p.mean
			for r := range latents {
				for c := 0; c <= r; c++ {
					x[r] += root[r][c] * z[c]
					if r == xTop {
						x[r] += (p.widen - 1) * root[r][c] * z[c]
					}
				}
			}
			m := member{hump: p.family.hump(x), line: p.line, known: known}
			m.stretch = math.Exp(-p.warmer * b.temps.doubts * normal(i, 11))
			up, down := m.hump.crossings()
			m.from, m.top, m.to = m.clock(up, longest), m.clock(m.hump.top, longest), m.clock(down, longest)
			out = append(out, m)
			i++
		}
	}
	return out
}

// fill works out the times and, if asked for, the band.
func (b *belief) fill(out *Forecast, longest float64, band bool) error {
	curves := b.ensemble(10 * longest)
	if len(curves) < 2 {
		return ErrAsleep
	}
	v := make([]float64, len(curves))
	of := func(get func(member) float64) (low, mid, high float64) {
		for i, m := range curves {
			v[i] = get(m)
		}
		return middle80(v)
	}
	at := func(h float64) time.Time { return out.Fed.Add(hours(h)) }
	span := func(get func(member) float64) Span {
		low, mid, high := of(get)
		return Span{at(low), at(mid), at(high)}
	}
	if _, mid, _ := of(func(m member) float64 { return m.top }); !(mid < longest) {
		return ErrAsleep
	}
	out.Peak = span(func(m member) float64 { return m.top })
	out.RipeFrom = span(func(m member) float64 { return m.from })
	out.RipeTo = span(func(m member) float64 { return m.to })
	low, mid, high := of(func(m member) float64 { return 1 + m.hump.rise })
	out.PeakRise = RiseSpan{Rise(low), Rise(mid), Rise(high)}
	if !band {
		return nil
	}
	// A chart's band wants fewer curves than a time does.
	curves = every(curves, len(curves)/60)
	v = v[:len(curves)]
	const steps = 48
	end := out.RipeTo.Mid.Sub(out.Fed).Hours() * 1.15
	for i := range steps + 1 {
		h := end * float64(i) / steps
		low, mid, high := of(func(m member) float64 { return 1 + m.at(h) })
		out.Band = append(out.Band, BandPoint{At: at(h), RiseSpan: RiseSpan{Rise(low), Rise(mid), Rise(high)}})
	}
	return nil
}

// every is one member of each n.
func every(curves []member, n int) []member {
	if n < 2 {
		return curves
	}
	var out []member
	for i := n / 2; i < len(curves); i += n {
		out = append(out, curves[i])
	}
	return out
}

// middle80 is the tenth, fiftieth and ninetieth hundredth of v, which it sorts.
func middle80(v []float64) (low, mid, high float64) {
	sort.Float64s(v)
	at := func(q float64) float64 {
		pos := clamp(q*float64(len(v))-0.5, 0, float64(len(v)-1)-1e-9)
		i := int(pos)
		return v[i] + (v[i+1]-v[i])*(pos-float64(i))
	}
	return at(0.1), at(0.5), at(0.9)
}

// haltons are normal deviates of the Halton sequences in use, by base.
var haltons = map[int][]float64{2: halton(2), 3: halton(3), 5: halton(5), 7: halton(7), 11: halton(11), 13: halton(13)}

func halton(base int) []float64 {
	out := make([]float64, 2*members)
	for i := range out {
		u, f := 0.0, 1.0
		for n := i + 1; n > 0; n /= base {
			f /= float64(base)
			u += f * float64(n%base)
		}
		out[i] = distuv.UnitNormal.Quantile(u)
	}
	return out
}

// normal is the i-th normal deviate of the Halton sequence of a base.
func normal(i, base int) float64 { return haltons[base][i%(2*members)] }
