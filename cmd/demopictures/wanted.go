package main

import (
	"context"
	"fmt"
	"hash/fnv"
	"image"
	"math"
	"strings"

	"twinloaf/assets/demo/plates"
	"twinloaf/cmd/demopictures/cut"
	"twinloaf/cmd/demopictures/scene"
	"twinloaf/journal"
)

// The sizes have a phone's proportions. A cut face is larger, so that its cells can
// be measured.
const (
	sceneW, sceneH = 960, 720
	sliceW, sliceH = 1120, 840

	sceneQuality, sliceQuality = 76, 78
)

var sceneSize = scene.Size{W: sceneW, H: sceneH}

// A bread is how one of the story's breads looks.
type bread struct {
	of     string
	grain  scene.Grain
	form   scene.Form
	scores []scene.Score
	sesame bool
	crusts int       // pictures of it whole
	open   []float64 // and of its crumb, by the score for openness
}

// breads are those of the demonstration by their names and versions there. Whoever adds
// one there adds it here; a test of the demonstration finds what is missing.
var breads = []bread{
	{of: "Ferry loaf 1", form: scene.Round, scores: []scene.Score{scene.Cross, scene.Square}, crusts: 2, open: []float64{4, 5.5}},
	{of: "Ferry loaf 2", form: scene.Long, scores: []scene.Score{scene.OneCut}, crusts: 4, open: []float64{4, 5, 6, 7, 8}},
	{of: "Ferry loaf 2, Harbour", form: scene.Long, scores: []scene.Score{scene.OneCut}, crusts: 1, open: []float64{6.5}},
	{of: "Ferry loaf 2, Gorse", form: scene.Long, scores: []scene.Score{scene.OneCut}, crusts: 1, open: []float64{5.5}},
	{of: "Deck rye 1", grain: scene.Dark, form: scene.Tin, scores: []scene.Score{scene.Uncut}, crusts: 2, open: []float64{3, 4.5}},
	{of: "Spelt and oats 1", grain: scene.Brown, form: scene.Long, scores: []scene.Score{scene.Leaf, scene.OneCut}, crusts: 2, open: []float64{4, 6}},
	{of: "Seeded loaf 1", form: scene.Round, scores: []scene.Score{scene.Square, scene.Cross}, sesame: true, crusts: 2, open: []float64{4.5, 6.5}},
	{of: "Emmer and walnut 1", grain: scene.Brown, form: scene.Round, scores: []scene.Score{scene.Leaf, scene.Cross}, crusts: 2, open: []float64{4, 6}},
	{of: "Crossing tin 0", form: scene.Tin, scores: []scene.Score{scene.OneCut}, crusts: 1, open: []float64{5}},
	{of: "Slipper loaves 0", form: scene.Long, scores: []scene.Score{scene.Uncut}, crusts: 1, open: []float64{7}},
}

// jars are the rises at which each culture was photographed.
var jars = []struct {
	of    string
	grain scene.Grain
	band  int
	rises []float64
}{
	{"Harbour", scene.Dark, 0, []float64{1.26, 1.5, 1.65, 1.75, 1.85, 1.95, 2.05, 2.15, 2.25}},
	{"Gorse", scene.White, 1, []float64{1.02, 1.3, 1.6, 1.8, 1.95, 2.1, 2.3}},
}

// doughs are seen in their bowls, at the end of the bulk or after a turn.
var doughs = []struct {
	of     string
	grain  scene.Grain
	proof  float32
	folded bool
	views  int
}{
	{"White dough", scene.White, 0.9, false, 3},
	{"Brown dough", scene.Brown, 0.9, false, 2},
	{"Dark dough", scene.Dark, 0.9, false, 1},
	{"White dough after a turn", scene.White, 0.45, true, 1},
}

// wanted lists every picture of the demonstration.
func wanted() []picture {
	var out []picture
	for _, b := range breads {
		for i := range b.crusts {
			out = append(out, b.crust(i))
		}
		for _, open := range b.open {
			out = append(out, b.crumb(open, false))
		}
		if strings.Contains(b.of, ", ") { // of the trial, whose slices were taken twice
			out = append(out, b.crumb(b.open[0], true))
		}
	}
	for _, d := range doughs {
		for i := range d.views {
			bowl := scene.Bowl{Size: sceneSize, Grain: d.grain, Ground: scene.Ground(i % 4), Glaze: i % 3, Proof: d.proof, Folded: d.folded}
			out = append(out, newPicture(journal.RoleDough, d.of, float64(i), func(seed uint64, p *scene.Painter) image.Image {
				bowl.Seed = seed
				return p.Bowl(bowl)
			}))
		}
	}
	for _, j := range jars {
		for _, rise := range j.rises {
			jar := scene.Jar{Size: sceneSize, Grain: j.grain, Label: j.of, Band: j.band, Start: 0.34, Rise: float32(rise), Bubbles: float32(min(0.8, 0.4*rise))}
			p := newPicture(journal.RoleJar, j.of, rise, func(seed uint64, p *scene.Painter) image.Image {
				jar.Seed = seed
				return p.Jar(jar)
			})
			bottom, start, now := jar.Lines()
			p.Lines = &[3]float64{round(bottom, 1e4), round(start, 1e4), round(now, 1e4)}
			out = append(out, p)
		}
	}
	return out
}

// newPicture is one of a thing, with a seed that follows from its name.
func newPicture(role journal.Role, of string, level float64, paint func(seed uint64, p *scene.Painter) image.Image) picture {
	name := fmt.Sprintf("%s-%s-%g", role, of, level)
	name = strings.ReplaceAll(strings.ReplaceAll(strings.ToLower(name), " ", "-"), ",", "")
	seed := seedOf(name)
	return picture{
		Plate: plates.Plate{File: name + ".jpg", Role: role, Of: of, Level: level}, quality: sceneQuality,
		paint: func(_ context.Context, p *scene.Painter, _ *plates.Plate) (image.Image, error) {
			return paint(seed, p), nil
		},
	}
}

func seedOf(name string) uint64 {
	h := fnv.New64a()
	_, _ = h.Write([]byte(name)) // never fails
	return h.Sum64()
}

// crust is the whole loaf.
func (b bread) crust(i int) picture {
	return newPicture(journal.RoleCrust, b.of, float64(i), func(seed uint64, p *scene.Painter) image.Image {
		l := scene.Loaf{
			Seed: seed, Size: sceneSize, Form: b.form, Grain: b.grain, Score: b.scores[i%len(b.scores)], Seeded: b.sesame,
			Ground: scene.Ground(seed >> 8 % 4), Baked: 0.42 + 0.3*float32(seed>>16%64)/64, Spring: 0.8,
			Floured: 0.35 + 0.5*float32(seed>>24%64)/64,
		}
		switch {
		case b.sesame:
			l.Floured = 0
		case b.form == scene.Tin:
			l.Floured = 0.12
		}
		return p.Loaf(l)
	})
}

// crumb is the cut face of the bread whose openness got that score; again is the same
// slice, photographed once more in another light.
func (b bread) crumb(open float64, again bool) picture {
	p := newPicture(journal.RoleCrumb, b.of, open, nil)
	if again {
		p.File, p.Of = strings.TrimSuffix(p.File, ".jpg")+"-again.jpg", p.Of+", again"
	}
	s := traced[p.File]
	s.View.W, s.View.H = sliceW, sliceH
	p.quality, p.slice = sliceQuality, &s
	p.paint = func(ctx context.Context, _ *scene.Painter, plate *plates.Plate) (image.Image, error) {
		img, truth, err := s.Photo(ctx)
		if err != nil {
			return nil, err
		}
		*plate = knowing(*plate, truth)
		return img, nil
	}
	return p
}

// knowing says of a plate what is known of its slice.
func knowing(p plates.Plate, t cut.Truth) plates.Plate {
	p.Width = &plates.Width{From: round(t.Left, 1), To: round(t.Right, 1), Row: round(t.Row, 1), MM: round(t.WidthMM, 1)}
	p.Open = round(t.Open, 100)
	return p
}

// round rounds to a part of one: 10 for tenths.
func round(x, parts float64) float64 { return math.Round(x*parts) / parts }
