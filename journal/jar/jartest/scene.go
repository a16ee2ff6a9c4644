// Package jartest makes up pictures of a jar in which something rises, as a phone on a
// stack of books would take them, with the truth of each known exactly.
package jartest

import (
	"image"
	"math"
	"math/rand/v2"
	"time"

	"twinloaf/journal/jar"
)

// A Course is how something in a jar behaves.
type Course int

// The courses.
const (
	Rises     Course = iota // up to a peak, and slowly down
	Never                   // it hardly rises
	Collapses               // up to a peak, and down within half an hour
	Stirred                 // as it rises, it is stirred down, and rises again
)

// A Scene is a series of pictures. Its zero value is a plain one of no pictures.
type Scene struct {
	Seed   uint64
	Frames int
	Every  time.Duration
	Start  time.Time
	Course Course
	// Peak is the height at the most, in first heights, and ToPeak how long it takes.
	Peak   float64
	ToPeak time.Duration

	Label        bool // on the glass, over a part of the width
	Reflections  bool
	Residue      bool // what has fallen leaves a film and a ridge
	Condensation bool // grows below the rim
	Night        bool // daylight goes, and later a lamp goes on
	Hand         bool // reaches in on some pictures
	Nudge        bool // the camera is pushed once
	Breathing    bool // autofocus scales the picture a little, back and forth
	Lid          bool // is laid on after some pictures
	Noise        float64
	// Sticks is the part of what moves of the dough that its texture does not go along with: at 1 it
	// hangs on to the glass, and only the surface moves.
	Sticks float64

	hands, dark map[int]bool
	behind      []rgb // the backdrop, in finer samples
	nudgeAt     int
	lidAt       int
}

// The jar in the picture, in parts of its width and height.
var marks = jar.Marks{Left: 0.32, Right: 0.68, Bottom: 0.9, Level: 0.68, Top: 0.16}

// Size of the pictures, in pixels.
const (
	Width  = 240
	Height = 320
)

// Random is a scene of so many pictures with everything drawn from its number.
func Random(seed uint64, frames int) *Scene {
	r := rand.New(rand.NewPCG(seed, 19))
	yes := func() bool { return r.IntN(2) == 0 }
	s := &Scene{
		Seed: seed, Frames: frames, Every: 5 * time.Minute, Start: time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC),
		Course: []Course{Rises, Rises, Rises, Never, Collapses, Stirred}[r.IntN(6)],
		Peak:   1.6 + 1.3*r.Float64(), Label: yes(), Reflections: yes(), Residue: yes(), Condensation: yes(), Night: yes(),
		Hand: yes(), Nudge: yes(), Breathing: yes(), Lid: yes(), Noise: 1 + 3*r.Float64(),
	}
	s.ToPeak = time.Duration((0.4 + 0.35*r.Float64()) * float64(s.Every) * float64(frames))
	return s.Begin()
}

// Begin draws when the things happen that are to happen.
func (s *Scene) Begin() *Scene {
	r := rand.New(rand.NewPCG(s.Seed, 23))
	s.hands, s.dark = map[int]bool{}, map[int]bool{}
	s.behind = make([]rgb, finer*Width*finer*Height)
	for i := range s.behind {
		s.behind[i] = kitchen(s.Seed, (float64(i%(finer*Width))+0.5)/(finer*Width), (float64(i/(finer*Width))+0.5)/(finer*Height))
	}
	if s.Hand {
		for range max(1, s.Frames/40) {
			at := 4 + r.IntN(max(1, s.Frames-8))
			for k := range 1 + r.IntN(3) {
				s.hands[at+k] = true
			}
		}
	}
	s.nudgeAt, s.lidAt = s.Frames*2/5+r.IntN(10), 2+r.IntN(4)
	if s.Night {
		for i := range s.Frames {
			if s.daylight(i) < 0.03 && !s.lamp(i) {
				s.dark[i] = true
			}
		}
	}
	return s
}

// Marks are where the jar is on the first picture, as a person would draw them.
func (s *Scene) Marks() jar.Marks { return marks }

// At is when a picture was taken.
func (s *Scene) At(i int) time.Time { return s.Start.Add(time.Duration(i) * s.Every) }

// Times are all of them.
func (s *Scene) Times() []time.Time {
	out := make([]time.Time, s.Frames)
	for i := range out {
		out[i] = s.At(i)
	}
	return out
}

// Lost reports whether nobody could tell the height on a picture.
func (s *Scene) Lost(i int) bool { return s.hands[i] || s.dark[i] }

// Rise is the true height, in first heights.
func (s *Scene) Rise(i int) float64 { return s.riseAfter(time.Duration(i) * s.Every) }

func (s *Scene) riseAfter(d time.Duration) float64 {
	t := d.Hours() / s.ToPeak.Hours() // 1 is the peak
	rise := func(t float64) float64 {
		// A smooth step that is level at both ends.
		x := max(0, min(1, (t-0.12)/0.88))
		return 1 + (s.Peak-1)*x*x*(3-2*x)
	}
	switch {
	case s.Course == Never:
		return 1 + 0.06*min(1, t)
	case s.Course == Stirred && t >= 0.7:
		return 1 + (rise(t-0.7+0.12)-1)*0.7
	case t <= 1:
		return rise(t)
	case s.Course == Collapses:
		over := (d - s.ToPeak).Hours() / 0.5
		return s.Peak - (s.Peak-1.15)*min(1, over)
	}
	over := (d - s.ToPeak).Hours()
	return s.Peak - (s.Peak-1)*0.5*(1-math.Exp(-over/3))
}

// highest is how high it has stood so far.
func (s *Scene) highest(i int) float64 {
	most := 1.0
	for k := range i + 1 {
		most = max(most, s.Rise(k))
	}
	return most
}

func (s *Scene) daylight(i int) float64 {
	if !s.Night {
		return 1
	}
	t := float64(i) / float64(s.Frames)
	return max(0, min(1, (0.55-t)/0.25)) // goes from 0.3 to 0.55 of the series
}

func (s *Scene) lamp(i int) bool { return s.Night && float64(i) > 0.6*float64(s.Frames) }

// camera maps a place of the picture to that of the scene.
func (s *Scene) camera(i int, u, v float64) (float64, float64) {
	if s.Breathing {
		z := 1 + 0.006*math.Sin(float64(i)*0.9)
		u, v = 0.5+(u-0.5)/z, 0.5+(v-0.5)/z
	}
	if s.Nudge && i >= s.nudgeAt {
		u, v = u-0.021, v+0.017
	}
	return u, v
}

// Picture paints one picture.
func (s *Scene) Picture(i int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, Width, Height))
	p := painter{s: s, i: i, rise: s.Rise(i), most: s.highest(i)}
	r := rand.New(rand.NewPCG(s.Seed, uint64(1000+i)))
	day := s.daylight(i)
	for y := range Height {
		for x := range Width {
			u, v := s.camera(i, (float64(x)+0.5)/Width, (float64(y)+0.5)/Height)
			c := p.colour(u, v)
			light := rgb{day, day, day}
			if s.lamp(i) { // from one side, and warm
				l := 0.75 - 0.35*u
				light = rgb{light[0] + 1.1*l, light[1] + 0.9*l, light[2] + 0.65*l}
			}
			o := 4 * (y*Width + x)
			for k := range 3 {
				img.Pix[o+k] = uint8(max(0, min(255, 255*c[k]*light[k]+s.Noise*r.NormFloat64()+0.5)))
			}
			img.Pix[o+3] = 255
		}
	}
	return img
}

type rgb [3]float64

func mix(a, b rgb, t float64) rgb {
	for k := range a {
		a[k] += t * (b[k] - a[k])
	}
	return a
}
