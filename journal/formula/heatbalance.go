package formula

import "math"

// Specific heats in kJ/(kg K). Flour of 12 to 13.5 % water 1.80 to 1.88, of which the
// middle is taken, and water 4.185: C. J. Geankoplis, Transport Processes and Separation
// Process Principles, 4th ed., table A.4-1.
const (
	HeatOfFlour = 1.84
	HeatOfWater = 4.185
)

// Bowl is what meets in the mixing bowl, by weight. The levain is its flour and its water.
type Bowl struct {
	Flour, Water             Grams
	LevainFlour, LevainWater Grams
	FlourAt, RoomAt          Celsius
	LevainAt                 Celsius
}

// Known says that there are flour and water to weigh up.
func (b Bowl) Known() bool { return b.Flour > 0 && b.Water > 0 }

// HasLevain says that there is a levain, or a culture, in it.
func (b Bowl) HasLevain() bool { return b.LevainFlour+b.LevainWater > 0 }

func (b Bowl) flour() float64 { return float64(b.Flour) * HeatOfFlour }
func (b Bowl) water() float64 { return float64(b.Water) * HeatOfWater }
func (b Bowl) levain() float64 {
	return float64(b.LevainFlour)*HeatOfFlour + float64(b.LevainWater)*HeatOfWater
}

// mixed is the temperature at which everything comes together if no heat is gained or
// lost: the mean by weight and specific heat. Heat of wetting the flour is left to what
// mixing adds, which is learned.
func (b Bowl) mixed(water Celsius) Celsius {
	sum := b.flour()*float64(b.FlourAt) + b.water()*float64(water) + b.levain()*float64(b.LevainAt)
	return Celsius(sum / (b.flour() + b.water() + b.levain()))
}

// heat is what the dough takes up, in kJ/K.
func (b Bowl) heat() float64 { return (b.flour() + b.water() + b.levain()) / 1000 }

// Kitchen is what mixing does to a dough: it warms it by Mixing, and bowl, hook and air
// draw it towards the room's temperature as if Vessel, in kJ/K, of something as warm as
// the room were mixed in. So a small dough is drawn further than a large one.
type Kitchen struct {
	Mixing CelsiusDiff
	Vessel float64
	Doughs int         // it was learned from
	Off    CelsiusDiff // sd of a dough about it
}

// dough is the temperature of the dough when the water has one.
func (k Kitchen) dough(b Bowl, water Celsius) Celsius {
	drawn := Celsius(k.Vessel / b.heat())
	return (b.mixed(water) + drawn*b.RoomAt + Celsius(k.Mixing)) / (1 + drawn)
}

// WaterFor is the water that gives the wanted dough.
func (k Kitchen) WaterFor(b Bowl, wanted Celsius) Celsius {
	mixed := float64(wanted) - float64(k.Mixing) - k.Vessel/b.heat()*float64(b.RoomAt-wanted)
	all := b.flour() + b.water() + b.levain()
	return Celsius((mixed*all - b.flour()*float64(b.FlourAt) - b.levain()*float64(b.LevainAt)) / b.water())
}

// Measured is an earlier dough: what met, the water, and how warm the dough was.
type Measured struct {
	Bowl
	WaterAt, Dough Celsius
}

// What is believed of a kitchen before it has measured a dough (our own guesses): mixing
// by hand warms a little, and a bowl takes up as much heat as 200 g of dough.
const (
	usualMixing, mixingSpread = 1.0, 1.5 // °C
	usualVessel, vesselSpread = 0.6, 0.8 // kJ/K
	doughSpread               = 0.7      // °C, of one dough about the rest
	mostVessel                = 10       // kJ/K
	slipOfThermometer         = 25       // °C further off than any mixing
)

// LearnKitchen finds what mixing does from earlier doughs, by Bayesian linear regression
// with those beliefs (ridge regression; Hoerl & Kennard 1970, Technometrics 12:55). With
// none it is the beliefs.
func LearnKitchen(doughs []Measured) Kitchen {
	// Of two unknowns: the normal equations of dough - mixed = mixing + vessel (room - dough)/heat.
	w := 1 / (doughSpread * doughSpread)
	a, b, c := 1/(mixingSpread*mixingSpread), 0.0, 1/(vesselSpread*vesselSpread)
	y, z := usualMixing/(mixingSpread*mixingSpread), usualVessel/(vesselSpread*vesselSpread)
	n := 0
	for _, d := range doughs {
		if !d.sound() {
			continue
		}
		x, rise := float64(d.RoomAt-d.Dough)/d.heat(), float64(d.Dough-d.mixed(d.WaterAt))
		a, b, c = a+w, b+w*x, c+w*x*x
		y, z = y+w*rise, z+w*x*rise
		n++
	}
	det := a*c - b*b
	k := Kitchen{Mixing: CelsiusDiff((y*c - z*b) / det), Vessel: min(max((a*z-b*y)/det, 0), mostVessel), Doughs: n}
	sum, weight := 4*doughSpread*doughSpread, 4.0
	for _, d := range doughs {
		if d.sound() {
			off := float64(d.Dough - k.dough(d.Bowl, d.WaterAt))
			sum, weight = sum+min(off*off, 25), weight+1
		}
	}
	k.Off = CelsiusDiff(math.Sqrt(sum / weight))
	return k
}

// sound says that the dough can be learned from: its weights are known, and no slip of the
// thermometer is in it.
func (d Measured) sound() bool {
	rise := math.Abs(float64(d.Dough - d.mixed(d.WaterAt)))
	return d.Known() && rise <= slipOfThermometer
}

// Bowl is the dough of a formula in the bowl, its temperatures left to be filled in.
// Salt, fat, seeds and the like are left out: they are a few hundredths of the heat.
func (f Formula) Bowl() Bowl {
	var b Bowl
	for _, in := range f.Lines {
		switch in.Role {
		case Flour:
			b.Flour += in.Grams
		case Culture:
			b.LevainFlour += in.flourIn(WithCulture)
			b.LevainWater += in.waterIn(WithCulture)
		default:
			b.Water += in.waterIn(WithCulture)
		}
	}
	for _, l := range f.Levains {
		share := l.usedShare()
		for _, in := range l.Lines {
			b.LevainFlour += share * in.flourIn(WithCulture)
			b.LevainWater += share * in.waterIn(WithCulture)
		}
	}
	return b
}
