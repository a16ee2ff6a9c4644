package main

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"twinloaf/assets/demo/plates"
	"twinloaf/cmd/demopictures/scene"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/journaltest/race"
)

// What the program carries is what this command draws: all of it is listed, and one of
// each kind is drawn once more, but for cut faces. Where the processor rounds otherwise, a level or two may
// differ.
func TestTheProgramCarriesWhatIsDrawn(t *testing.T) {
	carried, err := plates.All()
	if err != nil {
		t.Fatal(err)
	}
	all := wanted()
	if len(all) != len(carried) {
		t.Fatalf("%d pictures are to be drawn, %d are carried", len(all), len(carried))
	}
	var again []picture
	seen := map[journal.Role]bool{}
	for i, p := range all {
		if c := carried[i]; p.File != c.File || p.Role != c.Role || p.Of != c.Of || p.Level != c.Level {
			t.Errorf("carried is %+v, to be drawn %+v", c, p.Plate)
		}
		if !seen[p.Role] && p.slice == nil {
			seen[p.Role] = true
			again = append(again, p)
		}
	}
	dir := t.TempDir()
	if err := draw(t.Context(), dir, race.Few(again, 1), ""); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(dir, plates.Index))
	if err != nil {
		t.Fatal(err)
	}
	var drawn []plates.Plate
	if err := json.Unmarshal(text, &drawn); err != nil {
		t.Fatal(err)
	}
	for _, d := range drawn {
		for _, c := range carried {
			if c.File == d.File && !reflect.DeepEqual(c, d) {
				t.Errorf("carried is %+v, drawn %+v", c, d)
			}
		}
		jpg, err := os.ReadFile(filepath.Join(dir, d.File))
		if err != nil {
			t.Fatal(err)
		}
		old, err := d.JPEG()
		if err != nil {
			t.Fatal(err)
		}
		if off := apart(t, jpg, old); off > 2 {
			t.Errorf("%s differs by %.1f levels from the one that is carried: go run ./cmd/demopictures", d.File, off)
		}
	}
}

// Drawn anew are those that are asked for and those that are not there yet.
func TestOnlySomeAreDrawnAnew(t *testing.T) {
	drawn := ""
	named := func(file string) picture {
		return picture{Plate: plates.Plate{File: file}, paint: func(_ context.Context, _ *scene.Painter, p *plates.Plate) (image.Image, error) {
			drawn += file + " "
			p.Open = 0.5
			return image.NewGray(image.Rect(0, 0, 3, 2)), nil
		}}
	}
	dir := t.TempDir()
	const old = `[{"file":"crust.jpg","level":3},{"file":"crumb.jpg","level":4}]`
	if err := os.WriteFile(filepath.Join(dir, plates.Index), []byte(old), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := draw(t.Context(), dir, []picture{named("crust.jpg"), named("crumb.jpg"), named("jar.jpg")}, "crumb"); err != nil {
		t.Fatal(err)
	}
	if drawn != "crumb.jpg jar.jpg " {
		t.Errorf("drawn are %s", drawn)
	}
	text, err := os.ReadFile(filepath.Join(dir, plates.Index))
	if err != nil {
		t.Fatal(err)
	}
	var listed []plates.Plate
	if err := json.Unmarshal(text, &listed); err != nil || len(listed) != 3 || listed[0].Level != 3 || listed[1].Open != 0.5 {
		t.Errorf("%+v, %v", listed, err)
	}
}

// A traced picture shows the slice that its description makes, two of them looked at: its
// figures are listed, it is darker where the cut opened a bubble than beside it, and what is
// measured of it is as open as the slice was made, within what the measuring gives as its own
// uncertainty where cells are seen in part, 0.13.
func TestTracedPicturesShowTheirSlices(t *testing.T) {
	carried, err := plates.All()
	if err != nil {
		t.Fatal(err)
	}
	n, enough := 0, race.Cases(2, 1)
	for i, p := range wanted() {
		if p.slice == nil || n == enough { // making one takes seconds
			continue
		}
		n++
		truth := p.slice.Bake()
		known := knowing(p.Plate, truth)
		if c := carried[i]; !reflect.DeepEqual(c.Width, known.Width) || c.Open != known.Open {
			t.Errorf("%s: carried is %+v, %v, made %+v, %v", p.File, c.Width, c.Open, known.Width, known.Open)
		}
		jpg, err := p.JPEG()
		if err != nil {
			t.Fatal(err)
		}
		img, err := jpeg.Decode(bytes.NewReader(jpg))
		if err != nil {
			t.Fatal(err)
		}
		var sum, count [2]float64
		for y := 0; y < sliceH; y += 3 {
			for x := 0; x < sliceW; x += 3 {
				open, crumb := truth.Opened(float64(x), float64(y))
				if !crumb {
					continue
				}
				k := 0
				if open {
					k = 1
				}
				_, g, _, _ := img.At(x, y).RGBA()
				sum[k] += float64(g) / 257
				count[k]++
			}
		}
		if wall, cell := sum[0]/count[0], sum[1]/count[1]; wall < 1.25*cell {
			t.Errorf("%s: walls are %.0f bright, cells %.0f", p.File, wall, cell)
		}
		r, err := crumb.Measure(t.Context(), img, 0, crumb.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Measured(crumb.Porosity); got.Trust == crumb.Withheld || math.Abs(got.Value-truth.Open) > 0.13 {
			t.Errorf("%s: measured %+v, made %.3f", p.File, got, truth.Open)
		}
	}
	if n < enough {
		t.Errorf("%d are traced", n)
	}
}

// apart is how far two pictures are from one another, in grey levels of 256 on average.
func apart(t *testing.T, a, b []byte) float64 {
	t.Helper()
	x, err := jpeg.Decode(bytes.NewReader(a))
	if err != nil {
		t.Fatal(err)
	}
	y, err := jpeg.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if x.Bounds() != y.Bounds() {
		t.Fatalf("%v and %v", x.Bounds(), y.Bounds())
	}
	sum, n := 0.0, 0
	for py := 0; py < x.Bounds().Dy(); py += 3 {
		for px := 0; px < x.Bounds().Dx(); px += 3 {
			_, g, _, _ := x.At(px, py).RGBA()
			_, h, _, _ := y.At(px, py).RGBA()
			sum += float64(max(g, h)-min(g, h)) / 257
			n++
		}
	}
	return sum / float64(n)
}
