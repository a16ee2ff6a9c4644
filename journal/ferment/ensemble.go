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
	widen    float64
}

type part struct {
	gaussian
	line   *timeline
	weight float64
	warmer float64 // by how much a degree quickens it, in the logarithm
}

// believe joins the past with the readings so far.
func (f *Forecaster) believe(c Course, temps *warmthLine, now time.Time) *belief {
	b := &belief{temps: temps, widen: 1}
	if f.feedings > 0 {
		b.widen = widen
	}
	x := f.features(c.Feeding)
	after := make([]gaussian, len(f.filters))
	parts := make([]part, len(f.filters))
	var line *timeline
	for i, w := range f.filters {
		if i == 0 || &w.pace[0] != &f.filters[i-1].pace[0] {
			line = temps.timeline(w.pace)
		}
		seen := sights(c, line, now)
		b.readings = len(seen)
		_, ahead := w.foresee(f.assume, x, line)
		after[i] = look(ahead, seen, w.scatter())
		parts[i] = part{gaussian: after[i], line: line, warmer: w.pace.lean(temps.mean(8))}
	}
	for i, w := range f.weights(after) {
		if w > 0.01 {
			parts[i].weight = w
			b.parts = append(b.parts, parts[i])
		}
	}
	return b
}

// widen is by how much the spread of the top is stretched: a hump is not quite the
// curve of any jar, and a top found from heights is a little off, the same way each time.
// It was set on the laws of the package trials, so that eight of ten tops lie inside the
// interval over all of them. Before any feeding has been learned from, the spread is that
// of all cultures and takes no stretching.
const widen = 1.12

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
						x[r] += (b.widen - 1) * root[r][c] * z[c]
					}
				}
			}
			m := member{hump: humpOf(x), line: p.line, known: known}
			m.stretch = math.Exp(-p.warmer * b.temps.doubts * normal(i, 11))
			up, down := m.hump.crossings(ripeFraction)
			m.from, m.top, m.to = m.clock(up, longest), m.clock(m.hump.top, longest), m.clock(down, longest)
			out = append(out, m)
			i++
		}
	}
	return out
}

// fill works out the times and the band.
func (b *belief) fill(out *Forecast, longest float64) error {
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
	const steps = 72
	end := out.RipeTo.Mid.Sub(out.Fed).Hours() * 1.15
	for i := range steps + 1 {
		h := end * float64(i) / steps
		low, mid, high := of(func(m member) float64 { return 1 + m.at(h) })
		out.Band = append(out.Band, BandPoint{At: at(h), RiseSpan: RiseSpan{Rise(low), Rise(mid), Rise(high)}})
	}
	return nil
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
