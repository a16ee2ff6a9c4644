package charts

func (p Plot) draw(s *drawList) {
	x, boxes, any := p.measure(s)
	if !any {
		s.blank(s.style.Words.nothing(p.Empty))
		return
	}
	for crowded := 0; ; crowded++ {
		mark := len(s.items)
		left, right, ok := p.arrange(s, x, boxes)
		if !ok {
			s.cramped()
			return
		}
		xs := scale{lo: x.lo, hi: x.hi, start: left, end: right}
		again := false
		for i := range boxes {
			if !p.drawPanel(s, xs, &boxes[i]) && crowded == 0 {
				boxes[i].crowded, again = true, true
				boxes[i].key = boxes[i].keyOf()
			}
		}
		if !again {
			return
		}
		s.items, s.marks = s.items[:mark], nil
	}
}

// drawPanel draws one panel, and reports false when a series' name found no
// place at the end of its line.
func (p Plot) drawPanel(s *drawList, xs scale, b *panelBox) bool {
	p.drawHead(s, b)
	pp := &panelPainter{
		drawList: s, area: b.area, x: xs,
		y:     scale{lo: b.lo, hi: b.hi, start: b.area.bottom(), end: b.area.y},
		xAxis: p.X, yAxis: b.Y, panel: b.index, keyed: b.crowded,
		placer: placer{sh: s, ruled: b.area.right(),
			bounds: rect{b.area.x, b.area.y - min(b.head, 6), s.w - b.area.x - 2, b.area.h + min(b.head, 6) + 2}},
	}
	xticks := p.X.ticks(xs.lo, xs.hi, int(b.area.w/(s.style.size()*4.2)), s.style.Words)
	for depth := range depths {
		for _, l := range b.Layers {
			if l.depth() == depth {
				l.paint(pp)
			}
		}
		if depth == depthBand {
			p.grid(s, xs, b, pp, xticks)
		}
	}
	if b.axis {
		writeX(s, xs, b.area.bottom()+b.strip, xticks, p.X.Title, rect{b.area.x, 0, b.area.w, s.h})
	}
	ok := true
	for _, a := range pp.asks {
		if !pp.place(a) && a.name {
			ok = false
		}
	}
	return ok
}

func (p Plot) grid(s *drawList, xs scale, b *panelBox, pp *panelPainter, xticks []tick) {
	for _, t := range b.yticks {
		y := pp.y.at(t.at)
		s.across(b.area.x, b.area.right(), y, 1, s.style.Rule)
		s.middle(point{b.area.x - labelGap, y}, t.label, s.label(), 1)
		pp.rules = append(pp.rules, y)
	}
	if p.X.Zone == nil {
		return
	}
	for _, t := range xticks {
		c := fade(s.style.Rule, 0.6)
		if t.major {
			c = mix(s.style.Rule, s.style.Faint, 0.25)
		}
		s.upright(xs.at(t.at), b.area.y, b.area.bottom(), 1, c)
	}
}

// writeX writes the X axis below an area, leaving out a label that would touch
// the one before it.
func writeX(s *drawList, xs scale, top float64, xticks []tick, title string, area rect) {
	f := s.label()
	line := f.size * leading
	base := top + labelGap + ascent*f.size
	upTo, subUpTo, subbed := -1e9, -1e9, false
	for _, t := range xticks {
		x := xs.at(t.at)
		box := s.bounds(point{x, base}, t.label, f, 0.5)
		if box.x < upTo+6 || box.right() > s.w-1 || box.x < 1 {
			continue
		}
		s.write(point{x, base}, t.label, f, 0.5)
		upTo = box.right()
		if t.sub == "" {
			continue
		}
		at := point{x, base + line}
		sub := s.bounds(at, t.sub, f, 0.5)
		if sub.x < 1 {
			at.x += 1 - sub.x
			sub.x = 1
		}
		if sub.x < subUpTo+10 || sub.right() > s.w-1 {
			continue
		}
		s.write(at, t.sub, f, 0.5)
		subUpTo, subbed = sub.right(), true
	}
	if title == "" {
		return
	}
	at := base + line + 2
	if subbed {
		at += line
	}
	s.write(point{area.x + area.w/2, at}, s.fit(title, f, s.w-2*edge), f, 0.5)
}

// drawHead writes a panel's title, its Y title after it, and its key.
func (p Plot) drawHead(s *drawList, b *panelBox) {
	f := s.title()
	top := b.area.y - b.head
	base := top + ascent*f.size
	x := float64(edge)
	if b.Title != "" {
		words := s.fit(b.Title, f, s.w-2*edge)
		s.write(point{x, base}, words, f, 0)
		x += s.measure(words, f) + 12
	}
	if b.Y.Title != "" {
		s.write(point{x, base}, s.fit(b.Y.Title, s.label(), s.w-edge-x), s.label(), 0)
	}
	if len(b.key) > 0 {
		if b.Title != "" || b.Y.Title != "" {
			base += s.style.size()*leading + 2
		}
		drawKey(s, point{edge, base}, b.key)
	}
}
