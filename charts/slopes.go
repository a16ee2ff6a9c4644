package charts

import (
	"cmp"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

func (p Slopes) check() error { return p.Y.check("the Y axis") }

// alike gathers pairs of the same values: how many there are and which is first.
func (p Slopes) alike() (order [][2]float64, count, first map[[2]float64]int) {
	count, first = map[[2]float64]int{}, map[[2]float64]int{}
	for i, v := range p.Pairs {
		if !finite(v[0]) || !finite(v[1]) {
			continue
		}
		if count[v] == 0 {
			order = append(order, v)
			first[v] = i
		}
		count[v]++
	}
	return order, count, first
}

func (p Slopes) draw(s *drawList) {
	order, count, first := p.alike()
	var ys span
	for _, v := range order {
		ys.add(v[0], v[1])
	}
	if !ys.any {
		s.blank(s.style.Words.nothing(p.Empty))
		return
	}
	fr, ok := newFrame(s, p.Title, p.Y, ys, s.style.size()*leading+labelGap)
	if !ok {
		s.cramped()
		return
	}
	x := [2]float64{fr.area.x + fr.area.w*0.22, fr.area.x + fr.area.w*0.78}
	base := fr.area.bottom() + labelGap + ascent*s.style.size()
	for k, side := range []Side{p.Left, p.Right} {
		f := s.named(side.Look)
		s.upright(x[k], fr.area.y, fr.area.bottom(), 1, mix(s.style.Rule, s.style.Faint, 0.3))
		s.write(point{x[k], base}, s.fit(side.Name, f, fr.area.w*0.42), f, 0.5)
	}
	for _, v := range order {
		if fr.y.holds(v[0]) && fr.y.holds(v[1]) {
			width := min(1.5+float64(count[v]-1)*1.2, 9)
			s.line([]point{{x[0], fr.y.at(v[0])}, {x[1], fr.y.at(v[1])}}, fade(s.style.Faint, 0.55), width, false)
		}
	}
	for _, v := range order {
		for k, side := range []Side{p.Left, p.Right} {
			if !fr.y.holds(v[k]) {
				continue
			}
			at := point{x[k], fr.y.at(v[k])}
			marker(s, at, side.Look, s.style.colour(side.Look.Hue), markerSize)
			s.marks = append(s.marks, mark{at: at, series: side.Name, index: first[v], text: p.say(v, count[v], s.style.Words)})
		}
	}
}

// say tells a pair of values, and how many pairs are like it.
func (p Slopes) say(v [2]float64, alike int, w Words) string {
	words := w.Say(say.Of("{{.Left}} {{.LeftValue}}, {{.Right}} {{.RightValue}}", say.With{
		"Left": p.Left.Name, "LeftValue": p.Y.value(v[0], w), "Right": p.Right.Name, "RightValue": p.Y.value(v[1], w)}))
	if alike > 1 {
		words = w.Say(say.N("{{.Said}} ({{.N}} alike)", "{{.Said}} ({{.N}} alike)", alike, say.With{"Said": words}))
	}
	return words
}

func (p Slopes) tabulate() grid {
	t := grid{head: []table.Cell{table.Text(cmp.Or(p.Left.Name, "left")), table.Text(cmp.Or(p.Right.Name, "right"))}}
	for _, v := range p.Pairs {
		t.rows = append(t.rows, []table.Cell{table.Number(v[0]), table.Number(v[1])})
	}
	return t
}

func (p Slopes) summary(w Words) string {
	up, down, same := 0, 0, 0
	for _, v := range p.Pairs {
		switch {
		case !finite(v[0]) || !finite(v[1]):
		case v[1] > v[0]:
			up++
		case v[1] < v[0]:
			down++
		default:
			same++
		}
	}
	if up+down+same == 0 {
		return w.nothing(p.Empty)
	}
	words := w.Say(say.N("{{.N}} pair: {{.Right}} is higher in {{.Up}}, {{.Left}} in {{.Down}}, equal in {{.Same}}",
		"{{.N}} pairs: {{.Right}} is higher in {{.Up}}, {{.Left}} in {{.Down}}, equal in {{.Same}}", up+down+same, say.With{
			"Right": cmp.Or(p.Right.Name, w.Say(say.Of("right"))), "Up": up, "Left": cmp.Or(p.Left.Name, w.Say(say.Of("left"))), "Down": down, "Same": same}))
	return sentences(p.Title, words)
}
