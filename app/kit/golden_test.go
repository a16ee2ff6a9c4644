package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/journal/measure"
)

// The few pictures kept are of what behaviour cannot show: weights, spaces, colours.
// Fyne compares them with a tolerance (four steps in a hundredth of the bytes) and
// writes what differs to testdata/failed.
func TestLooks(t *testing.T) {
	score := kit.NewScoreRow("Crust crispness", "soft", "shattering", nil)
	score.SetScore(4)
	figure := kit.NewFigureField(kit.FigureOptions{Label: "Water", Measure: measure.Units{}.Weight(), Large: true, Origin: "72 %"})
	figure.SetValue(684)
	page := kit.Stack(4,
		kit.Eyebrow("Wednesday 4 March, 08:54 · kitchen 21 °C"),
		kit.Heading("Turn the dough in 12 minutes"),
		kit.Rule(),
		kit.Row(4, kit.GreatFigure("11:48"), kit.Stack(0, kit.Body("to turn 4 of 6"), kit.Small("dough 24.6 °C at turn 3"))),
		kit.Row(2.5, kit.PrimaryButton("Done now", nil).WithKey("D"), kit.NewButton("Later", nil), kit.QuietButton("Skip", nil)),
		kit.Flow(2, kit.NewKeyHint("D", "done"), kit.NewKeyHint("L", "ten minutes later")),
		kit.Flow(2, kit.NewPill("spelt ≥ 15 %", func() {}), kit.NewLink("save this view", nil)),
		figure, score,
	)
	for name, mode := range map[string]look.Mode{"page-light.png": look.AlwaysLight, "page-dark.png": look.AlwaysDark} {
		test.ApplyTheme(t, look.New(mode))
		framed := kit.NewFrame(maintest.New().Do, page)
		framed.Resize(fyne.NewSize(560, 520))
		page.Refresh()
		test.AssertObjectRendersToImage(t, name, framed)
	}
	test.ApplyTheme(t, look.New(look.AlwaysLight))
}
