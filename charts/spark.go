package charts

import (
	"fmt"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

func (k Spark) check() error {
	if !finite(k.From) || !finite(k.To) || k.To < k.From {
		return fmt.Errorf("histogram %q: the chosen range is %v to %v", k.Name, k.From, k.To)
	}
	return checkBins(k.Name, k.Edges, k.Counts)
}

// chosen reports whether a bin lies, for the most part, in the chosen range.
func (k Spark) chosen(i int) bool {
	middle := (k.Edges[i] + k.Edges[i+1]) / 2
	return k.From == k.To || middle >= k.From && middle <= k.To
}

func (k Spark) draw(s *drawList) {
	var ys, xs span
	ys.add(0)
	ys.add(k.Counts...)
	xs.add(k.Edges...)
	if len(k.Counts) == 0 {
		return
	}
	if ys.hi <= 0 {
		ys.hi = 1
	}
	x := scale{lo: xs.lo, hi: xs.hi, start: 0, end: s.w}
	y := scale{lo: 0, hi: ys.hi, start: s.h - 1, end: 1}
	gap := min(2, s.w/float64(len(k.Counts))*0.2)
	for i, n := range k.Counts {
		x0, x1 := x.at(k.Edges[i]), x.at(k.Edges[i+1])
		c := s.style.Accent
		if !k.chosen(i) {
			c = mix(c, s.style.Paper, 0.72)
		}
		top := s.h - 1
		if finite(n) && n > 0 {
			top = min(y.at(n), s.h-2)
			s.block(rect{x0 + gap/2, top, x1 - x0 - gap, s.h - top}, c)
		}
		w, a := s.style.Words, axisOf(k.Format)
		words := w.valued(w.between(a.value(k.Edges[i], w), a.value(k.Edges[i+1], w)), w.Plain(n))
		s.marks = append(s.marks, mark{at: point{(x0 + x1) / 2, top}, area: rect{x0, 0, x1 - x0, s.h}, series: k.Name, index: i, text: words})
	}
	s.across(0, s.w, s.h-0.5, 1, s.style.Rule)
}

func axisOf(format func(float64) string) Axis { return Axis{Format: format} }

func (k Spark) tabulate() grid {
	t := grid{head: []table.Cell{"from", "to", "count"}}
	for i, n := range k.Counts {
		t.rows = append(t.rows, []table.Cell{table.Number(k.Edges[i]), table.Number(k.Edges[i+1]), table.Number(n)})
	}
	return t
}

func (k Spark) summary(w Words) string {
	all, in := 0.0, 0.0
	for i, n := range k.Counts {
		if finite(n) {
			all += n
			if k.chosen(i) {
				in += n
			}
		}
	}
	if len(k.Counts) == 0 {
		return w.nothing(k.Name)
	}
	a := axisOf(k.Format)
	from, to := k.From, k.To
	if from == to {
		from, to = k.Edges[0], k.Edges[len(k.Edges)-1]
	}
	return sentence(w.named(k.Name, w.Say(say.Of("{{.Some}} of {{.All}} between {{.From}} and {{.To}}", say.With{
		"Some": w.Plain(in), "All": w.Plain(all), "From": a.value(from, w), "To": a.value(to, w)}))))
}
