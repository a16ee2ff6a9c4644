package foam

import "math"

// The window is as wide as this, in degrees, to either side and up and down.
const (
	windowWide = 16.0
	windowHigh = 14.0
)

// A ray is where the surface is looked at along a direction, as steps from a sample.
type ray struct {
	dx, dy []int
	at     []float32 // how far off, mm
	cos    float64
	sin    float64
}

func (g *grid) ray(degrees, reach float64) ray {
	var r ray
	r.sin, r.cos = math.Sincos(degrees * math.Pi / 180)
	for d := 1.5 * g.step; d < reach; d += math.Max(g.step, 0.22*d) {
		r.dx = append(r.dx, int(math.Round(d*r.cos/g.step)))
		r.dy = append(r.dy, int(math.Round(d*r.sin/g.step)))
		r.at = append(r.at, float32(d))
	}
	return r
}

// shine works out how much light falls on each sample: the window's, by what of it can
// be seen from there and how the surface faces it, and that from all round.
func (g *grid) shine() {
	l := g.s.Light
	const around = 6
	var sky, window []ray
	for k := range around {
		sky = append(sky, g.ray(l.Direction+360*float64(k)/around, 5))
	}
	for _, turn := range [3]float64{-windowWide, 0, windowWide} {
		window = append(window, g.ray(l.Direction+turn, 24))
	}
	se, ce := math.Sincos(l.Height * math.Pi / 180)
	rows(g.h, func(y int) {
		for x := range g.w {
			i := y*g.w + x
			nx, ny := float64(g.nx[i]), float64(g.ny[i])
			nz := math.Sqrt(math.Max(0, 1-nx*nx-ny*ny))
			open := 0.0
			for _, r := range sky {
				h := g.horizon(x, y, r)
				open += (1 - h*h) / around
			}
			lit := 0.0
			for _, r := range window {
				facing := nx*r.cos*ce + ny*r.sin*ce + nz*se
				if facing <= 0 {
					continue
				}
				seen := (l.Height + windowHigh - math.Asin(g.horizon(x, y, r))*180/math.Pi) / (2 * windowHigh)
				lit += facing / se * math.Min(1, math.Max(0, seen)) / float64(len(window))
			}
			g.light[i] = float32((1-l.Around)*lit + l.Around*open)
			g.bounce[i] = float32(1 - open)
		}
	})
}

// horizon is the sine of the angle above level under which the surface stands in the
// way along a ray.
func (g *grid) horizon(x, y int, r ray) float64 {
	z := g.z[y*g.w+x]
	var steepest float32
	for k, d := range r.at {
		if -z <= steepest*d { // nothing stands higher than the cut
			break
		}
		px, py := x+r.dx[k], y+r.dy[k]
		if px < 0 || py < 0 || px >= g.w || py >= g.h {
			break
		}
		if rise := g.z[py*g.w+px] - z; rise > steepest*d {
			steepest = rise / d
		}
	}
	t := float64(steepest)
	return t / math.Sqrt(1+t*t)
}
