package foam

import (
	"math"
	"math/rand/v2"
)

// A bubble is a sphere; z runs down from the plane of the cut, on which it is nought.
type bubble struct {
	x, y, z, r float64
	disc       float64 // radius on the plane, 0 when it is not met
	cell       int32   // to which its disc belongs, from 1
}

// throw places bubbles at random until the plane is as open as wanted: of a Boolean
// model the share of a plane that lies in none is exp(-volume thrown over volume).
func throw(s Slice, f *form, rng *rand.Rand) []bubble {
	largest := s.MedianMM / 2 * math.Exp(2.5*s.LogSD)
	x0, y0, deep := f.a+largest, f.b*1.1+largest, s.ThickMM
	room := 4 * x0 * y0 * (deep + largest)
	want := -math.Log(1-s.Open) * room
	var out []bubble
	for sum := 0.0; sum < want; {
		r := s.MedianMM / 2 * math.Exp(s.LogSD*rng.NormFloat64())
		if r > largest || r < 0.15 {
			continue
		}
		q := bubble{x: (2*rng.Float64() - 1) * x0, y: (2*rng.Float64() - 1) * y0, z: rng.Float64()*(deep+largest) - largest, r: r}
		sum += 4 * math.Pi / 3 * r * r * r
		// No bubble bursts through the crust.
		if f.depth(q.x, q.y) < f.crust+0.6*r {
			continue
		}
		if math.Abs(q.z) < r {
			q.disc = math.Sqrt(r*r - q.z*q.z)
		}
		out = append(out, q)
	}
	unite(out)
	return out
}

// neckShare is how wide a chord must be, over the smaller disc's diameter, for two discs
// to be one cell.
const neckShare = 0.82

// unite numbers the cells that the discs make up.
func unite(b []bubble) {
	set := make([]int, len(b))
	for i := range set {
		set[i] = i
	}
	var find func(i int) int
	find = func(i int) int {
		if set[i] != i {
			set[i] = find(set[i])
		}
		return set[i]
	}
	const bin = 4.0
	near := map[[2]int][]int{}
	for i, p := range b {
		if p.disc == 0 {
			continue
		}
		reach := int(math.Ceil(2 * p.disc / bin))
		at := [2]int{int(math.Floor(p.x / bin)), int(math.Floor(p.y / bin))}
		for dy := -reach - 1; dy <= reach+1; dy++ {
			for dx := -reach - 1; dx <= reach+1; dx++ {
				for _, j := range near[[2]int{at[0] + dx, at[1] + dy}] {
					if oneCell(p, b[j]) {
						set[find(i)] = find(j)
					}
				}
			}
		}
		near[at] = append(near[at], i)
	}
	number := map[int]int32{}
	for i := range b {
		if b[i].disc == 0 {
			continue
		}
		root := find(i)
		if number[root] == 0 {
			number[root] = int32(len(number) + 1)
		}
		b[i].cell = number[root]
	}
}

// oneCell tells whether two discs make one cell: the neck between them is no neck.
func oneCell(p, q bubble) bool {
	if p.disc < q.disc {
		p, q = q, p
	}
	d := math.Hypot(p.x-q.x, p.y-q.y)
	if d >= p.disc+q.disc {
		return false
	}
	// a is how far the chord lies from the middle of the larger disc.
	a := (d*d + p.disc*p.disc - q.disc*q.disc) / (2 * math.Max(d, 1e-9))
	if a >= d {
		return true // the smaller one's middle lies in the larger one's part
	}
	return math.Sqrt(math.Max(0, p.disc*p.disc-a*a)) >= neckShare*q.disc
}
