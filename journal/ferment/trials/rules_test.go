package trials

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"twinloaf/journal/ferment"
)

// The simple rules that a forecast has to beat. Each is given the hour of the top
// of every past feeding: told gives the true one, read what the diary shows of
// it, which is the hour of the highest reading.

// read is the hour of the top as the diary shows it; false if it does not.
func (f Feeding) read() (float64, bool) {
	best, at := ferment.Rise(0), 0.0
	for _, r := range f.Course.Readings {
		h := r.At.Sub(f.Course.Feeding.At).Hours()
		if r.Trend == ferment.TrendTop {
			return h, true
		}
		if r.Rise > best {
			best, at = r.Rise, h
		}
	}
	return at, best > 0
}

// lastFive is the mean of the last five tops, in hours after the feeding.
func lastFive(tops []float64) float64 {
	n := min(5, len(tops))
	sum := 0.0
	for _, t := range tops[len(tops)-n:] {
		sum += t
	}
	return sum / float64(n)
}

// pace is the speed at a temperature against that at 25 °C, by the published curve
// that a handbook reader would take.
func pace(t float64) float64 {
	return ferment.SteepYeast().Relative(ferment.Celsius(t)) / ferment.SteepYeast().Relative(25)
}

// warm adds up the pace over the hours of a temperature.
func warm(temp func(float64) float64, h float64) float64 {
	sum, dt := 0.0, 0.05
	for x := 0.0; x < h; x += dt {
		sum += math.Min(dt, h-x) * pace(temp(x+dt/2))
	}
	return sum
}

// thermalRule is a line of thermal time against the logarithm of the dilution, by
// least squares over the past feedings.
func thermalRule(past []Feeding, tops []float64, temps []func(float64) float64) (a, b float64) {
	n := len(past)
	x, y := mat.NewDense(n, 2, nil), mat.NewVecDense(n, nil)
	first, alike := past[0].Dilution, true
	for i, f := range past {
		x.SetRow(i, []float64{1, math.Log(f.Dilution)})
		y.SetVec(i, warm(temps[i], tops[i]))
		alike = alike && f.Dilution == first
	}
	if alike {
		return mat.Sum(y) / float64(n), 0
	}
	var beta mat.VecDense
	if beta.SolveVec(x, y) != nil {
		return mat.Sum(y) / float64(n), 0
	}
	return beta.AtVec(0), beta.AtVec(1)
}

// when is the hour at which a thermal time is up.
func when(temp func(float64) float64, thermal float64) float64 {
	h, dt := 0.0, 0.05
	for thermal > 0 && h < 48 {
		p := pace(temp(h + dt/2))
		if thermal < p*dt {
			return h + thermal/p
		}
		thermal -= p * dt
		h += dt
	}
	return h
}

// held is the temperature as the rule takes it at an hour: what the case knows up to
// then, and from there on as it was last.
func (c Case) held(f Feeding, until float64) func(float64) float64 {
	type point struct{ h, t float64 }
	points := []point{{0, 22}} // where nothing was noted, as a handbook would have it
	if f.Course.Feeding.Room.Known {
		points[0].t = float64(f.Course.Feeding.Room.C)
	}
	switch c.Knows {
	case Readings:
		for _, r := range f.Course.Readings {
			if h := r.At.Sub(f.Course.Feeding.At).Hours(); r.Temp.Known && h <= until {
				points = append(points, point{h, float64(r.Temp.C)})
			}
		}
	case Log:
		return func(h float64) float64 { return f.temp(math.Min(h, until)) }
	}
	return func(h float64) float64 {
		for i := len(points) - 1; i >= 0; i-- {
			if h < points[i].h {
				continue
			}
			if i == len(points)-1 {
				return points[i].t
			}
			a, b := points[i], points[i+1]
			return a.t + (b.t-a.t)*(h-a.h)/math.Max(b.h-a.h, 1e-9)
		}
		return points[0].t
	}
}
