package charts

// Distances of the layout, in layout units.
const (
	edge      = 8  // around the picture
	panelGap  = 16 // between panels
	titleGap  = 14 // below a panel's title
	labelGap  = 8  // between an axis and its labels
	stripSize = 11 // the strip of event ticks below a panel
)

// Edge is the room that a picture leaves around what it shows, in layout units.
const Edge = edge

// panelBox is a panel with its measures.
type panelBox struct {
	Panel
	index  int
	area   rect // where data are drawn
	head   float64
	strip  float64
	axis   bool // the X axis is written below it
	lo, hi float64
	yticks []tick

	key     []keyEntry
	crowded bool // lines are named in the key, not at their ends
}

// measure finds the ranges. It reports false when no layer has anything in it.
func (p Plot) measure(s *drawList) (span, []panelBox, bool) {
	var x span
	any, scatter := false, false
	if len(p.Panels) == 0 {
		return x, nil, false
	}
	boxes := make([]panelBox, len(p.Panels))
	last := len(p.Panels) - 1
	for i, panel := range p.Panels {
		if panel.XHere {
			last = i
		}
		var y, here span
		for _, l := range panel.Layers {
			l.reach(&here, &y)
			if sr, ok := l.(Series); ok && sr.Draw == Points {
				scatter = true
			}
			if _, ok := l.(Events); ok {
				boxes[i].strip = stripSize
			}
		}
		any = any || here.any
		if here.any {
			x.add(here.lo, here.hi)
		}
		b := &boxes[i]
		b.Panel, b.index = panel, i
		b.lo, b.hi = y.lo, y.hi
		if y.any || len(panel.Y.Include) > 0 || panel.Y.Max > panel.Y.Min {
			b.lo, b.hi = panel.Y.widened(y, 5)
		} else {
			b.lo, b.hi = 0, 1
		}
		b.key = b.keyOf()
		if panel.Title != "" || panel.Y.Title != "" {
			b.head = s.title().size + titleGap
		}
	}
	boxes[last].axis = true
	if scatter && p.X.Zone == nil {
		x.lo, x.hi = p.X.widened(x, 8)
	} else {
		x.lo, x.hi = p.X.extent(x)
	}
	return x, boxes, any
}

// arrange gives every panel its area. It reports false when there is no room.
func (p Plot) arrange(s *drawList, x span, boxes []panelBox) (left, right float64, ok bool) {
	line := s.style.size() * leading
	fixed, shares := 2.0*edge, 0.0
	for i := range boxes {
		b := &boxes[i]
		if len(b.key) > 0 {
			b.head = titleGap + line*float64(len(keyRows(s, b.key, s.w-2*edge)))
			if b.Title != "" || b.Y.Title != "" {
				b.head += s.title().size + 2
			}
		}
		fixed += b.head + b.strip
		if b.axis {
			fixed += p.axisHeight(s)
		}
		if i > 0 {
			fixed += panelGap
		}
		shares += b.share()
	}
	room := s.h - fixed
	if room < 12*float64(len(boxes)) {
		return 0, 0, false
	}
	for i := range boxes {
		b := &boxes[i]
		h := room * b.share() / shares
		b.tickY(h, s.style)
		for _, t := range b.yticks {
			left = max(left, s.measure(t.label, s.label()))
		}
	}
	left += edge + labelGap
	right = s.w - p.gutter(s, x, boxes, left)
	if right-left < 24 {
		return 0, 0, false
	}
	top := float64(edge)
	for i := range boxes {
		b := &boxes[i]
		if i > 0 {
			top += panelGap
		}
		h := room * b.share() / shares
		b.area = rect{left, top + b.head, right - left, h}
		top += b.head + h + b.strip
		if b.axis {
			top += p.axisHeight(s)
		}
	}
	return left, right, true
}

func (b *panelBox) share() float64 {
	if b.Height > 0 {
		return max(b.Height, 0.01)
	}
	return 1
}

// tickY chooses the Y ticks for a height: a strip gets two, round ones where there are any.
func (b *panelBox) tickY(height float64, style Style) {
	size := style.size()
	want := int(max(1, min(6, height/(size*3.2))))
	b.yticks = b.Y.ticks(b.lo, b.hi, want, style.Words)
	two := height > size*1.6 && b.Y.Zone == nil && b.Y.Names == nil
	for ; two && len(b.yticks) < 2 && want < 4; want++ {
		finer := b.Y.ticks(b.lo, b.hi, want+1, style.Words)
		if n := len(finer); n > 1 && (finer[1].at-finer[0].at)/(b.hi-b.lo)*height > size*1.6 {
			b.yticks = []tick{finer[0], finer[n-1]}
		}
	}
	if two && len(b.yticks) < 2 {
		format := b.Y.format(style.Words.Plain)
		b.yticks = []tick{{at: b.lo, label: format(b.lo)}, {at: b.hi, label: format(b.hi)}}
	}
	if n := len(b.yticks); n > 0 && b.Y.Unit != "" {
		b.yticks[n-1].label = withUnit(b.yticks[n-1].label, b.Y.Unit)
	}
}

// gutter is the room to the right of the panels: enough for the last tick's
// label and for the names written at the ends of lines.
func (p Plot) gutter(s *drawList, x span, boxes []panelBox, left float64) float64 {
	out := 24.0
	width := s.w - left - out
	for _, b := range boxes {
		if b.crowded {
			continue
		}
		for _, l := range b.Layers {
			sr, ok := l.(Series)
			if !ok || sr.Quiet || sr.Draw == Points || clean(sr.Name) == "" {
				continue
			}
			i := sr.lastPoint()
			if i < 0 {
				continue
			}
			share := (sr.X[i] - x.lo) / (x.hi - x.lo)
			past := (1 - min(max(share, 0), 1)) * width
			out = max(out, s.measure(sr.Name, s.named(sr.Look))+10+edge-past)
		}
	}
	return min(out, s.w*0.3)
}

func (p Plot) axisHeight(s *drawList) float64 {
	line := s.style.size() * leading
	h := labelGap + line
	if p.X.Zone != nil {
		h += line
	}
	if p.X.Title != "" {
		h += line + 2
	}
	return h
}
