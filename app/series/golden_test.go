package series

import (
	"image"
	"image/color"
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// The film as it looks: the strips side by side, the picture at hand in its frame, and a mark
// below each that was lost. Fyne compares with a tolerance and writes what differs to
// testdata/failed.
func TestTheFilmLooks(t *testing.T) {
	const n, wide, high = 24, 6, 60
	film := image.NewRGBA(image.Rect(0, 0, n*wide, high))
	lost := make([]bool, n)
	for i := range n {
		lost[i] = i == 9 || i == 10
		for y := range high {
			c := color.RGBA{110, 125, 130, 255}
			if y > high-20-i*i/20 {
				c = color.RGBA{220, 200, 165, 255}
			}
			for x := range wide {
				film.SetRGBA(i*wide+x, y, c)
			}
		}
	}
	for name, mode := range map[string]look.Mode{"film-light.png": look.AlwaysLight, "film-dark.png": look.AlwaysDark} {
		test.ApplyTheme(t, look.New(mode))
		f := newFilmstrip(func(int) {})
		f.set(film, n, lost)
		f.show(16)
		f.Resize(fyne.NewSize(480, 120))
		test.AssertObjectRendersToImage(t, name, f)
	}
	test.ApplyTheme(t, look.New(look.AlwaysLight))
}

// The curves of two jars as they look in their frame: the band about each, the gap where nothing
// was seen, a height that was drawn, and the picture at hand.
func TestTheCurveLooks(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	curves := make([]journal.SeriesCurve, 2)
	for i := range 40 {
		h := float64(i) / 6
		for k, rise := range []float64{1 + 1.2*math.Exp(-(h-3.5)*(h-3.5)/3), 1 + 0.6*math.Exp(-(h-5)*(h-5)/5)} {
			p := journal.SeriesPoint{At: start.Add(time.Duration(i) * 10 * time.Minute), Rise: rise, SD: 0.02 + 0.02*float64(k)}
			if i > 24 && i < 28 {
				p = journal.SeriesPoint{At: p.At, Lost: jar.Covered}
			}
			p.Drawn = k == 0 && i == 14
			curves[k].Points = append(curves[k].Points, p)
		}
	}
	spec := pages.RiseCurves{Curves: curves, Names: []string{"Gorse", "Harbour"}, At: 33, Zone: time.UTC,
		Looks: []charts.SeriesStyle{{Hue: charts.Hue(0), Shape: charts.Square}, {Hue: charts.Hue(1)}}}.Plot(measure.Units{})
	for name, mode := range map[string]look.Mode{"curve-light.png": look.AlwaysLight, "curve-dark.png": look.AlwaysDark} {
		test.ApplyTheme(t, look.New(mode))
		f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(320, 300))
		win := test.NewWindow(f)
		win.Resize(fyne.NewSize(505, 300))
		f.SetSpec(spec)
		win.Canvas().Capture()
		f.Wait()
		test.AssertRendersToImage(t, name, win.Canvas())
		win.Close()
	}
	test.ApplyTheme(t, look.New(look.AlwaysLight))
}
