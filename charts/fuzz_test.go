package charts_test

import (
	"encoding/binary"
	"math"
	"testing"

	"twinloaf/charts"
)

// FuzzFigures makes every figure from foreign numbers and words. New may refuse
// them; what it takes must be drawn, in reasonable size, with its marks in it.
func FuzzFigures(f *testing.F) {
	seed := func(vs ...float64) []byte {
		var b []byte
		for _, v := range vs {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
		}
		return b
	}
	look := style(f, charts.LightPalette())
	nan, inf := math.NaN(), math.Inf(1)
	f.Add(seed(1, 2, 3, 4, 5, 6), "name", uint16(400), uint16(300), 0.0, 0.0)
	f.Add(seed(1, nan, inf, -inf, 1e300, 5e-324), "<&>\x00", uint16(64), uint16(48), 1.0, 2.0)
	f.Add(seed(1e15, -1e15, 0, 0, 1e-300), "=1", uint16(900), uint16(20), -1.0, 1e14)
	f.Add(seed(1743296400, 1743300000, 1761440400, 1761444000), "𝄞 ½ パン", uint16(640), uint16(480), 0.0, 0.0)
	f.Fuzz(func(t *testing.T, data []byte, name string, w, h uint16, low, high float64) {
		var xs, ys []float64
		for i := 0; len(data) >= 8 && i < 400; i++ {
			v := math.Float64frombits(binary.LittleEndian.Uint64(data))
			data = data[8:]
			if i%2 == 0 {
				xs = append(xs, v)
			} else {
				ys = append(ys, v)
			}
		}
		xs = xs[:len(ys)]
		width, height := 1+int(w)%700, 1+int(h)%500
		for _, fig := range foreign(t, xs, ys, name, low, high) {
			if _, err := charts.New(fig, look); err != nil {
				continue
			}
			pic := drawn(t, fig, width, height, 1)
			for _, m := range pic.Marks {
				if !(m.X >= -1 && m.Y >= -1 && m.X <= float64(width)+1 && m.Y <= float64(height)+1) {
					t.Errorf("%T: the mark %q lies at (%v, %v) of %d by %d", fig, m.Text, m.X, m.Y, width, height)
				}
			}
		}
	})
}

func foreign(t *testing.T, xs, ys []float64, name string, low, high float64) []charts.Spec {
	y := charts.Axis{Title: name, Min: low, Max: high}
	layers := []charts.Layer{
		charts.Band{From: low, To: high, Label: name},
		charts.Level{At: low, Label: name},
		charts.Events{Name: name, X: xs},
		charts.Ribbon{X: xs, Low: ys, High: xs},
		charts.Series{Name: name, X: xs, Y: ys, Gap: high},
		charts.Series{Name: name, X: xs, Y: ys, Draw: charts.Steps},
	}
	if !finite(low) || !finite(high) || high < low {
		layers = layers[2:]
	}
	out := []charts.Spec{
		charts.Plot{Panels: []charts.Panel{{Title: name, Y: y, Layers: layers}, {Layers: layers}}},
		charts.Plot{X: charts.Axis{Zone: berlin(t)}, Panels: []charts.Panel{{Layers: layers}}},
		charts.Groups{Title: name, Y: y, Groups: []charts.Group{{Name: name, Values: xs}, {Values: ys}}},
	}
	bars := charts.Bars{Title: name}
	rows := charts.Pairs{Scale: y}
	slopes := charts.Slopes{Y: y}
	lane := charts.Lane{Name: name}
	for i := range xs {
		bars.Bars = append(bars.Bars, charts.Bar{Name: name, Value: xs[i]})
		rows.Rows = append(rows.Rows, charts.Pair{Name: name, A: xs[i], B: ys[i], Note: name})
		slopes.Pairs = append(slopes.Pairs, [2]float64{xs[i], ys[i]})
		lane.Ticks = append(lane.Ticks, charts.Tick{At: xs[i]})
		if finite(xs[i]) && finite(ys[i]) {
			lane.Blocks = append(lane.Blocks, charts.Block{From: min(xs[i], ys[i]), To: max(xs[i], ys[i]), Label: name, Planned: i%2 == 0})
		}
	}
	return append(out, bars, rows, slopes, charts.Lanes{Lanes: []charts.Lane{lane}}, charts.Lanes{X: charts.Axis{Zone: berlin(t)}, Lanes: []charts.Lane{lane}})
}

func finite(v float64) bool { return math.Abs(v) <= 1e15 }
