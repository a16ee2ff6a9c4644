package journal

import "hash/fnv"

// A Mark is how a culture is told apart by eye, wherever it is shown: its places among
// the colours and the shapes of data, each from 0.
type Mark struct{ Colour, Shape int }

// MarkColours and MarkShapes are how many of each there are.
const (
	MarkColours = 6
	MarkShapes  = 6
)

// markAt gives the ith of all marks: each colour first comes with a shape of its own, and
// each further round of colours begins one shape further on, so that none comes twice.
func markAt(i int) Mark {
	return Mark{Colour: i % MarkColours, Shape: (i + i/MarkColours) % MarkShapes}
}

// Mark is the culture's own. One that was never given any has one that follows from its
// ID, so that it stays the same.
func (c *Culture) Mark() Mark {
	var m Mark
	if c.Colour > 0 {
		m = markAt((c.Colour - 1) % MarkColours)
	} else {
		sum := fnv.New32a()
		sum.Write([]byte(c.ID)) // never fails
		m = markAt(int(sum.Sum32() % (MarkColours * MarkShapes)))
	}
	if c.Shape > 0 {
		m.Shape = (c.Shape - 1) % MarkShapes
	}
	return m
}

// SetMark gives the culture a mark.
func (c *Culture) SetMark(m Mark) { c.Colour, c.Shape = m.Colour+1, m.Shape+1 }

// FreeMark is the first mark whose colour and shape no culture has; when there is none,
// the first that is not taken as a whole, and when all are, they begin again.
func FreeMark(all []*Culture) Mark {
	var colours [MarkColours]bool
	var shapes [MarkShapes]bool
	taken := map[Mark]bool{}
	for _, c := range all {
		m := c.Mark()
		colours[m.Colour], shapes[m.Shape], taken[m] = true, true, true
	}
	free := -1
	for i := range MarkColours * MarkShapes {
		m := markAt(i)
		if !colours[m.Colour] && !shapes[m.Shape] {
			return m
		}
		if free < 0 && !taken[m] {
			free = i
		}
	}
	if free < 0 {
		free = len(all) % (MarkColours * MarkShapes)
	}
	return markAt(free)
}
