package jar_test

import (
	"context"
	"errors"
	"image"
	"math"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
	"twinloaf/journal/journaltest/race"
)

// plain is a short series in good light.
func plain(frames int) *jartest.Scene {
	return (&jartest.Scene{
		Seed: 5, Frames: frames, Every: 6 * time.Minute, Start: time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC), Peak: 2.1,
		ToPeak: time.Duration(frames) * 4 * time.Minute, Noise: 1.5,
	}).Begin()
}

// Two jars stand side by side: each has its own curve, by the same clock.
func TestTwoJarsInOnePicture(t *testing.T) {
	fast, slow := plain(24), plain(24)
	slow.Seed, slow.Peak, slow.ToPeak = 6, 1.5, 2*fast.ToPeak
	slow.Begin()
	load := func(_ context.Context, i int) (*image.RGBA, error) { return jartest.Beside(i, fast, slow), nil }
	jobs := []jar.Job{{Marks: fast.MarksBeside(0, 2)}, {Marks: slow.MarksBeside(1, 2)}}
	curves, err := jar.Follow(t.Context(), fast.Times(), load, jobs)
	if err != nil {
		t.Fatal(err)
	}
	for k, s := range []*jartest.Scene{fast, slow} {
		if j := judge(s, curves[k]); j.median > 0.01 || j.given > 0 {
			t.Errorf("jar %d: %+v", k+1, j)
		}
	}
}

// A height that is drawn by hand holds, and what is beside it follows.
func TestAHeightDrawnByHandHolds(t *testing.T) {
	s := plain(16)
	c := followed(t, s, map[int]float64{8: 1.9})
	if p := c.Points[8]; p.Rise != 1.9 || !p.Fixed || p.Lost != jar.Kept {
		t.Errorf("%+v", p)
	}
	for _, i := range []int{2, 14} { // far from it nothing changes
		if math.Abs(c.Points[i].Rise-s.Rise(i)) > 0.02 {
			t.Errorf("picture %d: %+v, truly %.3f", i, c.Points[i], s.Rise(i))
		}
	}
}

// It is cancelled between two pictures, tells how far it is, and says which picture
// could not be read.
func TestFollowingEnds(t *testing.T) {
	s := plain(12)
	jobs := []jar.Job{{Marks: s.Marks()}}
	ctx, cancel := context.WithCancel(t.Context())
	var read atomic.Int32
	_, err := jar.Follow(ctx, s.Times(), func(_ context.Context, i int) (*image.RGBA, error) {
		if read.Add(1) == 4 {
			cancel()
		}
		return s.Picture(i), nil
	}, jobs)
	if !errors.Is(err, context.Canceled) || read.Load() > 8 {
		t.Errorf("cancelled after %d pictures: %v", read.Load(), err)
	}
	broken := errors.New("cut short")
	_, err = jar.Follow(t.Context(), s.Times(), func(_ context.Context, i int) (*image.RGBA, error) {
		if i == 5 {
			return nil, broken
		}
		return s.Picture(i), nil
	}, jobs)
	if !errors.Is(err, broken) {
		t.Errorf("a broken picture: %v", err)
	}
	_, err = jar.Follow(t.Context(), s.Times(), func(_ context.Context, i int) (*image.RGBA, error) {
		if i == 3 {
			return image.NewRGBA(image.Rect(0, 0, 100, 100)), nil
		}
		return s.Picture(i), nil
	}, jobs)
	if !errors.Is(err, jar.ErrSeries) {
		t.Errorf("a picture of another size: %v", err)
	}
	same := s.Times()[:3]
	same[2] = same[1]
	if _, err := jar.Follow(t.Context(), same, func(_ context.Context, i int) (*image.RGBA, error) { return s.Picture(i), nil }, jobs); !errors.Is(err, jar.ErrSeries) {
		t.Errorf("two pictures at one moment: %v", err)
	}
}

// A level that lies half-way up a row of pixels is no whole row: what stands twice as high is
// twice as high.
func TestALevelBetweenTwoRows(t *testing.T) {
	const wide, high, bottom, level = 160, 200, 180, 20.5
	r := rand.New(rand.NewPCG(1, 2))
	var behind [high * wide]uint8
	for i := range behind {
		behind[i] = uint8(40 + r.IntN(60))
	}
	picture := func(i int) *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, wide, high))
		up := level * (1 + float64(i)/10)
		for y := range high {
			for x := range wide {
				part := 0.0 // of the pixel that is dough
				if x >= 40 && x < 120 && y < bottom {
					part = math.Max(0, math.Min(1, float64(y+1)-(bottom-up)))
				}
				c := float64(behind[y*wide+x])
				p := img.Pix[img.PixOffset(x, y):]
				p[0], p[1], p[2], p[3] = uint8(c+part*(220-c)), uint8(c+part*(200-c)), uint8(c+part*(165-c)), 255
			}
		}
		return img
	}
	var at []time.Time
	for i := range 11 {
		at = append(at, time.Date(2026, 3, 4, 9, 10*i, 0, 0, time.UTC))
	}
	marks := jar.Marks{Left: 0.25, Right: 0.75, Bottom: bottom / float64(high), Level: (bottom - level) / high, Top: 0.1}
	curves, err := jar.Follow(t.Context(), at, func(_ context.Context, i int) (*image.RGBA, error) { return picture(i), nil }, []jar.Job{{Marks: marks}})
	if err != nil {
		t.Fatal(err)
	}
	if p := curves[0].Points[10]; p.Lost != jar.Kept || math.Abs(p.Rise-2) > 0.02 {
		t.Errorf("twice as high is read as %.3f ± %.3f %s", p.Rise, p.SD, p.Lost)
	}
}

func TestMarksAreChecked(t *testing.T) {
	s := plain(1)
	good := s.Marks()
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(*jar.Marks){
		"sides turned round":   func(m *jar.Marks) { m.Left, m.Right = m.Right, m.Left },
		"level below bottom":   func(m *jar.Marks) { m.Level = m.Bottom + 0.01 },
		"no room above":        func(m *jar.Marks) { m.Top = m.Level },
		"outside the picture":  func(m *jar.Marks) { m.Right = 1.2 },
		"too small to measure": func(m *jar.Marks) { m.Top, m.Level, m.Bottom = 0.50, 0.52, 0.54 },
	} {
		m := good
		change(&m)
		if _, err := jar.NewTracker(s.Picture(0), m); !errors.Is(err, jar.ErrMarks) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, rise := range []float64{0, 1, 2.3} {
		if got := good.Rise(good.Height(rise)); math.Abs(got-rise) > 1e-12 {
			t.Errorf("a rise of %g is one of %g", rise, got)
		}
	}
}

// Sides and level are found on most first pictures: a guess, to be looked at.
func TestTheJarIsFound(t *testing.T) {
	found, jars := 0, race.Cases(12, 2)
	for seed := range uint64(jars) {
		s := jartest.Random(seed, 60)
		m, ok := jar.Find(s.Picture(0))
		want := s.Marks()
		near := func(a, b float64) bool { return math.Abs(a-b) < 0.025 }
		if ok && near(m.Left, want.Left) && near(m.Right, want.Right) && near(m.Level, want.Level) && near(m.Bottom, want.Bottom) {
			found++
		} else {
			t.Logf("seed %d: %v %+v", seed, ok, m)
		}
	}
	t.Logf("%d of %d", found, jars)
	if 4*found < 3*jars {
		t.Errorf("%d of %d jars were found", found, jars)
	}
	// Of two jars side by side it is one of them, and then the other, not what is between.
	both := 0
	for seed := range uint64(jars) {
		one, two := jartest.Random(2*seed, 60), jartest.Random(2*seed+1, 60)
		img := jartest.Beside(0, one, two)
		where := func(m jar.Marks) int {
			for k, s := range []*jartest.Scene{one, two} {
				want := s.MarksBeside(k, 2)
				if math.Abs(m.Left-want.Left) < 0.02 && math.Abs(m.Right-want.Right) < 0.02 && math.Abs(m.Level-want.Level) < 0.025 && math.Abs(m.Bottom-want.Bottom) < 0.025 {
					return k + 1
				}
			}
			return 0
		}
		m, _ := jar.Find(img)
		n, _ := jar.Find(img, m)
		if a, b := where(m), where(n); a+b == 3 {
			both++
		} else {
			t.Logf("jars %d: %d %+v, %d %+v", seed, a, m, b, n)
		}
		if mid := (m.Left + m.Right) / 2; mid > 0.42 && mid < 0.58 {
			t.Errorf("jars %d: between them it finds %+v", seed, m)
		}
	}
	t.Logf("both of %d of %d", both, jars)
	if 4*both < 3*jars {
		t.Errorf("both jars were found %d of %d times", both, jars)
	}
	if m, ok := jar.Find(image.NewRGBA(image.Rect(0, 0, 200, 200))); ok {
		t.Errorf("on a black picture it finds %+v", m)
	}
}
