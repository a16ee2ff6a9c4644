package jar

// bareMargin is how many rows above the path a cell has to be, to be held for bare of dough.
const bareMargin = 3

// leastBare is how much a cell has to say for glass to be held for bare: where the path is too
// low, dough must not be learnt as glass.
const leastBare = 1

// A bare is what one cell looked like with no dough behind it in pictures near in time, those
// before or those after; from is the nearest of them, -1 with none. It is stale if dough has
// been there since, and may have left something.
type bare struct {
	look  cellLook
	from  int
	stale bool
}

// better reports whether a bare tells more of picture i than another.
func (b bare) better(than bare, i int) bool {
	switch {
	case b.from < 0 || than.from < 0:
		return than.from < 0 && b.from >= 0
	case b.stale != than.stale:
		return than.stale
	}
	return max(b.from-i, i-b.from) < max(than.from-i, i-than.from)
}

// bares follows, for each picture, what cells look like without dough as that changes: a film
// that dough left dries on, a shade moves, glass mists up. It goes by the path that was found,
// forwards and backwards, each time with a mean that forgets (Wren, Azarbayejani, Darrell &
// Pentland 1997, IEEE Trans. Pattern Anal. Mach. Intell. 19:780). Where light is too poor for
// a look to be a measure, nothing is learnt.
func (t *Tracker) bares(strips []lit, fields []field, path []int, lost []Loss) [][]bare {
	const memory, noisy = 6, 2
	n := t.rows * columns
	out := make([][]bare, len(strips))
	for i := range out {
		out[i] = make([]bare, n)
	}
	for _, step := range []int{1, -1} {
		now, seen := make([]bare, n), make([]int, n)
		for x := range now {
			now[x].from = -1
		}
		at := 0
		if step < 0 {
			at = len(strips) - 1
		}
		for i := at; i >= 0 && i < len(strips); i += step {
			for x, b := range now {
				if step > 0 || b.better(out[i][x], i) {
					out[i][x] = b
				}
			}
			if lost[i] != Kept || strips[i].same.luma > noisy*glassSpread.luma {
				continue
			}
			for x := range now {
				row := x / columns
				if row < path[i] {
					now[x].stale = true
				}
				if row < path[i]+bareMargin || fields[i].says[x] < leastBare {
					continue
				}
				if now[x].stale { // what was there before it is no more
					seen[x] = 0
				}
				seen[x] = min(memory, seen[x]+1)
				now[x] = bare{look: mixed(now[x].look, strips[i].cells[x], 1/float32(seen[x])), from: i}
			}
		}
	}
	return out
}
