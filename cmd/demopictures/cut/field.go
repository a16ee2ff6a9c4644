package cut

import (
	"math"
	"math/rand/v2"
)

// A field is a number at every place of the face, at so many to the millimetre.
type field struct {
	w, h int
	v    []float32
}

func newField(w, h int) *field { return &field{w, h, make([]float32, w*h)} }

// at reads between the places, the nearest one outside.
func (f *field) at(x, y float64) float32 {
	x, y = max(0, min(float64(f.w)-1.001, x)), max(0, min(float64(f.h)-1.001, y))
	i, j := int(x), int(y)
	u, v := float32(x-float64(i)), float32(y-float64(j))
	a, b := f.v[j*f.w+i:], f.v[min(j+1, f.h-1)*f.w+i:]
	i1 := 1
	if i+1 >= f.w {
		i1 = 0
	}
	return (a[0]*(1-u)+a[i1]*u)*(1-v) + (b[0]*(1-u)+b[i1]*u)*v
}

// blurred is the field as seen through a box of a radius three times over, nearly a bell.
func (f *field) blurred(radius int) *field {
	a, b := newField(f.w, f.h), newField(f.w, f.h)
	copy(a.v, f.v)
	for range 3 {
		boxRows(a.v, b.v, f.w, f.h, 1, f.w, radius)
		boxRows(b.v, a.v, f.h, f.w, f.w, 1, radius)
	}
	return a
}

// boxRows averages along lines of n places, step apart, of which there are so many.
func boxRows(from, to []float32, n, lines, step, next, radius int) {
	for l := range lines {
		base := l * next
		sum := float32(0)
		at := func(i int) float32 { return from[base+max(0, min(n-1, i))*step] }
		for i := -radius; i <= radius; i++ {
			sum += at(i)
		}
		k := 1 / float32(2*radius+1)
		for i := range n {
			to[base+i*step] = sum * k
			sum += at(i+radius+1) - at(i-radius)
		}
	}
}

// A noise is smooth chance over the face.
type noise struct {
	at   []float32
	side int
}

func newNoise(rng *rand.Rand) *noise {
	n := &noise{side: 256}
	n.at = make([]float32, n.side*n.side)
	for i := range n.at {
		n.at[i] = rng.Float32()
	}
	return n
}

// one is noise between -1 and 1 with lumps of size 1.
func (n *noise) one(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	u, v := x-fx, y-fy
	u, v = u*u*u*(u*(u*6-15)+10), v*v*v*(v*(v*6-15)+10)
	m := n.side - 1
	i, j := int(fx)&m, int(fy)&m
	k, l := (i+1)&m, (j+1)&m
	a := float64(n.at[j*n.side+i])*(1-u) + float64(n.at[j*n.side+k])*u
	b := float64(n.at[l*n.side+i])*(1-u) + float64(n.at[l*n.side+k])*u
	return 2*(a*(1-v)+b*v) - 1
}

// many adds octaves, each half as large and half as strong.
func (n *noise) many(x, y float64, octaves int) float64 {
	sum, k, all := 0.0, 1.0, 0.0
	for range octaves {
		sum += k * n.one(x, y)
		all += k
		x, y, k = 2*x+17.3, 2*y+5.1, k/2
	}
	return sum / all * 1.6
}

// distances gives for every place inside how far it is from the nearest place outside,
// in places, and the index of that (Felzenszwalb and Huttenlocher 2012, Theory of
// Computing 8:415).
func distances(in []bool, w, h int) (d *field, nearest []int32) {
	const far = 1e12
	g := make([]float64, w*h)
	from := make([]int32, w*h)
	line := func(n int, cost func(int) float64, put func(q, p int, d float64)) {
		v, z := make([]int, n), make([]float64, n+1)
		k := 0
		z[0], z[1] = -far, far
		for q := 1; q < n; q++ {
			var s float64
			for {
				p := v[k]
				s = (cost(q) + float64(q*q) - cost(p) - float64(p*p)) / float64(2*q-2*p)
				if s > z[k] || k == 0 {
					break
				}
				k--
			}
			if s <= z[k] {
				s = z[k]
			}
			k++
			v[k], z[k], z[k+1] = q, s, far
		}
		k = 0
		for q := range n {
			for z[k+1] < float64(q) {
				k++
			}
			p := v[k]
			put(q, p, float64((q-p)*(q-p))+cost(p))
		}
	}
	for x := range w {
		col := make([]float64, h)
		for y := range h {
			if in[y*w+x] {
				col[y] = 1e9
			}
		}
		line(h, func(y int) float64 { return col[y] }, func(q, p int, d float64) {
			g[q*w+x], from[q*w+x] = d, int32(p*w+x)
		})
	}
	d, nearest = newField(w, h), make([]int32, w*h)
	for y := range h {
		row := append([]float64(nil), g[y*w:(y+1)*w]...)
		line(w, func(x int) float64 { return row[x] }, func(q, p int, dd float64) {
			d.v[y*w+q] = float32(math.Sqrt(dd))
			nearest[y*w+q] = from[y*w+p]
		})
	}
	return d, nearest
}

// places is how many places of the relief a length has.
func places(mm float64) int { return int(mm*perMM + 0.5) }
