package gather

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
)

// claims are what the program says of the world, each with what it rests on. A part of a
// sentence that is no longer said has to be looked at here, and its source with it.
var claims = []struct{ said, source string }{
	{"Sourdough yeast stops growing at about {{.T}} (approximate", "M. Gänzle's rules of thumb: no growth at 35 °C"},
	{"(ISO 10399, which does not recommend it where a taste lingers)", "ISO 10399, scope and introduction"},
	{"ISO 5495 is about how strong an attribute is, not about liking", "ISO 5495:2005, scope"},
	{"Two samples: which has more of it? (ISO 5495)", "ISO 5495:2005, scope"},
	{"For liking it is the hedonic scale of Peryam and Pilgrim (1957), for anything else common practice", "Peryam & Pilgrim 1957, Food Technology 11(9):9"},
	{"Keep the refrigerator at or below 40 °F, that is 4 °C (FoodSafety.gov)", "FoodSafety.gov"},
	{"the United Kingdom advises 5 °C", "Food Standards Agency: 5 °C or below"},
	{"What the dough loses in weight until the loaf is cool, per hundred of dough.", "W. Gisslen, Professional Baking"},
	{"which is 5 to 25 % and 20 to 50 % prefermented flour in a culture at 100 % hydration", "arithmetic: 2p/(1-p)"},
	{"one mature wheat sourdough (pH {{.Mature}}", "Nutrients 2019;11:2954, table 2"},
	{"Raw flour, dough and culture are not safe to eat: they can carry E. coli and Salmonella (FDA, CDC).", "FDA and CDC"},
	{"Sodium hydroxide burns skin and eyes from a strength of 2 % (Regulation (EC) 1272/2008, Annex VI); 0.1 M has 0.4 %, and is made from stronger.",
		"Annex VI, index 011-002-00-6: corrosive (H314) from 2 %, irritant from 0.5 %, as repeated in the European producers' sheet on sodium hydroxide (CAS 1310-73-2) and in INRS, fiche toxicologique 20; 0.1 mol/l of 40 g/mol is 4 g/l"},
	{"Wear gloves and goggles, and keep it away from children.", "Regulation (EC) 1272/2008, P280 and P102"},
	{"boiling water can crack cold glass", "common practice, no source"},
	{"Long fermentation does not make wheat or rye bread safe for people with coeliac disease (FDA, 85 FR 49240, 2020).",
		"FDA, Gluten-Free Labeling of Fermented or Hydrolyzed Foods, final rule of 13 August 2020: no test can tell gluten in what has fermented, so it must be gluten-free before"},
	{"Spelt, emmer, einkorn and khorasan are wheat (Geisslitz and Scherf 2020).",
		"S. Geisslitz and K. A. Scherf, Rediscovering Ancient Wheats, Cereal Foods World 65(2), 2020; Regulation (EU) 1169/2011, Annex II names spelt and khorasan"},
	{"On the European list of fourteen (Regulation (EU) 1169/2011, Annex II)", "the regulation"},
	{"On the American list of nine (FALCPA 2004 and FASTER Act 2021)", "the acts"},
	{"A cracker has allergens too: usually wheat, often milk, soya or sesame (common practice, no source).", "common practice, no source"},
	{"arrêté of 13 July 1963, as seen in", "the decree itself was not seen"},
}

// gone were found wrong or too strong.
var gone = []string{
	"fully matured", "over-matured", "the yeast suffers", "All is well", "5 °C / 40 °F", "good where the taste lingers",
	"10 to 30 % in a dough", "soft, pal", "crisp, dee", "toug", "cookingtest.club", "etrechyensembleetsolidaires", "infofarine.it", "gmf-info.de",
	"% in the oven",
}

func TestClaimsStandAsTheirSourcesHaveThem(t *testing.T) {
	said, err := From("../../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range claims {
		n := 0
		for s := range said {
			if strings.Contains(s, c.said) {
				n++
			}
		}
		if n == 0 {
			t.Errorf("nothing says %q any more (source: %s)", c.said, c.source)
		}
	}
	raw := 0
	for s := range said {
		for _, g := range gone {
			if strings.Contains(s, g) {
				t.Errorf("%q is said again, in %q", g, s)
			}
		}
		if strings.Contains(strings.ToLower(s), "raw flour") {
			raw++
		}
	}
	if raw != 1 {
		t.Errorf("raw flour is warned of in %d wordings, want one", raw)
	}
}

// The caution about hot water begins where the rules of thumb that it names (M. Gänzle's, the
// table beside journal/ferment's checks) give the yeast no growth, and the program's own curve
// next to none.
func TestHotWaterBeginsWhereTheYeastStops(t *testing.T) {
	table, err := os.ReadFile("../../../testdata/ferment/growth_vs_temperature_points.csv")
	if err != nil {
		t.Fatal(err)
	}
	if row := fmt.Sprintf("\nyeast,%g,0,", formula.YeastStops); !strings.Contains(string(table), row) {
		t.Errorf("water is called hot from %v °C, which is no row of the table without growth", formula.YeastStops)
	}
	if got := ferment.SteepYeast().Relative(ferment.Celsius(formula.YeastStops)); got > 0.2 {
		t.Errorf("there our curve has %.2f of the fastest growth", got)
	}
}
