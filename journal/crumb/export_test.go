package crumb_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"image"
	"image/color"
	"math"
	"strconv"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
	"twinloaf/journal/say"
)

func measured(t *testing.T, s phantom.Slice) *crumb.Result {
	t.Helper()
	p, want := drawTruth(t, s)
	r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// boxOutline is a rectangle as an outline.
func boxOutline(r image.Rectangle) crumb.Outline {
	x0, y0, x1, y1 := float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)
	return crumb.Outline{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

func TestMeasuresAsCSV(t *testing.T) {
	r := measured(t, pan(func(s *phantom.Slice) { s.Width, s.Height, s.SliceMM = 190, 180, 66 })) // too few pixels: some withheld
	var b bytes.Buffer
	if err := crumb.WriteMeasures(&b, r.Summary); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+len(crumb.Definitions()) {
		t.Fatalf("%d rows", len(rows))
	}
	withheld := 0
	for _, row := range rows[1:] {
		f := r.Measured(crumb.MeasureID(row[0]))
		if f.Trust == crumb.Withheld {
			withheld++
			if row[2] != "" || row[5] == "" {
				t.Errorf("withheld %s is written %q because %q", row[0], row[2], row[5])
			}
			continue
		}
		v, err := strconv.ParseFloat(row[2], 64)
		if err != nil || math.Abs(v-f.Value) > 1e-5*math.Max(1, f.Value) {
			t.Errorf("%s written %q, is %v", row[0], row[2], f.Value)
		}
	}
	if withheld == 0 {
		t.Error("a photo of 2.4 pixels per mm had nothing withheld")
	}
}

// A table says where a hand helped.
func TestMeasuresSayThatAHandHelped(t *testing.T) {
	for _, c := range []struct {
		name    string
		summary crumb.Summary
		outline string
		hand    string
	}{
		{"nothing found", crumb.Summary{}, "", "0"},
		{"found", crumb.Summary{Outline: boxOutline(image.Rect(0, 0, 9, 9)), FoundByItself: true}, "found", "0"},
		{"chosen", crumb.Summary{Outline: boxOutline(image.Rect(0, 0, 9, 9)), Chosen: true}, "chosen", "0"},
		{"drawn, cells corrected", crumb.Summary{Outline: boxOutline(image.Rect(0, 0, 9, 9)), Corrected: 3}, "drawn", "3"},
	} {
		c.summary.Figures = []crumb.Measurement{{ID: crumb.Porosity, Value: 0.4}}
		var b bytes.Buffer
		if err := crumb.WriteMeasures(&b, c.summary); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatalf("%s: %d rows, %v", c.name, len(rows), err)
		}
		if got := rows[1][9:]; got[0] != c.outline || got[1] != c.hand {
			t.Errorf("%s: outline %q and corrections %q, want %q and %q", c.name, got[0], got[1], c.outline, c.hand)
		}
	}
}

func TestCellsMaskAndFiguresAgree(t *testing.T) {
	r := measured(t, pan(noChange))
	var b bytes.Buffer
	if err := crumb.WriteCells(&b, r); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+r.Counted || rows[0][3] != "area_mm2" {
		t.Fatalf("%d rows for %d cells, header %v", len(rows), r.Counted, rows[0])
	}
	cell, wall := 0, 0
	for _, v := range r.Mask().Pix {
		switch v {
		case 255:
			cell++
		case 96:
			wall++
		}
	}
	if got := float64(cell) / float64(cell+wall); math.Abs(got-r.Measured(crumb.Porosity).Value) > 1e-12 {
		t.Errorf("the mask shows an open share of %v, the figure is %v", got, r.Measured(crumb.Porosity).Value)
	}
	sum := 0.0
	for _, c := range r.Cells {
		sum += c.Area
	}
	if got := sum / r.FaceArea; math.Abs(got-r.Measured(crumb.Porosity).Value) > 1e-9 {
		t.Errorf("the cells make up %v of the face, the figure is %v", got, r.Measured(crumb.Porosity).Value)
	}
}

func TestOverlayLiesOnThePhoto(t *testing.T) {
	p, want := drawTruth(t, pan(noChange))
	r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	red := color.NRGBA{255, 0, 0, 255}
	o := r.Overlay(crumb.Inks{Fill: red, Rim: red, Edge: red, AddIn: red})
	at := r.Placement()
	agree, all := 0, 0
	for y := range o.Rect.Dy() {
		for x := range o.Rect.Dx() {
			px, py := int(at.X+(float64(x)+0.5)*at.Scale), int(at.Y+(float64(y)+0.5)*at.Scale)
			if !image.Pt(px, py).In(p.Photo.Rect) || p.Crumb.GrayAt(px, py).Y == 0 {
				continue
			}
			all++
			if (o.NRGBAAt(x, y).A != 0) == (p.Labels[py*p.Photo.Rect.Dx()+px] != 0) {
				agree++
			}
		}
	}
	if share := float64(agree) / float64(all); share < 0.95 {
		t.Errorf("the overlay agrees with the drawn cells on %.3f of the crumb", share)
	}
	for i, c := range r.Cells[:20] {
		if c.Major < 1.2*c.Minor { // its middle surely lies in it
			if n, ok := r.CellAt(c.At); !ok || n != i {
				t.Errorf("at the middle of cell %d there is %d, %v", i, n, ok)
			}
		}
	}
	if _, ok := r.CellAt(crumb.Point{X: -5, Y: 1e9}); ok {
		t.Error("a cell beyond the photo")
	}
}

func TestSummaryIsPlainData(t *testing.T) {
	r := measured(t, pan(noChange))
	raw, err := json.Marshal(r.Summary)
	if err != nil {
		t.Fatal(err)
	}
	var back crumb.Summary
	if err := json.Unmarshal(raw, &back); err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Figures {
		if back.Measured(f.ID) != f {
			t.Errorf("%s came back as %+v", f.ID, back.Measured(f.ID))
		}
	}
	byNumber, byArea := back.Cumulative()
	if n := len(byNumber) - 1; math.Abs(byNumber[n]-1) > 1e-9 || math.Abs(byArea[n]-1) > 1e-9 {
		t.Errorf("cumulative shares end at %v and %v", byNumber[n], byArea[n])
	}
	whole := 0
	for _, c := range r.Cells {
		if !c.AtEdge {
			whole++
		}
	}
	for _, c := range back.Sizes {
		whole -= c.Count
	}
	if whole != 0 {
		t.Errorf("%d whole cells are in no size class", whole)
	}
}

// The mask for saving lies over the photo pixel by pixel.
func TestTheMaskLiesOverThePhoto(t *testing.T) {
	p, want := drawTruth(t, pan(func(s *phantom.Slice) { s.Width, s.Height = 1200, 1120 }))
	r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	if r.WorkPxPerMM > 0.7*want.PxPerMM {
		t.Fatalf("measured at %v of %v pixels to the mm: the test wants a photo that is made smaller", r.WorkPxPerMM, want.PxPerMM)
	}
	m := r.MaskOver(p.Photo.Rect)
	if m.Rect != p.Photo.Rect {
		t.Fatalf("the mask covers %v of %v", m.Rect, p.Photo.Rect)
	}
	right, cells := 0, 0
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			if _, cell := r.CellAt(crumb.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}); cell != (m.GrayAt(x, y).Y == 255) {
				t.Fatalf("at (%d, %d) the mask says %d", x, y, m.GrayAt(x, y).Y)
			}
			if p.Labels[y*m.Rect.Dx()+x] != 0 {
				cells++
				right += int(m.GrayAt(x, y).Y) / 255
			}
		}
	}
	if float64(right) < 0.9*float64(cells) {
		t.Errorf("of %d pixels of drawn cells the mask shows %d", cells, right)
	}
}

func TestNothingFoundWithholdsEverything(t *testing.T) {
	r, err := crumb.Measure(context.Background(), image.NewGray(image.Rect(0, 0, 200, 150)), 0, crumb.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !flagged(r, crumb.NotFound, crumb.Withheld) || r.Mask() != nil || r.MaskOver(image.Rect(0, 0, 200, 150)) != nil || r.Overlay(crumb.Inks{}) != nil {
		t.Errorf("a black picture: %+v", r.Flags)
	}
	for _, f := range r.Figures {
		if f.Trust != crumb.Withheld {
			t.Errorf("%s is %s", f.ID, f.Trust)
		}
	}
}

func TestErrorsHaveReasons(t *testing.T) {
	grey := image.NewGray(image.Rect(0, 0, 200, 150))
	box := boxOutline(grey.Rect)
	for _, c := range []struct {
		name        string
		img         image.Image
		sensitivity float64
		o           crumb.Options
		want        error
	}{
		{"tiny picture", image.NewGray(image.Rect(0, 0, 9, 900)), 0, crumb.Options{}, crumb.ErrTooSmall},
		{"outline of a line", grey, 0, crumb.Options{Outline: crumb.Outline{{X: 1, Y: 1}, {X: 90, Y: 1}, {X: 40, Y: 1}}}, crumb.ErrOutline},
		{"outline beyond the picture", grey, 0, crumb.Options{Outline: boxOutline(image.Rect(900, 900, 950, 990))}, crumb.ErrOutline},
		{"empty outline", grey, 0, crumb.Options{Outline: crumb.Outline{}}, crumb.ErrOutline},
		{"scale below nought", grey, 0, crumb.Options{PxPerMM: -1, Outline: box}, crumb.ErrScale},
		{"a slice of two metres", grey, 0, crumb.Options{PxPerMM: 0.1, Outline: box}, crumb.ErrScale},
		{"a slice of a millimetre", grey, 0, crumb.Options{PxPerMM: 200, Outline: box}, crumb.ErrScale},
		{"sensitivity", grey, 1.5, crumb.Options{Outline: box}, crumb.ErrSetting},
	} {
		if _, err := crumb.Measure(context.Background(), c.img, c.sensitivity, c.o); !errors.Is(err, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, err, c.want)
		}
	}
	if _, err := crumb.ScaleOf(crumb.Point{}, crumb.Point{X: 100}, 0); !errors.Is(err, crumb.ErrScale) {
		t.Errorf("a true length of nothing: %v", err)
	}
	if k, err := crumb.ScaleOf(crumb.Point{X: 10, Y: 10}, crumb.Point{X: 40, Y: 50}, 5); err != nil || k != 10 {
		t.Errorf("50 pixels for 5 mm: %v, %v", k, err)
	}
}

func TestProgressAndCancelling(t *testing.T) {
	p, want := drawTruth(t, pan(noChange))
	var stages []string
	last := -1.0
	o := crumb.Options{PxPerMM: want.PxPerMM, Progress: func(stage say.Line, share float64) {
		stages = append(stages, stage.String())
		if share < last {
			t.Errorf("%s: progress fell from %g to %g", stage, last, share)
		}
		last = share
	}}
	if _, err := crumb.Measure(context.Background(), p.Photo, 0, o); err != nil {
		t.Fatal(err)
	}
	if last != 1 || len(stages) < 6 {
		t.Errorf("progress ended at %g after %v", last, stages)
	}
	for n := range race.Cases(len(stages)-1, 2) {
		ctx, cancel := context.WithCancel(context.Background())
		seen := 0
		o.Progress = func(say.Line, float64) {
			if seen++; seen > n {
				cancel()
			}
		}
		if _, err := crumb.Measure(ctx, p.Photo, 0, o); !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at %q: %v", stages[n], err)
		}
		cancel()
	}
}

func TestDefinitionsAreComplete(t *testing.T) {
	seen := map[crumb.MeasureID]bool{}
	for _, d := range crumb.Definitions() {
		if d.Name == "" || d.Means == "" || d.Defined == "" || d.Source == "" || seen[d.ID] {
			t.Errorf("definition of %q is incomplete or given twice", d.ID)
		}
		seen[d.ID] = true
		if got, ok := crumb.Define(d.ID); !ok || got != d {
			t.Errorf("Define(%q) gives %+v", d.ID, got)
		}
		if d.Unit == "mm" && d.UnitFor(true) == "mm" {
			t.Errorf("%s keeps mm without a true length", d.ID)
		}
	}
	if len(crumb.MethodSources()) < 5 {
		t.Error("the steps' sources are missing")
	}
}
