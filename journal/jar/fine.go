package jar

import (
	"math"
	"slices"
)

// How far from the path the surface is looked for between rows, and the rows below and above
// that show dough and what is above it.
const (
	fineReach = 3
	fineAbove = 8
	fineBelow = 12
)

// A colour is what a cell looks like in parts that mix as light does: how bright it is, how much
// redder and how much bluer than green, each in what is certain of it.
type colour [3]float64

func (k cellLook) mixes() colour {
	green := math.Exp(float64(k.Luma) - 0.299*float64(k.Red) - 0.114*float64(k.Blue))
	red, blue := green*math.Exp(float64(k.Red)), green*math.Exp(float64(k.Blue))
	return colour{(0.299*red + 0.587*green + 0.114*blue) / glassSpread.luma, (red - green) / glassSpread.red, (blue - green) / glassSpread.blue}
}

func (a colour) from(b colour) float64 {
	return math.Sqrt(sq(a[0]-b[0]) + sq(a[1]-b[1]) + sq(a[2]-b[2]))
}

// between finds the surface in each column to a part of a row: as many rows of dough as there
// would have to be between the rows below, which are all dough, and those above, which have none
// (moments are preserved; Tabatabai & Mitchell 1984, IEEE Trans. Pattern Anal. Mach. Intell. 6:188).
// How much of a row is dough is told by how far it is from what is seen there without. says is
// how much of a difference there is; 0 where a column cannot tell.
func (t *Tracker) between(l *lit, bares []bare, dead []mute, at int) (height, says [columns]float64) {
	const leastRows = 4
	const least, most = 2.5, 8.0 // of a contrast, in what is certain of a look
	const filmed = 0.6           // of a row, what is held for a film at the most
	if at-fineBelow < 0 || at+fineAbove >= t.rows {
		return height, says
	}
	for c := range columns {
		usable := func(r int) bool { return dead == nil || dead[r*columns+c] == 0 }
		var below [3][]float64
		for r := at - fineBelow; r < at-fineReach; r++ {
			if usable(r) {
				for k, v := range l.cells[r*columns+c].mixes() {
					below[k] = append(below[k], v)
				}
			}
		}
		whole, fresh := true, true
		for r := at - fineReach; r < at+fineAbove; r++ {
			whole = whole && usable(r)
			if b := bares[r*columns+c]; r >= at && b.from >= 0 && b.stale {
				fresh = false // of some rows it is not known what they have over them: of none, then
			}
		}
		if len(below[0]) < leastRows || !whole {
			continue
		}
		dough := colour{median(below[0]), median(below[1]), median(below[2])}
		contrast := 0.0 // of the rows that are asked for
		part := func(r int) float64 {
			glass := t.glassAt(r, c)
			if b := bares[r*columns+c]; fresh && b.from >= 0 {
				glass = b.look
			}
			g := glass.mixes()
			d := dough.from(g)
			if d == 0 {
				return 0
			}
			contrast += d / dough[0] / glassSpread.luma
			return min(1, l.cells[r*columns+c].mixes().from(g)/d)
		}
		full, rows, sum := 0.0, 0.0, 0.0
		for r := at - fineBelow; r < at-fineReach; r++ {
			if usable(r) {
				full, rows = full+part(r), rows+1
			}
		}
		full /= rows
		contrast = 0
		for r := at - fineReach; r <= at+fineReach; r++ {
			sum += part(r)
		}
		var above []float64
		for r := at + fineReach + 1; r < at+fineAbove; r++ {
			above = append(above, part(r))
		}
		none := median(above)
		contrast /= fineReach + fineAbove
		if contrast < least || none > filmed*full {
			continue
		}
		height[c] = float64(at-fineReach) + (sum-(2*fineReach+1)*none)/(full-none)
		says[c] = sq(min(contrast, most))
	}
	return height, says
}

// finer gives the heights of a path to a part of a row, where the columns agree with it. What a
// column always stands higher or lower than the others, since a dough is domed, is taken off, and
// so is what the first picture shows against the level that was drawn.
func (t *Tracker) finer(strips []lit, bares [][]bare, dead []mute, w *walk) {
	n := len(strips)
	heights, says := make([][columns]float64, n), make([][columns]float64, n)
	for i := range strips {
		if w.lost[i] == Kept {
			heights[i], says[i] = t.between(&strips[i], bares[i], dead, int(math.Round(w.mean[i])))
		}
	}
	var off [columns]float64
	mid := make([]float64, n)
	for range 4 {
		for i := range mid {
			mid[i] = middle(heights[i], says[i], off)
		}
		total, told := 0.0, 0.0
		for c := range off {
			var v []float64
			for i, m := range mid {
				if says[i][c] > 0 && !math.IsNaN(m) {
					v = append(v, heights[i][c]-m)
				}
			}
			off[c] = 0
			if len(v) > 0 {
				off[c] = median(v)
				total, told = total+off[c], told+1
			}
		}
		for c := range off {
			off[c] -= total / max(1, told)
		}
	}
	const most, agree = 1.5, 2.5 // rows
	shift := 0.0
	if !math.IsNaN(mid[0]) {
		shift = max(-most, min(most, mid[0]-t.unit))
	}
	for i, m := range mid {
		if m -= shift; math.Abs(m-w.mean[i]) < agree {
			w.mean[i] = m
		}
	}
}

// middle is the weighed mean of the columns that agree, with what each is off; not a number
// where fewer than two say anything.
func middle(heights, says, off [columns]float64) float64 {
	const apart, least = 0.6, 2
	var v []float64
	for c, s := range says {
		if s > 0 {
			v = append(v, heights[c]-off[c])
		}
	}
	if len(v) < least {
		return math.NaN()
	}
	slices.Sort(v)
	at := (v[(len(v)-1)/2] + v[len(v)/2]) / 2
	for range 5 {
		sum, weight := 0.0, 0.0
		for c, s := range says {
			if s > 0 {
				h := heights[c] - off[c]
				s /= 1 + sq((h-at)/apart)
				sum, weight = sum+s*h, weight+s
			}
		}
		at = sum / weight
	}
	return at
}
