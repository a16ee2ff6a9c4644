package phantom

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// hash64 mixes a seed with a number (the finaliser of SplitMix64, Steele, Lea
// & Flood 2014). Randomness by place rather than by turn keeps the picture the
// same however many goroutines paint it.
func hash64(seed, n uint64) uint64 {
	z := seed + n*0x9e3779b97f4a7c15 + 0x9e3779b97f4a7c15
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// gauss returns a number of mean 0 and standard deviation 1 that belongs to n:
// the sum of four uniform numbers, near enough to normal for sensor noise.
func gauss(seed, n uint64) float32 {
	h := hash64(seed, n)
	sum := float32(h&0xffff) + float32(h>>16&0xffff) + float32(h>>32&0xffff) + float32(h>>48)
	return (sum/65536 - 2) * 1.7320508
}

// valueNoise is smooth noise between 0 and 1 with features one unit across.
func valueNoise(seed uint64, x, y float64) float32 {
	n := grain{seed: seed}
	return n.at(x, y)
}

// A grain is valueNoise for places beside each other: it remembers the noise at the
// four corners round the last place.
type grain struct {
	seed   uint64
	known  bool
	ix, iy int
	corner [4]float32
}

func (g *grain) at(x, y float64) float32 {
	ix, iy := floor(x), floor(y)
	if !g.known || ix != g.ix || iy != g.iy {
		g.ix, g.iy, g.known = ix, iy, true
		for k := range g.corner {
			i, j := uint64(ix+k&1)&0xffffff, uint64(iy+k>>1)&0xffffff
			g.corner[k] = float32(hash64(g.seed, i|j<<24)>>40) / (1 << 24)
		}
	}
	u, v := float32(x-float64(ix)), float32(y-float64(iy))
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	c := &g.corner
	top := c[0] + (c[1]-c[0])*u
	low := c[2] + (c[3]-c[2])*u
	return top + (low-top)*v
}

func floor(x float64) int {
	i := int(x)
	if x < float64(i) {
		i--
	}
	return i
}

// rows runs do for each row, shared among the processors.
func rows(n int, do func(y int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			for {
				y := int(next.Add(1)) - 1
				if y >= n {
					return
				}
				do(y)
			}
		})
	}
	wg.Wait()
}
