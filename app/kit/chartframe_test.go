package kit_test

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/charts"
)

func rises() charts.Plot {
	return charts.Plot{
		X: charts.Axis{Title: "day of age", Whole: true},
		Panels: []charts.Panel{{
			Y:      charts.Axis{Ratio: true, Include: []float64{1}},
			Layers: []charts.Layer{charts.Series{Name: "Gorse", X: []float64{1, 2, 3, 4}, Y: []float64{1, 1.4, math.NaN(), 2.1}}},
		}},
	}
}

// drawn shows a figure and waits until its picture is there.
func drawn(t *testing.T, f *kit.ChartFrame, figure charts.Spec) fyne.Window {
	t.Helper()
	win := window(t, f, 500, 300)
	f.SetSpec(figure)
	win.Canvas().Capture()
	f.Wait()
	return win
}

func TestChartFrameReadsAndOpensMarks(t *testing.T) {
	f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(200, 100))
	var opened []string
	f.OnMark = func(m charts.Mark) { opened = append(opened, m.Text) }
	drawn(t, f, rises())
	if !strings.Contains(f.Summary(), "Gorse") {
		t.Errorf("its summary is %q", f.Summary())
	}
	f.TypedKey(key(fyne.KeyRight))
	first, ok := f.Marked()
	if !ok {
		t.Fatal("an arrow marks nothing")
	}
	f.TypedKey(key(fyne.KeyReturn))
	f.MouseOut()
	scale := 1.0
	at := fyne.NewPos(float32(first.X/scale)+2, float32(first.Y/scale)-1)
	f.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
	if m, ok := f.Marked(); !ok || m.Text != first.Text {
		t.Errorf("near the mark the pointer reads %q", m.Text)
	}
	test.TapAt(f, at)
	if len(opened) != 2 || opened[0] != first.Text || opened[1] != first.Text {
		t.Errorf("opened %q", opened)
	}
	f.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(499, 1)}})
	if _, ok := f.Marked(); ok {
		t.Error("bare paper reads a value")
	}
}

func TestChartFrameDrawsAgainForAnotherFigureAndTheme(t *testing.T) {
	f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(200, 100))
	win := drawn(t, f, rises())
	light := win.Canvas().Capture().At(5, 150)
	test.ApplyTheme(t, look.New(look.AlwaysDark))
	defer test.ApplyTheme(t, look.New(look.AlwaysLight))
	f.Refresh()
	win.Canvas().Capture()
	f.Wait()
	if dark := win.Canvas().Capture().At(5, 150); dark == light {
		t.Errorf("after the change to dark the paper is still %v", dark)
	}
	f.SetSpec(charts.Bars{Bars: []charts.Bar{{Name: "Spelt", Value: 38}, {Name: "Rye", Value: 9}}})
	win.Canvas().Capture()
	f.Wait()
	if !strings.Contains(f.Summary(), "Spelt") {
		t.Errorf("after another figure the summary is %q", f.Summary())
	}
}

func TestChartFrameSurvivesAFigureThatCannotBeDrawn(t *testing.T) {
	bad := rises()
	bad.Panels[0].Layers = []charts.Layer{charts.Series{Name: "Crooked", X: []float64{1, 2}, Y: []float64{1}}}
	f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(200, 100))
	win := drawn(t, f, bad)
	win.Canvas().Capture()
	f.Wait()
	f.TypedKey(key(fyne.KeyRight))
	if _, ok := f.Marked(); ok {
		t.Error("there are marks in a chart that was not drawn")
	}
	f.SetSpec(rises())
	win.Canvas().Capture()
	f.Wait()
	if f.Summary() == "" {
		t.Error("a good figure after a bad one is not drawn")
	}
}

func TestChartFrameSavesAndCopies(t *testing.T) {
	f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(200, 100))
	f.Name = "gorse-rise"
	saved := map[string][]byte{}
	f.OnSave = func(name string, write func(io.Writer) error) {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Errorf("writing %s: %v", name, err)
		}
		saved[name] = b.Bytes()
	}
	drawn(t, f, rises())
	for _, item := range f.Menu() {
		item.Action()
		if strings.HasPrefix(item.Label, "Copy the figures") {
			if got := fyne.CurrentApp().Clipboard().Content(); !strings.Contains(got, "1.4") || strings.HasPrefix(got, "\ufeff") {
				t.Errorf("copied %q", got)
			}
		}
	}
	if !bytes.HasPrefix(saved["gorse-rise.png"], []byte("\x89PNG")) || !bytes.Contains(saved["gorse-rise.svg"], []byte("<svg")) {
		t.Errorf("saved %d files", len(saved))
	}
	if got := string(saved["gorse-rise.csv"]); !strings.HasPrefix(got, "\ufeff") || !strings.Contains(got, "1.4") {
		t.Errorf("the figures saved are %q", got)
	}
	if got := fyne.CurrentApp().Clipboard().Content(); !strings.Contains(got, "Gorse") {
		t.Errorf("copied in words: %q", got)
	}
}
