package charts

// keyEntry names a look where there is no room to name it in place.
type keyEntry struct {
	name string
	look Look
	kind keyKind
}

type keyKind int

const (
	keyPoint keyKind = iota
	keyLine
	keyArea
)

// keyOf lists what must be named away from its place: points and bins always
// when there are several, lines when their ends are crowded.
func (b *panelBox) keyOf() []keyEntry {
	var out []keyEntry
	for _, l := range b.Layers {
		switch l := l.(type) {
		case Series:
			switch {
			case l.Quiet || clean(l.Name) == "":
			case l.Draw == Points:
				out = append(out, keyEntry{l.Name, l.Look, keyPoint})
			case b.crowded && l.Draw == LineAndPoints:
				out = append(out, keyEntry{l.Name, l.Look, keyPoint})
			case b.crowded:
				out = append(out, keyEntry{l.Name, l.Look, keyLine})
			}
		case Bins:
			if clean(l.Name) != "" {
				out = append(out, keyEntry{l.Name, l.Look, keyArea})
			}
		}
	}
	return out
}

// drawKey writes the entries in a row from p, the baseline, as far as there is
// room.
func drawKey(s *sheet, p point, entries []keyEntry) {
	for _, e := range entries {
		f := s.named(e.look)
		width := s.measure(e.name, f)
		if p.x+16+width > s.w-edge {
			return
		}
		c := s.style.colour(e.look.Hue)
		at := point{p.x + 5, p.y - capital*f.size/2}
		switch e.kind {
		case keyPoint:
			marker(s, at, e.look, c, markerSize)
		case keyLine:
			s.line([]point{{p.x, at.y}, {p.x + 11, at.y}}, c, 2, e.look.Dashed)
		case keyArea:
			s.block(rect{p.x, at.y - 5, 10, 10}, fade(c, 0.45))
			s.block(rect{p.x, at.y - 5, 10, 2}, c)
		}
		s.write(point{p.x + 16, p.y}, e.name, f, 0)
		p.x += 16 + width + 18
	}
}
