package journal

import "testing"

func TestMarksAreAllDifferent(t *testing.T) {
	seen := map[Mark]bool{}
	var all []*Culture
	for range MarkColours * MarkShapes {
		m := FreeMark(all)
		if seen[m] {
			t.Fatalf("mark %v was given twice, before all %d were used", m, MarkColours*MarkShapes)
		}
		seen[m] = true
		c := &Culture{}
		c.SetMark(m)
		if c.Mark() != m {
			t.Fatalf("set %v, got %v", m, c.Mark())
		}
		all = append(all, c)
	}
	for i := range MarkColours {
		for k := range i {
			if a, b := all[i].Mark(), all[k].Mark(); a.Colour == b.Colour || a.Shape == b.Shape {
				t.Errorf("cultures %d and %d, of the first six, share a colour or a shape: %v, %v", k, i, b, a)
			}
		}
	}
	if m := FreeMark(all); !seen[m] {
		t.Errorf("beyond the last mark came %v, which is none", m)
	}
}

func TestOldCulturesKeepTheMarkThatFollowsFromTheirID(t *testing.T) {
	for _, id := range []ID{"01HZX0000000000000000000A1", "01HZX0000000000000000000B2", ""} {
		a, b := &Culture{Head: Head{ID: id}}, &Culture{Head: Head{ID: id}, Name: "renamed"}
		if a.Mark() != b.Mark() {
			t.Errorf("%s: %v, then %v", id, a.Mark(), b.Mark())
		}
	}
	// A colour without a shape, as before shapes were kept, has the shape of that colour.
	for colour := 1; colour <= MarkColours; colour++ {
		if m := (&Culture{Colour: colour}).Mark(); m != (Mark{colour - 1, colour - 1}) {
			t.Errorf("colour %d alone: %v", colour, m)
		}
	}
	if m := (&Culture{Colour: 7, Shape: 13}).Mark(); m != (Mark{0, 0}) {
		t.Errorf("places past the last begin again: %v", m)
	}
}
