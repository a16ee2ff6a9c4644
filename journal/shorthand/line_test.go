package shorthand_test

import (
	"math"
	"strings"
	"testing"

	"twinloaf/journal/shorthand"
)

// The international pound and ounce: NIST Handbook 44 (2023), appendix C.
const ounce, pound = 28.349523125, 453.59237

// g, p and h are a line's weight, share and hydration.
type said struct {
	text, name string
	g, p, h    float64
}

// lines are written as people write them, in English and in German. None is anybody's:
// they were made up for this table.
var lines = []said{
	// A weight before, behind, with and without its unit.
	{"whole rye 300", "whole rye", 300, 0, 0},
	{"300 g rye", "rye", 300, 0, 0},
	{"300g rye", "rye", 300, 0, 0},
	{"300 rye", "rye", 300, 0, 0},
	{"water 380", "water", 380, 0, 0},
	{"380 water", "water", 380, 0, 0},
	{"water: 380", "water", 380, 0, 0},
	{"water - 380 g", "water", 380, 0, 0},
	{"water – 380g", "water", 380, 0, 0},
	{"water = 380 g", "water", 380, 0, 0},
	{"Water, 350 g", "Water", 350, 0, 0},
	{"water (380 g)", "water", 380, 0, 0},
	{"380 grams water", "water", 380, 0, 0},
	{"380 grams of water", "water", 380, 0, 0},
	{"380 gr water", "water", 380, 0, 0},
	{"380 gr. water", "water", 380, 0, 0},
	{"380 gm water", "water", 380, 0, 0},
	{"1 kg strong white", "strong white", 1000, 0, 0},
	{"1kg strong white", "strong white", 1000, 0, 0},
	{"1.5 kg flour, sifted", "flour, sifted", 1500, 0, 0},
	{"0.5 kg flour", "flour", 500, 0, 0},

	{"1,250 g flour", "flour", 1250, 0, 0},
	{"1 250 g flour", "flour", 1250, 0, 0},
	{"1'250 g flour", "flour", 1250, 0, 0},
	{"1.250 g flour", "flour", 1250, 0, 0},
	{"10.5 g salt", "salt", 10.5, 0, 0},
	{"7.5 gr. salt", "salt", 7.5, 0, 0},
	{"salt 10", "salt", 10, 0, 0},
	{"salt 10.5", "salt", 10.5, 0, 0},
	{"10g fine sea salt", "fine sea salt", 10, 0, 0},
	{"Strong white bread flour 450g", "Strong white bread flour", 450, 0, 0},
	{"450g strong white bread flour (13% protein)", "strong white bread flour (13% protein)", 450, 0, 0},
	{"strong white flour, 500 g, plus more for dusting", "strong white flour, plus more for dusting", 500, 0, 0},
	{"about 350 g lukewarm water", "lukewarm water", 350, 0, 0},
	{"approx. 350 g water", "water", 350, 0, 0},
	{"~350 g water", "water", 350, 0, 0},
	{"500 g T65 flour", "T65 flour", 500, 0, 0},
	{"T65 500 g", "T65", 500, 0, 0},
	{"flour T 65 500", "flour T 65", 500, 0, 0},
	{"type 550 wheat 500", "type 550 wheat", 500, 0, 0},
	{"00 flour 500 g", "00 flour", 500, 0, 0},
	{"00 flour 500", "00 flour", 500, 0, 0},
	{"500 tipo 00", "tipo 00", 500, 0, 0},
	{"manitoba 0 400 g", "manitoba 0", 400, 0, 0},
	{"seven-grain mix 120 g", "seven-grain mix", 120, 0, 0},
	{"5-seed mix 80 g", "5-seed mix", 80, 0, 0},
	// Bullets and numbers of a list.
	{"- 500 g flour", "flour", 500, 0, 0},
	{"– 500 g flour", "flour", 500, 0, 0},
	{"• 500 g flour", "flour", 500, 0, 0},
	{"•500 g flour", "flour", 500, 0, 0},
	{"* 500 g flour", "flour", 500, 0, 0},
	{"▢ 500 g flour", "flour", 500, 0, 0},
	{"☐ 500 g flour", "flour", 500, 0, 0},
	{"[ ] 500 g flour", "flour", 500, 0, 0},
	{"[x] 500 g flour", "flour", 500, 0, 0},
	{"1. 500 g flour", "flour", 500, 0, 0},
	{"2) 350 g water", "water", 350, 0, 0},
	{"> 500 g flour", "flour", 500, 0, 0},
	{"500 g  strong\u00a0white", "strong white", 500, 0, 0},
	{"500\u00a0g flour", "flour", 500, 0, 0},
	{"flour\t500 g", "flour", 500, 0, 0},
	// Fractions and customary units.
	{"½ oz yeast", "yeast", ounce / 2, 0, 0},
	{"1/2 oz yeast", "yeast", ounce / 2, 0, 0},
	{"1 ½ lb potatoes", "potatoes", 1.5 * pound, 0, 0},
	{"1 1/2 lb potatoes", "potatoes", 1.5 * pound, 0, 0},
	{"1½ lb potatoes", "potatoes", 1.5 * pound, 0, 0},
	{"1 lb 2 oz flour", "flour", pound + 2*ounce, 0, 0},
	{"1lb 2oz flour", "flour", pound + 2*ounce, 0, 0},
	{"2 lbs flour", "flour", 2 * pound, 0, 0},
	{"2 pounds flour", "flour", 2 * pound, 0, 0},
	{"8 oz (227 g) butter", "butter", 227, 0, 0},
	{"227 g / 8 oz butter", "butter", 227, 0, 0},
	{"8 ounces butter", "butter", 8 * ounce, 0, 0},
	{"2 cups (240 g) flour", "flour", 240, 0, 0},
	{"240 g (2 cups) flour", "flour", 240, 0, 0},
	{"1 tbsp (12 g) honey", "honey", 12, 0, 0},
	{"2 tsp (10 g) salt", "salt", 10, 0, 0},
	// Volumes of water are weights.
	{"350 ml water", "water", 350, 0, 0},
	{"350ml warm water", "warm water", 350, 0, 0},
	{"0.35 l warm water", "warm water", 350, 0, 0},
	{"35 cl water", "water", 350, 0, 0},
	{"3.5 dl water", "water", 350, 0, 0},
	{"1 litre water", "water", 1000, 0, 0},
	{"1 liter cold water", "cold water", 1000, 0, 0},
	{"water 350 ml", "water", 350, 0, 0},
	// Shares of the flour.
	{"rye 20 %", "rye", 0, 20, 0},
	{"rye 20%", "rye", 0, 20, 0},
	{"20 % rye", "rye", 0, 20, 0},
	{"20% rye", "rye", 0, 20, 0},
	{"salt 2 %", "salt", 0, 2, 0},
	{"salt: 2%", "salt", 0, 2, 0},
	{"salt 2.2 %", "salt", 0, 2.2, 0},
	{"salt, 2 percent", "salt", 0, 2, 0},
	{"2 percent salt", "salt", 0, 2, 0},
	{"water 72 per cent", "water", 0, 72, 0},
	{"water (72 %)", "water", 0, 72, 0},
	{"72% water", "water", 0, 72, 0},
	{"whole rye 300 g (60 %)", "whole rye", 300, 60, 0},
	{"whole rye 300 g, 60 %", "whole rye", 300, 60, 0},
	{"60 % whole rye, 300 g", "whole rye", 300, 60, 0},
	{"strong white 100%", "strong white", 0, 100, 0},
	{"15% levain", "levain", 0, 15, 0},
	{"85% strong white, 12% protein", "strong white, 12% protein", 0, 85, 0},
	// Cultures and their hydration.
	{"100 g starter (100 % hydration)", "starter", 100, 0, 100},
	{"100 g starter at 80% hydration", "starter at", 100, 0, 80},
	{"100 g 100% hydration starter", "starter", 100, 0, 100},
	{"100g stiff levain (hydration 50 %)", "stiff levain", 100, 0, 50},
	{"20 % levain (100 % hydration)", "levain", 0, 20, 100},
	{"starter 100 (80 % hydration)", "starter", 100, 0, 80},
	{"100 g ripe Gorse", "ripe Gorse", 100, 0, 0},
	{"100 g Harbour (Levain)", "Harbour (Levain)", 100, 0, 0},
	// German.
	{"Weizenmehl Type 550 500 g", "Weizenmehl Type 550", 500, 0, 0},
	{"Weizenmehl Type 550: 500 g", "Weizenmehl Type 550", 500, 0, 0},
	{"500 g Weizenmehl Type 550", "Weizenmehl Type 550", 500, 0, 0},
	{"500g Weizenmehl 550", "Weizenmehl 550", 500, 0, 0},
	{"500 Weizenmehl 550", "Weizenmehl 550", 500, 0, 0},
	{"Weizenmehl 550 500", "Weizenmehl 550", 500, 0, 0},
	{"Weizenmehl 450", "Weizenmehl", 450, 0, 0},
	{"Weizenmehl 550er 400 g", "Weizenmehl 550er", 400, 0, 0},
	{"400 g 550er Weizenmehl", "550er Weizenmehl", 400, 0, 0},
	{"300 g 1150er Roggenmehl", "1150er Roggenmehl", 300, 0, 0},
	{"Roggenmehl Type 1150 300 g", "Roggenmehl Type 1150", 300, 0, 0},
	{"Roggenmehl Typ 1150 300 g", "Roggenmehl Typ 1150", 300, 0, 0},
	{"Roggenvollkornmehl 200 g", "Roggenvollkornmehl", 200, 0, 0},
	{"Roggenvollkorn 200", "Roggenvollkorn", 200, 0, 0},
	{"Dinkelmehl 630, 250 g", "Dinkelmehl 630", 250, 0, 0},
	{"250 g Dinkel, fein gemahlen", "Dinkel, fein gemahlen", 250, 0, 0},
	{"500 Gramm Mehl", "Mehl", 500, 0, 0},
	{"ca. 500 g Mehl", "Mehl", 500, 0, 0},
	{"etwa 350 g Wasser", "Wasser", 350, 0, 0},
	{"1,5 kg Mehl", "Mehl", 1500, 0, 0},
	{"0,5 kg Mehl", "Mehl", 500, 0, 0},
	{"1.000 g Mehl", "Mehl", 1000, 0, 0},
	{"10,5 g Salz", "Salz", 10.5, 0, 0},
	{"Salz 10,5 g", "Salz", 10.5, 0, 0},
	{"Salz 10", "Salz", 10, 0, 0},
	{"Salz: 10 g", "Salz", 10, 0, 0},
	{"Salz 2 %", "Salz", 0, 2, 0},
	{"2 % Salz", "Salz", 0, 2, 0},
	{"2,2 % Salz", "Salz", 0, 2.2, 0},
	{"Salz 2 Prozent", "Salz", 0, 2, 0},
	{"75 % Wasser", "Wasser", 0, 75, 0},
	{"Wasser (75 %)", "Wasser", 0, 75, 0},
	{"350 ml Wasser", "Wasser", 350, 0, 0},
	{"350 ml lauwarmes Wasser", "lauwarmes Wasser", 350, 0, 0},
	{"0,35 l Wasser", "Wasser", 350, 0, 0},
	{"1 Liter Wasser", "Wasser", 1000, 0, 0},
	{"Leitungswasser 350 ml", "Leitungswasser", 350, 0, 0},
	{"1 Pfund Mehl", "Mehl", 500, 0, 0},
	{"1 kg Mehl (Type 1050)", "Mehl (Type 1050)", 1000, 0, 0},
	{"100 g Anstellgut", "Anstellgut", 100, 0, 0},
	{"100 g Anstellgut (TA 200)", "Anstellgut", 100, 0, 100},
	{"100 g Roggensauer TA 180", "Roggensauer", 100, 0, 80},
	{"20 g Lievito Madre (50 % Hydration)", "Lievito Madre", 20, 0, 50},
	{"½ Pfund Butter", "Butter", 250, 0, 0},
	{"- 300 g Roggenschrot", "Roggenschrot", 300, 0, 0},
	{"• 12 g Salz", "Salz", 12, 0, 0},
	{"3. 12 g Salz", "Salz", 12, 0, 0},
	{"20 g Backmalz, inaktiv", "Backmalz, inaktiv", 20, 0, 0},
	{"30 g Honig", "Honig", 30, 0, 0},
	{"1 EL (20 g) Honig", "Honig", 20, 0, 0},
	{"250 g Joghurt (3,5 % Fett)", "Joghurt (3,5 % Fett)", 250, 0, 0},
	{"Sonnenblumenkerne 60", "Sonnenblumenkerne", 60, 0, 0},
	{"Hefe 5g", "Hefe", 5, 0, 0},
	{"0,5 g Hefe", "Hefe", 0.5, 0, 0},
	{"Wasser 380", "Wasser", 380, 0, 0},
	{"380 Wasser", "Wasser", 380, 0, 0},
	{"200 g vom Vortag geriebenes Brot", "vom Vortag geriebenes Brot", 200, 0, 0},
}

func TestLine(t *testing.T) {
	n := 0
	for _, c := range lines {
		n++
		got := (shorthand.Style{}).Line(c.text)
		if got.Name != c.name || math.Abs(got.Grams-c.g) > 1e-6 || math.Abs(got.Percent-c.p) > 1e-9 || got.Hydration != c.h || got.Doubt != shorthand.NoDoubt {
			t.Errorf("%q is %+v, want %q %v g %v %% (%v %% hydration)", c.text, got, c.name, c.g, c.p, c.h)
		}
	}
	for _, c := range doubts {
		n++
		if got := (shorthand.Style{}).Line(c.text); got.Doubt != c.doubt || got.Grams+got.Percent != 0 && c.doubt != shorthand.NoName {
			t.Errorf("%q is %+v, want the doubt %d (%s)", c.text, got, c.doubt, c.doubt.Line())
		} else if got.Doubt.Line().IsZero() {
			t.Errorf("nothing is said of %q", c.text)
		}
	}
	if n < 200 {
		t.Errorf("only %d lines are tried", n)
	}
}

// doubts are lines of which no amount may be made.
var doubts = []struct {
	text  string
	doubt shorthand.Doubt
}{
	{"salt to taste", shorthand.NoAmount},
	{"some flour for the bench", shorthand.NoAmount},
	{"a little oil", shorthand.NoAmount},
	{"etwas Mehl zum Bestäuben", shorthand.NoAmount},
	{"Salz nach Geschmack", shorthand.NoAmount},
	{"Weizenmehl Type 550", shorthand.NoAmount},
	{"Roggenmehl 1150", shorthand.NoAmount},
	{"00 flour", shorthand.NoAmount},
	{"tipo 00", shorthand.NoAmount},
	{"T65", shorthand.NoAmount},
	{"flour", shorthand.NoAmount},
	{"500 g", shorthand.NoName},
	{"500g:", shorthand.NoName},
	{"2 %", shorthand.NoName},
	{"500-550 g flour", shorthand.ARange},
	{"500 – 550 g flour", shorthand.ARange},
	{"500 bis 550 g Mehl", shorthand.ARange},
	{"10 to 12 g salt", shorthand.ARange},
	{"10 g or 12 g salt", shorthand.ARange},
	{"2 x 250 g flour", shorthand.ARange},
	{"70-75 % water", shorthand.ARange},
	{"70 bis 75 % Wasser", shorthand.ARange},
	{"2 cups flour", shorthand.AVolume},
	{"1 cup milk", shorthand.AVolume},
	{"1 tbsp honey", shorthand.AVolume},
	{"2 tsp salt", shorthand.AVolume},
	{"½ tsp yeast", shorthand.AVolume},
	{"1 EL Honig", shorthand.AVolume},
	{"2 TL Salz", shorthand.AVolume},
	{"1 gehäufter TL Salz", shorthand.AVolume},
	{"1 Tasse Mehl", shorthand.AVolume},
	{"250 ml milk", shorthand.AVolume},
	{"250 ml Milch", shorthand.AVolume},
	{"250 ml rose water", shorthand.AVolume},
	{"8 fl oz beer", shorthand.AVolume},
	{"2 large glasses", shorthand.AVolume},
	{"3 eggs", shorthand.ACount},
	{"2 large eggs", shorthand.ACount},
	{"1 egg", shorthand.ACount},
	{"3 Eier", shorthand.ACount},
	{"1 Ei", shorthand.ACount},
	{"1 Prise Zucker", shorthand.ACount},
	{"1 pinch of sugar", shorthand.ACount},
	{"1 Päckchen Hefe", shorthand.ACount},
	{"½ Würfel Hefe", shorthand.ACount},
	{"a 9000000 kg loaf", shorthand.TooMuch},
	{"1/0 g salt", shorthand.TooMuch},
	{"0 g salt", shorthand.TooMuch},
}

// A page's list, a mail's, and one on a single line.
func TestLines(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       string // name grams/percent, or ?, or a heading, by "; "
	}{
		{"from a page", "Ingredients:\n\n• 400 g strong white flour\n• 100 g whole rye\n• 375 g water, at 28 °C\n• 100 g ripe starter (100 % hydration)\n• 10 g fine sea salt\n• 2 tbsp sesame\n",
			"Ingredients:; strong white flour 400 g; whole rye 100 g; water, at 28 °C 375 g; ripe starter 100 g; fine sea salt 10 g; ? 2 tbsp sesame"},
		{"from a mail, in German", "Hauptteig:\r\n- 700 g Weizenmehl Type 550\r\n- 200 g Roggenmehl 1150\r\n- 100 g Dinkelvollkornmehl\r\n- 650 ml Wasser\r\n- 20 g Salz\r\n- 1 EL Honig\r\n",
			"Hauptteig:; Weizenmehl Type 550 700 g; Roggenmehl 1150 200 g; Dinkelvollkornmehl 100 g; Wasser 650 g; Salz 20 g; ? 1 EL Honig"},
		{"by percent", "white 80 %\nrye 20 %\nwater 72 %\nsalt 2 %", "white 80 %; rye 20 %; water 72 %; salt 2 %"},
		{"on one line", "500 g flour, 350 g water, 10 g salt", "flour 500 g; water 350 g; salt 10 g"},
		{"on one line without units", "whole rye 300, strong white 200, water 400", "whole rye 300 g; strong white 200 g; water 400 g"},
		{"one ingredient with a comma", "500 g flour, sifted", "flour, sifted 500 g"},
		{"with decimal commas", "1,5 kg Mehl; 1,1 l Wasser; 30 g Salz", "Mehl 1500 g; Wasser 1100 g; Salz 30 g"},
		{"amounts on lines of their own", "500 g\nstrong white flour\n350 g\nwater", "strong white flour 500 g; water 350 g"},
		{"nothing", " \n \n", ""},
	} {
		var got []string
		for _, l := range (shorthand.Style{}).Lines(c.text) {
			switch {
			case l.Heading:
				got = append(got, l.Name+":")
			case l.Doubt != shorthand.NoDoubt:
				got = append(got, "? "+l.Name)
			case l.Grams > 0:
				got = append(got, l.Name+" "+number(l.Grams)+" g")
			default:
				got = append(got, l.Name+" "+number(l.Percent)+" %")
			}
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, s, c.want)
		}
	}
}

// FuzzLine looks for what must hold of every text: no amount without its figure, no
// figure that is none, no name or text that is longer than what was written.
func FuzzLine(f *testing.F) {
	for _, c := range lines {
		f.Add(c.text, false)
	}
	for _, c := range doubts {
		f.Add(c.text, true)
	}
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		for _, l := range (shorthand.Style{Comma: comma}).Lines(text) {
			for _, v := range []float64{l.Grams, l.Percent, l.Hydration} {
				if !(v >= 0) || v > 1e6 {
					t.Errorf("%q: %+v", text, l)
				}
			}
			if l.Doubt == shorthand.NoDoubt && !l.Heading && (l.Grams == 0 && l.Percent == 0 || l.Name == "") {
				t.Errorf("%q is understood as %+v", text, l)
			}
			if len(l.Name) > len(text) || strings.ContainsAny(l.Name, "\n\r") {
				t.Errorf("%q is called %q", text, l.Name)
			}
		}
	})
}
