package bulk

import (
	"math"
	"time"

	"twinloaf/journal/ferment"
)

const (
	horizon  = 60 * time.Hour // a bulk of more is none
	gridStep = 5 * time.Minute

	// usualDough and usualSpread are believed of a dough whose temperature nobody took,
	// in °C. They and the two spreads that follow are our own guesses.
	usualDough, usualSpread = 24.0, 2.0
	// airSpread is how far a dough without a reading is off the air around it, in °C.
	airSpread = 1.2
	// driftSpread is how far a dough strays from what is reckoned after its last reading.
	driftSpread = 0.5
	// settle are the hours in which two thirds of the way to the air are gone, of 1 kg of
	// dough in a bowl. A kilogram takes up about 2.9 kJ/K and loses some 0.3 W/K through
	// bowl and cloth (free convection about 6 W/(m² K), our own estimate); larger ones take
	// longer by the cube root of their weight, as surface and weight go.
	settle = 2.7
	// early are the hours whose mean temperature stands for the dough's warmth (our own
	// choice).
	early = 4.0
)

// warmth is how warm a dough is over time, and the thermal time that comes of it.
type warmth struct {
	theta []float64 // at each step of the grid since mixing, in hours at 25 °C
	mean  float64   // over the first hours, °C
	doubt float64   // sd of that, °C
}

// pace is how fast a dough ferments at a temperature, 1 at 25 °C: the cardinal model of
// yeast as it is in [ferment]. The model's slope is put right from the record.
func pace(c float64) float64 {
	return max(yeast.Relative(ferment.Celsius(c)), 0.02) / at25
}

var (
	yeast = ferment.CardinalYeast()
	at25  = yeast.Relative(25)
)

// warmthOf reckons how warm a dough was and will be. Between readings it goes straight;
// after the last it draws near to the air.
func warmthOf(d Dough) warmth {
	steps := int(horizon / gridStep)
	w := warmth{theta: make([]float64, steps+1), doubt: usualSpread}
	if len(d.Dough) > 0 {
		w.doubt = driftSpread
	} else if len(d.Air) > 0 {
		w.doubt = airSpread
	}
	tau := settle * math.Cbrt(max(d.Grams, 200)/1000)
	air, hasAir := usualDough, len(d.Air) > 0
	if hasAir {
		air = d.Air[0].C
	}
	t := air
	if len(d.Dough) > 0 {
		t = d.Dough[0].C
	}
	di, ai, sum, n := 0, 0, 0.0, 0
	last := pace(t)
	for i := 1; i <= steps; i++ {
		at := d.Began.Add(time.Duration(i) * gridStep)
		for ai < len(d.Air) && !d.Air[ai].At.After(at) {
			air = d.Air[ai].C
			ai++
		}
		for di < len(d.Dough) && !d.Dough[di].At.After(at) {
			t = d.Dough[di].C
			di++
		}
		switch {
		case di > 0 && di < len(d.Dough):
			a, b := d.Dough[di-1], d.Dough[di]
			t = a.C + (b.C-a.C)*at.Sub(a.At).Hours()/max(b.At.Sub(a.At).Hours(), 1e-9)
		case di > 0 && hasAir:
			t += (air - t) * (1 - math.Exp(-gridStep.Hours()/tau))
		case di == 0 && len(d.Dough) == 0:
			t = air
		}
		if gridStep.Hours()*float64(i) <= early {
			sum += t
			n++
		}
		now := pace(t)
		w.theta[i] = w.theta[i-1] + gridStep.Hours()*(last+now)/2
		last = now
	}
	w.mean = sum / float64(n)
	return w
}

// at is the thermal time so many hours after mixing.
func (w warmth) at(hours float64) float64 {
	x := hours / gridStep.Hours()
	i := int(x)
	switch {
	case x <= 0:
		return 0
	case i >= len(w.theta)-1:
		return w.theta[len(w.theta)-1]
	}
	return w.theta[i] + (x-float64(i))*(w.theta[i+1]-w.theta[i])
}
