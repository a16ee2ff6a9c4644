package jar

import (
	"math"
	"time"
)

// A Reading is what a curve says of a short while, as if someone had looked once.
type Reading struct {
	At   time.Time
	Rise float64
	SD   float64 // its standard deviation
}

// Readings takes the points of a curve together, so many minutes of them at a time, since
// neighbours err alike: what makes one picture read too high does so in the next. Each is
// their mean, weighed by how sure they are, and no surer than the surest of them. A height
// drawn by hand stands for its while alone.
func (c Curve) Readings(every time.Duration) []Reading {
	var out []Reading
	for i := 0; i < len(c.Points); {
		var sum, weight, seconds float64
		sd, drawn := math.Inf(1), false
		from := c.Points[i].At
		for ; i < len(c.Points) && c.Points[i].At.Sub(from) < every; i++ {
			p := c.Points[i]
			if p.Lost != Kept || !(p.SD > 0) || drawn && !p.Fixed {
				continue
			}
			if p.Fixed && !drawn {
				sum, weight, seconds, sd, drawn = 0, 0, 0, math.Inf(1), true
			}
			w := 1 / (p.SD * p.SD)
			sum, weight, seconds = sum+w*p.Rise, weight+w, seconds+w*p.At.Sub(from).Seconds()
			sd = min(sd, p.SD)
		}
		if weight > 0 {
			out = append(out, Reading{At: from.Add(time.Duration(seconds / weight * float64(time.Second))), Rise: sum / weight, SD: sd})
		}
	}
	return out
}
