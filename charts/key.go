package charts

// keyEntry names a look where there is no room to name it in place.
type keyEntry struct {
	name string
	look SeriesStyle
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

// keySwatch is the room an entry's mark takes before its name.
const keySwatch = 16

// keyRows breaks the entries into rows no wider than room.
func keyRows(s *drawList, entries []keyEntry, room float64) [][]keyEntry {
	var rows [][]keyEntry
	x := room
	for _, e := range entries {
		width := keySwatch + s.measure(e.name, s.named(e.look)) + 18
		if x+width-18 > room || len(rows) == 0 {
			rows, x = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], e)
		x += width
	}
	return rows
}

// drawKey writes the entries in rows from p, the first baseline.
func drawKey(s *drawList, p point, entries []keyEntry) {
	room := s.w - edge - p.x
	for _, row := range keyRows(s, entries, room) {
		x := p.x
		for _, e := range row {
			f := s.named(e.look)
			words := s.fit(e.name, f, room-keySwatch)
			keyMark(s, point{x, p.y - capital*f.size/2}, e)
			s.write(point{x + keySwatch, p.y}, words, f, 0)
			x += keySwatch + s.measure(words, f) + 18
		}
		p.y += s.style.size() * leading
	}
}

func keyMark(s *drawList, at point, e keyEntry) {
	c := s.style.colour(e.look.Hue)
	switch e.kind {
	case keyPoint:
		marker(s, point{at.x + 5, at.y}, e.look, c, markerSize)
	case keyLine:
		s.line([]point{at, {at.x + 11, at.y}}, c, 2, e.look.Dashed)
	case keyArea:
		s.block(rect{at.x, at.y - 5, 10, 10}, fade(c, 0.45))
		s.block(rect{at.x, at.y - 5, 10, 2}, c)
	}
}
