package jar

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"twinloaf/journal/say"
)

// MethodVersion is the version of how a curve is made: raise it when the numbers change.
const MethodVersion = 5

// Loss says why a picture has no height.
type Loss string

// What makes a picture say nothing.
const (
	Kept    Loss = ""
	Dark    Loss = "dark"    // too little light
	Covered Loss = "covered" // like neither dough nor what was seen first: a hand, a lid, another thing
	Moved   Loss = "moved"   // the camera, or too much else, so that the jar was not found
	Unsure  Loss = "unsure"  // several heights would do
)

// A Point is the height in one picture.
type Point struct {
	At time.Time
	// Rise is the height over that at the level: 1 when fed. It is 0 where Lost says
	// why there is none.
	Rise float64
	// SD is its standard deviation, in the same unit.
	SD    float64
	Lost  Loss
	Fixed bool // drawn by hand
}

// A Curve is the height in each picture of a series, in its order.
type Curve struct {
	Points []Point
	Moves  []Move
}

// ErrSeries is wrapped by what is wrong with a series.
var ErrSeries = say.NewError("these pictures are not of one row")

// How fast a dough rises and falls at the most, in its first height an hour, and how
// fast it usually does: common practice, no source.
const (
	fastestRise, usualRise = 3.0, 0.8
	fastestFall, usualFall = 15.0, 2.0
)

// Trace finds the surface in all strips. at are the times of their pictures, growing;
// fixed are heights that were drawn by hand, as rises, by picture. It is cancelled
// by its context.
func (t *Tracker) Trace(ctx context.Context, at []time.Time, strips []Strip, fixed map[int]float64) (Curve, error) {
	if len(at) != len(strips) || len(at) == 0 {
		return Curve{}, fmt.Errorf("%w: %d times of %d pictures", ErrSeries, len(at), len(strips))
	}
	for i := 1; i < len(at); i++ {
		if !at[i].After(at[i-1]) {
			return Curve{}, fmt.Errorf("%w: picture %d is not later than the one before", ErrSeries, i+1)
		}
	}
	for i := range strips {
		if strips[i].rows != t.rows {
			return Curve{}, fmt.Errorf("%w: picture %d was read for another jar", ErrSeries, i+1)
		}
	}
	var dead []mute
	var w *walk
	even, bares := make([]lit, len(strips)), make([][]bare, len(strips))
	for i := range strips {
		if err := ctx.Err(); err != nil {
			return Curve{}, err
		}
		even[i] = t.evened(&strips[i])
	}
	const passes = 2
	for pass := range passes {
		fields := make([]field, len(strips))
		for i := range strips {
			if err := ctx.Err(); err != nil {
				return Curve{}, err
			}
			wetted := t.rows
			if w != nil {
				wetted = w.wetted(i)
			}
			fields[i] = t.fieldOf(&even[i], dead, wetted, bares[i])
		}
		w = &walk{t: t, at: at, fields: fields, lost: t.losses(fields, strips), fixed: fixed}
		if err := w.run(ctx); err != nil {
			return Curve{}, err
		}
		if pass == 0 {
			dead = t.deadCells(fields, w.path, w.lost)
		}
		bares = t.bares(even, fields, w.path, w.lost)
	}
	t.finer(even, bares, dead, w)
	if err := t.carried(ctx, even, dead, w); err != nil {
		return Curve{}, err
	}
	c := Curve{Points: make([]Point, len(at)), Moves: make([]Move, len(at))}
	for i := range at {
		c.Moves[i] = strips[i].Move
		p := Point{At: at[i], Rise: t.riseOf(w.mean[i]), SD: t.riseOf(w.sd[i]), Lost: w.lost[i]}
		if p.Lost == Kept && p.SD > 0.06 {
			p.Lost = Unsure
		}
		if rise, ok := fixed[i]; ok {
			p = Point{At: at[i], Rise: rise, SD: t.riseOf(0.5), Fixed: true}
		}
		if p.Lost != Kept {
			p.Rise = 0
		}
		c.Points[i] = p
	}
	return c, nil
}

// losses says which pictures say nothing: too dark, the camera lost, or unlike both
// dough and the first picture by far more than their neighbours are.
func (t *Tracker) losses(fields []field, strips []Strip) []Loss {
	const darkest = 9 // of 255
	const around, unlike = 8, 1.4
	lost := make([]Loss, len(fields))
	usual := func(i int) float64 { // the middle of the misfits of neighbours
		var fits []float64
		for _, f := range fields[max(0, i-around):min(len(fields), i+around+1)] {
			if f.light >= darkest {
				fits = append(fits, f.misfit)
			}
		}
		return median(fits)
	}
	for i, f := range fields {
		switch {
		case f.light < darkest:
			lost[i] = Dark
		case f.misfit > usual(i)+unlike:
			lost[i] = Covered
		case strips[i].Move.Sure < sureEnough:
			lost[i] = Moved
		}
	}
	return lost
}

// deadCells are those that say glass wherever the path has dough on them, as a label
// does, or dough where it never was.
// A label goes on above what the path has reached of it: cells some rows above a dead one in
// its column are not held for glass either.
func (t *Tracker) deadCells(fields []field, path []int, lost []Loss) []mute {
	n, against := make([]int, t.rows*columns), make([]int, t.rows*columns)
	for i, f := range fields {
		if lost[i] != Kept {
			continue
		}
		for r := 0; r < path[i]-2; r++ {
			for c := range columns {
				n[r*columns+c]++
				if f.says[r*columns+c] > 0 {
					against[r*columns+c]++
				}
			}
		}
	}
	dead := make([]mute, len(n))
	above := max(2, t.rows/24)
	for i := range dead {
		if n[i] < 5 || 10*against[i] <= 7*n[i] {
			continue
		}
		dead[i] = silent
		for k := 1; k <= above && i+k*columns < len(dead); k++ {
			dead[i+k*columns] = max(dead[i+k*columns], neverGlass)
		}
	}
	return dead
}

// A walk is the search for the path.
type walk struct {
	t      *Tracker
	at     []time.Time
	fields []field
	lost   []Loss
	fixed  map[int]float64
	path   []int
	mean   []float64
	sd     []float64
}

// wetted is the highest row that the path was at up to a picture, and the one above it,
// which the surface may cross.
func (w *walk) wetted(i int) int {
	most := w.t.level
	for k, row := range w.path[:i+1] {
		if w.lost[k] == Kept {
			most = max(most, row)
		}
	}
	return most + 1
}

// astray is how likely a picture shows something else than it seems to, such as an arm that is
// like dough: no picture by itself says more against a height than that (a mixture with what is
// never seen; Box & Tiao 1968, Biometrika 55:119).
const astray = 0.0025

// emission is what picture i says of each height; nothing where it is lost.
func (w *walk) emission(i int) []float64 {
	out := make([]float64, w.t.rows+1)
	rise, drawn := w.fixed[i]
	switch {
	case drawn || i == 0:
		if !drawn {
			rise = 1 // the level is drawn on the first picture
		}
		row := w.t.rowOf(rise)
		for h := range out {
			out[h] = 2 * sq(float64(h)-row)
		}
	case w.lost[i] == Kept:
		for h, cost := range w.fields[i].at {
			out[h] = -math.Log((1-astray)*math.Exp(-cost) + astray)
		}
	}
	return out
}

// steps are the costs of the height changing by k rows between two pictures: steps[k]
// is that of k-down.
func (w *walk) steps(i int) (costs []float64, down int) {
	hours := w.at[i].Sub(w.at[i-1]).Hours()
	level := float64(w.t.level)
	up := min(w.t.rows, 3+int(fastestRise*hours*level))
	down = min(w.t.rows, 3+int(fastestFall*hours*level))
	costs = make([]float64, up+down+1)
	for k := range costs {
		d := float64(k - down)
		if d >= 0 {
			costs[k] = d / (usualRise*hours*level + 1)
		} else {
			costs[k] = -d / (usualFall*hours*level + 1)
		}
	}
	return costs, down
}

// run finds the path of least cost and, by the forward-backward recursion, the mean
// and the standard deviation of each height near it.
func (w *walk) run(ctx context.Context) error {
	n, states := len(w.fields), w.t.rows+1
	emissions := make([][]float64, n)
	for i := range emissions {
		emissions[i] = w.emission(i)
	}
	best := slices.Clone(emissions[0])
	from := make([][]int16, n)
	forward := make([][]float64, n)
	forward[0] = likely(emissions[0])
	normalise(forward[0])
	for i := 1; i < n; i++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		costs, down := w.steps(i)
		chances := likely(costs)
		next, back, f := make([]float64, states), make([]int16, states), make([]float64, states)
		for h := range next {
			next[h] = math.Inf(1)
			// The one before was between h-up and h+down.
			for k, c := range costs {
				b := h - (k - down)
				if b < 0 || b >= states {
					continue
				}
				if v := best[b] + c; v < next[h] {
					next[h], back[h] = v, int16(b)
				}
				f[h] += forward[i-1][b] * chances[k]
			}
			next[h] += emissions[i][h]
			f[h] *= math.Exp(-emissions[i][h])
		}
		normalise(f)
		best, from[i], forward[i] = next, back, f
	}
	w.path = make([]int, n)
	for h := range best {
		if best[h] < best[w.path[n-1]] {
			w.path[n-1] = h
		}
	}
	for i := n - 1; i > 0; i-- {
		w.path[i-1] = int(from[i][w.path[i]])
	}
	return w.backward(ctx, emissions, forward)
}

// backward finishes the recursion.
func (w *walk) backward(ctx context.Context, emissions, forward [][]float64) error {
	n, states := len(forward), w.t.rows+1
	w.mean, w.sd = make([]float64, n), make([]float64, n)
	behind := make([]float64, states)
	for h := range behind {
		behind[h] = 1
	}
	for i := n - 1; i >= 0; i-- {
		if err := ctx.Err(); err != nil {
			return err
		}
		w.mean[i], w.sd[i] = moments(forward[i], behind, w.path[i])
		if i == 0 {
			break
		}
		costs, down := w.steps(i)
		chances := likely(costs)
		before := make([]float64, states)
		for h := range states {
			v := behind[h] * math.Exp(-emissions[i][h])
			if v == 0 {
				continue
			}
			for k, c := range chances {
				if b := h - (k - down); b >= 0 && b < states {
					before[b] += v * c
				}
			}
		}
		normalise(before)
		behind = before
	}
	return nil
}

// moments gives the mean near the path and the standard deviation about it; of all, where it
// is not clear that the surface is there at all: at the end of a row, and after a gap, there is
// always a little that it has fallen far and the picture went astray.
func moments(forward, behind []float64, path int) (mean, sd float64) {
	const near, about, doubt = 4, 10, 0.2
	var sum, at, all, square, here, squareHere float64
	for h := range forward {
		p, off := forward[h]*behind[h], sq(float64(h-path))
		all += p
		square += p * off
		if off <= about*about {
			here += p
			squareHere += p * off
		}
		if off <= near*near {
			sum += p
			at += p * float64(h)
		}
	}
	if sum == 0 || all == 0 {
		return float64(path), float64(len(forward))
	}
	if all-here < doubt*all {
		all, square = here, squareHere
	}
	// A row is the finest that is told, so a third of one is always open.
	return at / sum, math.Sqrt(square/all + 1.0/9)
}

func likely(costs []float64) []float64 {
	out := make([]float64, len(costs))
	for i, c := range costs {
		out[i] = math.Exp(-c)
	}
	return out
}

func normalise(v []float64) {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	if sum == 0 {
		for i := range v {
			v[i] = 1 / float64(len(v))
		}
		return
	}
	for i := range v {
		v[i] /= sum
	}
}
