package look_test

import (
	"image/color"
	"math"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

func TestEveryColourNameOfFyneIsDefined(t *testing.T) {
	for name, mode := range map[string]look.Mode{
		"follow": look.FollowSystem, "light": look.AlwaysLight, "dark": look.AlwaysDark,
	} {
		test.AssertAllColorNamesDefined(t, look.New(mode), name)
	}
}

func TestContrastAgreesWithKnownRatios(t *testing.T) {
	cases := []struct {
		a, b   color.Color
		want   float64
		source string
	}{
		{color.White, color.Black, 21, "WCAG 2.2, contrast ratio: ranges from 1 to 21"},
		{color.White, color.White, 1, "the same"},
		{color.NRGBA{R: 0x76, G: 0x76, B: 0x76, A: 255}, color.White, 4.54,
			"the lightest grey that passes 4.5 on white, from memory"},
	}
	for _, c := range cases {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("contrast of %v and %v is %.3f, want %.2f (%s)", c.a, c.b, got, c.want, c.source)
		}
	}
}

func TestTextCanBeReadOnEveryGround(t *testing.T) {
	const least = 4.5 // WCAG 2.2, success criterion 1.4.3, level AA
	for name, p := range map[string]look.Palette{"light": look.Light(), "dark": look.Dark()} {
		grounds := map[string]color.Color{"paper": p.Paper, "raised": p.Raised}
		inks := map[string]color.Color{
			"ink": p.Ink, "faint": p.Faint, "crust": p.Crust, "field": p.Field, "ember": p.Ember,
		}
		for gn, g := range grounds {
			for in, i := range inks {
				if r := contrast(i, g); r < least {
					t.Errorf("%s: %s on %s has contrast %.2f, want %.1f", name, in, gn, r, least)
				}
			}
		}
		for _, pair := range []struct {
			what     string
			ink, bed color.Color
		}{
			{"text on crust", p.OnCrust, p.Crust},
			{"text on field", p.OnCrust, p.Field},
			{"text on ember", p.OnCrust, p.Ember},
			{"paper on ink", p.Paper, p.Ink},
			{"ink on wash", p.Ink, p.Wash},
			{"ink on night", p.Ink, p.Night},
			{"faint on night", p.Faint, p.Night},
		} {
			if r := contrast(pair.ink, pair.bed); r < least {
				t.Errorf("%s: %s has contrast %.2f, want %.1f", name, pair.what, r, least)
			}
		}
	}
}

// What can be edited or pressed shows its edge, and the ring of the keyboard is seen.
func TestEdgesAndTheRingOfTheKeyboardAreSeen(t *testing.T) {
	const least = 3 // WCAG 2.2, success criterion 1.4.11, level AA
	for name, p := range map[string]look.Palette{"light": look.Light(), "dark": look.Dark()} {
		for gn, g := range map[string]color.Color{"paper": p.Paper, "raised": p.Raised} {
			for en, e := range map[string]color.Color{"edge": p.Edge, "focus": p.Crust, "focus while sealed": p.Ink} {
				if r := contrast(e, g); r < least {
					t.Errorf("%s: %s on %s has contrast %.2f, want %.1f", name, en, gn, r, float64(least))
				}
			}
		}
	}
}

func TestTextCanBeReadWhereItIsSelected(t *testing.T) {
	const least = 4.5 // WCAG 2.2, success criterion 1.4.3, level AA
	for name, mode := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
		th := look.New(mode)
		p := th.Palette(0)
		selection := th.Color(theme.ColorNameSelection, 0).(color.NRGBA)
		for gn, g := range map[string]color.NRGBA{"paper": p.Paper, "raised": p.Raised} {
			bed := over(selection, g)
			for in, i := range map[string]color.Color{"ink": p.Ink, "faint": p.Faint} {
				if r := contrast(i, bed); r < least {
					t.Errorf("%s: %s on selected %s has contrast %.2f, want %.1f", name, in, gn, r, least)
				}
			}
		}
	}
}

// over lays a colour that can be seen through on an opaque one.
func over(c, bed color.NRGBA) color.NRGBA {
	mix := func(a, b uint8) uint8 { return uint8((int(a)*int(c.A) + int(b)*(255-int(c.A))) / 255) }
	return color.NRGBA{R: mix(c.R, bed.R), G: mix(c.G, bed.G), B: mix(c.B, bed.B), A: 255}
}

func TestModeDecidesThePalette(t *testing.T) {
	cases := []struct {
		mode    look.Mode
		variant fyne.ThemeVariant
		dark    bool
	}{
		{look.FollowSystem, theme.VariantLight, false},
		{look.FollowSystem, theme.VariantDark, true},
		{look.AlwaysLight, theme.VariantDark, false},
		{look.AlwaysDark, theme.VariantLight, true},
	}
	for _, c := range cases {
		th := look.New(c.mode)
		want := look.Light().Paper
		if c.dark {
			want = look.Dark().Paper
		}
		if got := th.Color(theme.ColorNameBackground, c.variant); got != want {
			t.Errorf("mode %v, variant %v: paper %v, want %v", c.mode, c.variant, got, want)
		}
	}
}

func TestCurrentFollowsTheTheme(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.New(look.AlwaysDark))
	if p, dark := look.Current(); !dark || p != look.Dark() {
		t.Errorf("after choosing dark the current palette is dark=%v", dark)
	}
	app.Settings().SetTheme(look.New(look.AlwaysLight))
	if p, dark := look.Current(); dark || p != look.Light() {
		t.Errorf("after choosing light the current palette is dark=%v", dark)
	}
}

func TestSeriesColoursRepeat(t *testing.T) {
	if look.ColorSeries(0) != look.ColorSeries(6) || look.ColorSeries(-1) != look.ColorSeries(5) {
		t.Error("the seventh series should take the first colour again")
	}
	th := look.New(look.AlwaysLight)
	if got := th.Color(look.ColorSeries(1), 0); got != look.Light().Series[1] {
		t.Errorf("series 1 is %v", got)
	}
}

func TestFacesAreOurs(t *testing.T) {
	th := look.New(look.FollowSystem)
	if got := th.Font(fyne.TextStyle{Bold: true}).Name(); got != "TwinloafText-SemiBold.ttf" {
		t.Errorf("bold face is %s", got)
	}
	if got := look.Serif().Name(); got != "TwinloafHeading.ttf" {
		t.Errorf("heading face is %s", got)
	}
}

// What lies over a page stands above it in either look: the veil takes light from the page,
// and the paper of a dialog is lighter than what is beneath the veil.
func TestTheVeilTakesLightFromThePage(t *testing.T) {
	for name, p := range map[string]look.Palette{"light": look.Light(), "dark": look.Dark()} {
		veiled := over(p.Veil, p.Paper)
		if luminance(veiled) >= luminance(p.Paper) {
			t.Errorf("%s: the veiled page is %v, the page %v", name, veiled, p.Paper)
		}
		if r := contrast(p.Raised, veiled); luminance(p.Raised) <= luminance(veiled) || r < 1.15 {
			t.Errorf("%s: a dialog stands out from the veiled page by %.2f only", name, r) // by eye, no source
		}
		if r, before := contrast(over(p.Veil, p.Ink), veiled), contrast(p.Ink, p.Paper); r >= before {
			t.Errorf("%s: text beneath the veil stands out by %.1f, by %.1f without it", name, r, before)
		}
	}
}

// The icon of windows is the one that goes with the program. Where they differ, what was drawn
// is written into a file that the failure names.
func TestIconIsTheDrawing(t *testing.T) {
	test.NewTempApp(t)
	drawn, err := os.ReadFile("../../assets/icon.svg")
	if err != nil {
		t.Fatal(err)
	}
	c := software.NewTransparentCanvas()
	c.SetPadded(false)
	c.SetContent(canvas.NewImageFromResource(fyne.NewStaticResource("icon.svg", drawn)))
	c.Resize(fyne.NewSquareSize(256))
	test.AssertImageMatches(t, "../../../assets/icon.png", c.Capture())
}
