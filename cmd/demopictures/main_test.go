package main

import (
	"bytes"
	"encoding/json"
	"image/jpeg"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"twinloaf/assets/demo/plates"
	"twinloaf/journal"
)

// What the program carries is what this command draws: all of it is listed, and one of
// each kind is drawn once more. Where the processor rounds otherwise, a level or two may
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
		if !seen[p.Role] {
			seen[p.Role] = true
			again = append(again, p)
		}
	}
	dir := t.TempDir()
	if err := draw(t.Context(), dir, again); err != nil {
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
