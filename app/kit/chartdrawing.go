package kit

import (
	"image/color"

	"twinloaf/app/look"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// chartWish says what picture is wanted. Figures are not compared: the drawing counts
// how often it was given another one.
type chartWish struct {
	figure  charts.Spec
	w, h    int
	scale   float64
	palette look.Palette
	units   measure.Units
}

func (a chartWish) same(b chartWish) bool {
	return a.w == b.w && a.h == b.h && a.scale == b.scale && a.palette == b.palette && a.units == b.units
}

// chartDrawing draws one picture at a time on a goroutine. Its fields belong to the
// main goroutine; a wish that comes while one is drawn replaces the one before it.
type chartDrawing struct {
	main  Main
	ready func()
	chart *charts.Chart
	shown charts.Picture
	has   chartWish
	valid bool // shown fits has, and the figure
	busy  bool
	round int // counts figures: a picture of an earlier one is thrown away
	done  chan struct{}
	err   error
}

func (d *chartDrawing) forget() {
	d.valid, d.err = false, nil
	d.round++
}

// want asks for a picture unless it is there.
func (d *chartDrawing) want(w chartWish) {
	if d.busy || d.valid && d.has.same(w) {
		return
	}
	d.busy = true
	done := make(chan struct{})
	d.done = done
	round := d.round
	go func() {
		chart, pic, err := drawChart(w)
		d.main(func() {
			d.busy = false
			d.install(w, round, chart, pic, err)
		})
		close(done)
	}()
}

func (d *chartDrawing) install(w chartWish, round int, chart *charts.Chart, pic charts.Picture, err error) {
	if round == d.round {
		d.has, d.valid, d.err = w, true, err
		if err == nil {
			d.chart, d.shown = chart, pic
		}
	}
	d.ready() // draws again, and with that asks for what is still wanted
}

// wait is for tests: it blocks until no picture is being drawn.
func (d *chartDrawing) wait() {
	for done := d.done; done != nil; {
		<-done
		d.main.settle()
		if d.done == done {
			return
		}
		done = d.done
	}
}

func drawChart(w chartWish) (*charts.Chart, charts.Picture, error) {
	chart, err := chartIn(w.palette, w.units, w.figure)
	if err != nil {
		return nil, charts.Picture{}, err
	}
	pic, err := chart.Image(w.w, w.h, w.scale)
	return chart, pic, err
}

func chartIn(p look.Palette, u measure.Units, figure charts.Spec) (*charts.Chart, error) {
	style, err := ChartStyle(p, u)
	if err != nil {
		return nil, err
	}
	return charts.New(figure, style)
}

// PrintedChart is a chart as it is saved and printed: on light paper.
func PrintedChart(figure charts.Spec, u measure.Units) (*charts.Chart, error) {
	return chartIn(look.Light(), u, figure)
}

// ChartStyle is how charts look in a palette and are written in units: for pictures
// drawn without a frame, such as those of a report.
func ChartStyle(p look.Palette, u measure.Units) (charts.Style, error) {
	regular, bold := look.ChartFaces()
	style, err := charts.NewStyle(chartPalette(p), regular, bold)
	style.Words = charts.Words{Locale: u.Locale()}
	return style, err
}

func chartPalette(p look.Palette) charts.Palette {
	return charts.Palette{
		Paper: p.Paper, Ink: p.Ink, Faint: p.Faint, Rule: p.Rule, Accent: p.Crust,
		Series: append([]color.NRGBA(nil), p.Series[:]...),
	}
}
