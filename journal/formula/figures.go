package formula

// Metrics are what a formula comes to. Every percentage is 0 while there is no
// flour to compare with; [Metrics.Defined] tells that apart from a true 0.
type Metrics struct {
	Dough Grams // everything that goes into the bowl, seeds and their water too
	Flour Grams // with the cultures' own
	Water Grams // with the cultures' own

	FlourWeighed Grams // flour weighed as flour, cultures aside
	WaterWeighed Grams // water weighed as water, cultures aside

	Hydration        Percent // Water per hundred of Flour
	HydrationWeighed Percent // WaterWeighed per hundred of FlourWeighed
	Salt             Percent
	Prefermented     Percent // share of Flour that has been through a culture or levain
	Wholegrain       Percent // share of Flour
	Inoculation      Percent // culture and ripe levain per hundred of the fresh flour beside them
}

// Defined says whether there is flour, so that percentages mean something.
func (f Metrics) Defined() bool { return f.Flour > 0 }

// Metrics computes what the formula comes to, with the cultures' own flour and
// water counted in.
func (f Formula) Metrics() Metrics {
	var out Metrics
	var salt, prefermented, wholegrain Grams
	f.inDough(func(levain int, in Ingredient) {
		flour := in.flourIn(WithCulture)
		out.Dough += in.Grams
		out.Flour += flour
		out.Water += in.waterIn(WithCulture)
		out.FlourWeighed += in.flourIn(WithoutCulture)
		out.WaterWeighed += in.waterIn(WithoutCulture)
		wholegrain += in.Wholegrain.Of(flour)
		if in.Role == Salt {
			salt += in.Grams
		}
		if levain >= 0 || in.Role == Culture {
			prefermented += flour
		}
	})
	out.Hydration = out.Water.PercentOf(out.Flour)
	out.HydrationWeighed = out.WaterWeighed.PercentOf(out.FlourWeighed)
	out.Salt = salt.PercentOf(out.Flour)
	out.Prefermented = prefermented.PercentOf(out.Flour)
	out.Wholegrain = wholegrain.PercentOf(out.Flour)
	out.Inoculation = f.inoculation()
	return out
}

// inoculation is the final dough's: what ferments per hundred of fresh flour.
func (f Formula) inoculation() Percent {
	ferment := weigh(f.Lines, Culture)
	for _, l := range f.Levains {
		ferment += l.Used()
	}
	return ferment.PercentOf(weigh(f.Lines, Flour))
}

// BuildMetrics are what a levain's build comes to by itself.
type BuildMetrics struct {
	Built       Grams
	Flour       Grams   // with the seed culture's own
	Hydration   Percent // with the seed culture's own flour and water
	Inoculation Percent // seed culture per hundred of fresh flour
}

// Metrics computes what the build comes to by itself, kept-back part included.
func (l Levain) Metrics() BuildMetrics {
	var water Grams
	out := BuildMetrics{Built: l.Built()}
	for _, in := range l.Lines {
		out.Flour += in.flourIn(WithCulture)
		water += in.waterIn(WithCulture)
	}
	out.Hydration = water.PercentOf(out.Flour)
	out.Inoculation = weigh(l.Lines, Culture).PercentOf(weigh(l.Lines, Flour))
	return out
}
