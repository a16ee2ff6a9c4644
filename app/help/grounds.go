package help

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// A ground is what a figure rests on: how it is worked out, from where on it counts, and who
// says so.
type ground struct{ figure, how, source string }

// A part of the grounds is a heading with its figures.
type part struct {
	title   string
	grounds []ground
}

// grounds are what every figure of the window rests on.
func grounds(u measure.Units) []part {
	practice := lang.L("common practice, no source")
	ours := lang.L("our own")
	return []part{
		{lang.L("Dough and bread"), append(defined(formula.FigurePercent, formula.FigureHydration, formula.FigureWeighed, formula.FigureSalt,
			formula.FigurePrefermented, formula.FigureInoculation, formula.FigureFriction, formula.FigureLoss),
			ground{lang.L("Water temperature"),
				lang.L("Wanted × n − (flour + room, + levain) − friction; n is 3, or 4 with a levain. Where the weights are known, each counts by its weight and its specific heat: flour 1.84, water 4.185 kJ/(kg K)."),
				lang.L("San Francisco Baking Institute, class notes; Geankoplis, Transport Processes and Separation Process Principles, table A.4-1")},
			ground{lang.L("Specific volume"), lang.L("The volume found by displacing seed, divided by the weight of the cooled loaf."), lang.L("AACC International Method 10-05, from memory")},
			ground{lang.L("Ice"), lang.L("Part of the water to replace: (tap − wanted) ÷ (tap + 80), in °C."), lang.L("handbooks of professional baking, which give it in °F")},
		)},
		{lang.L("The culture"), []ground{
			{lang.L("Rise"), lang.L("Height ÷ height of the mark made right after feeding: 2 is doubled. Ripe is the time above 90 % of the greatest rise over the mark."), practice},
			{lang.L("The curve"), lang.N("The better of two curves through at least {{.N}} readings: modified Gompertz, A·exp(−exp(μe(λ−t)/A + 1)), and logistic, A ÷ (1 + exp(4μ(λ−t)/A + 2)).", ferment.FewestPoints, map[string]any{"N": ferment.FewestPoints}),
				lang.L("Zwietering and others 1990, Applied and Environmental Microbiology 56:1875")},
			{lang.L("Ready to bake with"), ready(u), practice},
			{lang.L("The first weeks"), lang.L("Burst, lull and steady rise as studies describe them; where one ends and the next begins is our own reading."), lang.L("Van der Meulen and others 2007; Ercolini and others 2013")},
			{lang.L("Sour"), lang.L("A pH is set beside one wheat sourdough: 4.26 four hours after mixing, 3.89 mature, 3.55 after a day at 30 °C. No other culture is judged by it."), lang.L("Nutrients 2019;11:2954, table 2")},
			{lang.L("Feed again"), lang.L("When the ripe time is expected to end; a new culture once a day until it was seen to rise; in the refrigerator a week after the feeding; by the rhythm you set, if any; at once if it smells of solvent or has grey liquid on top."), practice},
		}},
		{lang.L("What the forecasts rest on"), []ground{
			{lang.L("Before anything is known"), lang.L("A feeding of 1:1:1 peaks in about 4½ hours at {{.Temp}}, 1:5:5 in 9, 1:10:10 in 11. A culture with few feedings leans on those kept beside it. Of a new one nothing is forecast until it was seen to rise, or is two weeks old.", map[string]any{"Temp": u.Temperature().Write(float64(ferment.ReferenceTemp))}), practice},
			{lang.L("Warmth"), lang.L("Four answers to warmth, from a yeast that is shy of heat to baker's yeast; readings show which is the jar's. Between {{.From}} and {{.To}} they are alike; beyond, only the culture's own past tells.",
				map[string]any{"From": u.Temperature().Write(15), "To": u.Temperature().Write(30)}),
				lang.L("Gänzle and others 1998, Applied and Environmental Microbiology 64:2616 (rounded rules of thumb); Salvadó and others 2011, the same journal 77:2292")},
			{lang.L("From feeding to feeding"), lang.L("From every reading the program learns how fast and how high this culture rises, and how much that varies from day to day. Each assumption counts by how well it forecast the readings so far."),
				lang.L("Bayesian model averaging: Hoeting and others 1999, Statistical Science 14:382")},
			{lang.L("The interval"), lang.L("It is made to hold the real time eight times out of ten. With made-up cultures that live by other laws than the program's it did so about eight times, all taken together; with a single one it may be fewer or more. The page of the culture says how often it did with yours."), ours},
			{lang.L("The end of the bulk"), lang.L("ln(rise − 1) = a + p·ln(hours, each at the pace of its warmth), with effects of levain, salt, wholegrain and warmth, of the culture and of the style. What is believed before your first bulk is a guess from common practice."),
				lang.L("linear mixed model: Laird and Ware 1982, Biometrics 38:963; the power law is a shape that fits, no law of fermentation")},
		}},
		{lang.L("Photos"), []ground{
			{lang.L("Crumb"), lang.L("Cells and walls are told apart by a level halfway between them. Point at a figure for its formula and source; they also stand under What these figures mean."),
				lang.L("Otsu 1979; Sapirstein, Roller and Bushuk 1994, Cereal Chemistry 71:383; more beside each figure")},
			{lang.L("Two crumbs"), lang.L("A change counts when it is larger than what two photos of one slice, the second taken anew, differ by in 19 of 20 cases, and larger than the uncertainties of both figures together."), lang.L("ISO 5725-6:1994, from memory")},
		}},
		{lang.L("Tastings"), []ground{
			{"p", lang.L("How often guessing alone would give as many right answers or more, or, where no loaf was expected, as large a lead either way: the exact binomial with a chance of 1/3 in a triangle, 1/2 in a duo-trio or paired comparison, 1/3 in a tetrad or a 3-AFC, 1/10 in two out of five."),
				lang.L("ISO 4120 (triangle), ISO 10399 (duo-trio), ISO 5495 (which has more of one thing); ISO 6658 names two out of five; liking by pairs: common practice; tetrad: Ennis and Jesionka 2011, Journal of Sensory Studies 26:371")},
			{lang.L("Really noticed"), lang.L("(share right − chance) ÷ (1 − chance), not below 0."), lang.L("ISO 4120, Annex B")},
			{"d′", lang.L("The distance between the two loaves in units of one taster's scatter that would give as many right answers."), lang.L("Thurstone's model")},
			{lang.L("Scores"), lang.L("Differences of two scores by the exact signed-rank test, corrected for several attributes; of several tasters each counts once. From 1 to 9 is the hedonic scale for liking; for anything else it is common practice."),
				lang.L("Wilcoxon; Holm; Peryam and Pilgrim 1957 for liking alone")},
		}},
		{lang.L("Findings"), []ground{
			{lang.L("Link"), lang.L("Spearman's rank correlation, its p by reordering the bakes; the slope is the middle one of pairs. Two groups: how often a bake of one is above a bake of the other. Where bakes differ in flour or culture, only those alike are set beside one another."), lang.L("Spearman; Theil and Sen; Mann and Whitney")},
			{lang.L("Many questions"), lang.L("Of all that is asked of the same bakes, the share of false alarms is held down."), lang.L("Benjamini and Hochberg 1995")},
		}},
		{lang.L("Flours and allergens"), []ground{
			{lang.L("Types of flour"), lang.L("By ash in dry matter, as the three countries lay it down. Ash is no measure of strength."), lang.L("DIN 10355; France, arrêté of 13 July 1963; Italy, DPR 187/2001")},
			{lang.L("Allergens"), lang.L("Read from names, as far as names can tell. What is prepared or compound is unknown until you say what is in it."), lang.L("EU 1169/2011, Annex II; FALCPA 2004 and the FASTER Act 2021 (USA)")},
		}},
	}
}

// defined are the grounds of figures that the computing rooms define themselves.
func defined(figures ...formula.Metric) []ground {
	var out []ground
	for _, f := range figures {
		d := formula.Define(f)
		g := ground{figure: lang.L(d.Name), how: lang.L(d.What)}
		if d.Usual != "" {
			g.how += " " + lang.L("Usual: {{.Range}}", map[string]any{"Range": lang.L(d.Usual)})
			g.source = lang.L(d.Source)
		}
		out = append(out, g)
	}
	return out
}

// ready says from when on a culture counts as ready.
func ready(u measure.Units) string {
	t := ferment.UsualThresholds()
	return lang.L("{{.InARow}} feedings in a row that reach {{.Rise}} times their mark within {{.Hours}} hours at {{.Temp}} (longer where it is cooler; those not read long enough are passed over), {{.Days}} days old or more, smelling sour, fruity or milky, sour enough if that was measured, and no sign of danger. The page of a culture lets you change rise, hours, feedings and age for it.",
		map[string]any{"InARow": t.InARow, "Rise": u.FormatNumber(float64(t.Rise), 1), "Hours": u.FormatNumber(t.Within.Hours(), 0), "Days": u.FormatNumber(t.MinAge.Hours()/24, 0),
			"Temp": u.Temperature().Write(float64(ferment.ThresholdTemp))})
}

// showGrounds gives the parts, each ground under another: the figure, how it comes about, and
// small and faint who says so; and how many letters each part has, its titles counted as
// lines.
func showGrounds(parts []part) (shown []fyne.CanvasObject, letters []int) {
	const line = 60
	for _, p := range parts {
		box := kit.Stack(3, kit.Subheading(p.title))
		long := line
		for _, g := range p.grounds {
			one := kit.Stack(0.5, kit.NewText(kit.Span{Text: g.figure, Size: look.TextLead, Bold: true}), prose(g.how))
			if g.source != "" {
				one.Add(kit.Faint(lang.L("Source: {{.Source}}", map[string]any{"Source": g.source})))
			}
			box.Add(one)
			long += 2*line + len(g.how) + len(g.source)
		}
		shown, letters = append(shown, box), append(letters, long)
	}
	return shown, letters
}
