package formula

// Metric names a figure that a screen shows.
type Metric string

// The figures.
const (
	FigureDough        Metric = "dough"
	FigureFlour        Metric = "flour"
	FigureHydration    Metric = "hydration"
	FigureWeighed      Metric = "hydration without the culture"
	FigureSalt         Metric = "salt"
	FigurePrefermented Metric = "prefermented flour"
	FigureInoculation  Metric = "inoculation"
	FigureWholegrain   Metric = "wholegrain"
	FigurePercent      Metric = "baker's percentage"
	FigureFriction     Metric = "friction"
	FigureLoss         Metric = "bake loss"
)

// Definition says what a figure is and what is usual, to be shown beside it.
type Definition struct {
	Figure Metric
	Name   string
	What   string
	Usual  string // empty where nothing is usual
	Source string // of what is usual
}

const practice = "common practice, no source"

var definitions = []Definition{
	{FigurePercent, "Baker's percentage", "The weight per hundred of flour. All the flour together is 100: what you weigh, and what the culture and the levain bring with them.", "", ""},
	{FigureDough, "Dough weight", "Everything that goes into the bowl, seeds and their water too.",
		"700 to 1000 g for a round loaf.", practice},
	{FigureFlour, "Flour", "All the flour in the dough, the culture's own included.", "", ""},
	{FigureHydration, "Hydration", "Water per hundred of flour, with the flour and water that the culture is made of. Liquids count by the water in them. Seeds and the water they soak in stay out, unless a line says that it counts.",
		"60 to 85 % for wheat; wholegrain and rye take more.", practice},
	{FigureWeighed, "Hydration (culture left out)", "Water per hundred of flour as you weigh them, the culture left aside. Many printed formulas mean this one.", "", ""},
	{FigureSalt, "Salt", "Salt per hundred of flour.",
		"1.8 to 2.2 %.", practice},
	{FigurePrefermented, "Prefermented flour", "The part of all the flour that has fermented in a culture or levain before the dough is mixed.",
		"5 to 25 % for wheat, 20 to 50 % for rye.", practice},
	{FigureInoculation, "Inoculation", "Culture or ripe levain per hundred of the fresh flour it is put with, in this one bowl.",
		"11 to 67 % for wheat, 50 to 200 % for rye, which is 5 to 25 % and 20 to 50 % prefermented flour in a culture at 100 % hydration.", practice},
	{FigureWholegrain, "Wholegrain", "The part of all the flour that is wholegrain, by the share each flour and culture states.", "", ""},
	{FigureFriction, "Friction", "The degrees that mixing adds in the rule for the water temperature. It also takes in whatever else the rule leaves out, so it belongs to your kitchen and your way of mixing.",
		"0 to 5 °C (0 to 9 °F) by hand, 10 to 15 °C (18 to 27 °F) in a machine.", practice},
	{FigureLoss, "Bake loss", "What the dough loses in weight until the loaf is cool, per hundred of dough.",
		"10 to 13 % for usual loaves, more for small or well-baked ones.", "W. Gisslen, Professional Baking"},
}

// Define says what a figure is; an unknown figure has an empty definition.
func Define(f Metric) Definition {
	for _, d := range definitions {
		if d.Figure == f {
			return d
		}
	}
	return Definition{}
}

// The range of salt that is usual (common practice, no source).
const (
	UsualSaltLeast Percent = 1.8
	UsualSaltMost  Percent = 2.2
)
