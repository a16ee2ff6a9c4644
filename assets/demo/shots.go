package demo

import (
	"fmt"
	"hash/fnv"
	"time"

	"twinloaf/assets/demo/scene"
	"twinloaf/journal"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/formula"
)

// A shot is a photo that the story wants taken. Shots of one key show the same
// picture, which is drawn once.
type shot struct {
	id      journal.ID
	key     string
	owner   journal.Ref
	role    journal.Role
	at      time.Time
	caption string
	// scaled gives the photo the slice's true width, as if a ruler had lain by.
	scaled bool
	same   journal.ID // the photo of which this is a retake

	// One of these says what to draw.
	loaf  *scene.Loaf
	bowl  *scene.Bowl
	jar   *scene.Jar
	slice *phantom.Slice
}

// picture is the size of a photo: a phone's proportions, small enough that the
// journal is made in seconds.
const (
	pictureW = 1280
	pictureH = 960
)

var pictureSize = scene.Size{W: pictureW, H: pictureH}

// want adds a shot to those to be taken.
func (s *story) want(sh shot) journal.ID {
	sh.id = s.id(sh.at)
	s.wanted = append(s.wanted, sh)
	return sh.id
}

// seedOf makes a picture's own seed from what it is called.
func (s *story) seedOf(key string) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%d %s", s.seed, key)
	return h.Sum64()
}

// photograph takes the photos of a bake. Older bakes share pictures with others
// of the same bread.
func (s *story) photograph(d *bread, b *journal.Bake, m made, score int, own bool) {
	owner := journal.RefOf(b)
	name := d.name + fmt.Sprint(d.version)
	open := 5
	if len(b.Outcome.Scores) > 2 {
		open = b.Outcome.Scores[2].Score
	}
	if own {
		name = string(b.ID)
	} else {
		if d.name == ferryLoaf && open >= 6 {
			name += " open"
		}
		if s.rng.IntN(12) == 0 {
			return
		}
	}
	if own || s.rng.IntN(4) > 0 {
		s.want(shot{
			key: "crust " + name, owner: owner, role: journal.RoleCrust, at: b.Ready.Add(12 * time.Minute),
			loaf: s.loafOf(d, m, "crust "+name),
		})
	}
	s.want(shot{
		key: "crumb " + name, owner: owner, role: journal.RoleCrumb, at: b.Ready.Add(3 * time.Hour), scaled: own,
		caption: s.caption(score, own), slice: s.sliceOf(d, open, "crumb "+name),
	})
	if own && s.rng.IntN(3) == 0 {
		s.photographDough(d, b)
	}
}

func (s *story) caption(score int, own bool) string {
	if !own || s.rng.IntN(3) > 0 {
		return ""
	}
	if score >= 7 {
		return pick(s, "Look at that.", "From the middle of the loaf.", "The good one.")
	}
	return pick(s, "Second slice.", "A bit close at the bottom.", "From the end that stood by the oven door.")
}

// photographDough takes the dough as it stood at the end of its bulk.
func (s *story) photographDough(d *bread, b *journal.Bake) {
	for _, st := range b.Steps {
		if st.Kind != journal.StepBulk || st.End.IsZero() {
			continue
		}
		key := "dough " + string(b.ID)
		s.want(shot{
			key: key, owner: journal.RefOf(b), role: journal.RoleDough, at: st.End.Add(-2 * time.Minute),
			bowl: &scene.Bowl{Seed: s.seedOf(key), Size: pictureSize, Grain: d.grain, Ground: scene.Ground(s.rng.IntN(4)), Glaze: s.rng.IntN(3), Proof: 0.9},
		})
	}
}

func (s *story) loafOf(d *bread, m made, key string) *scene.Loaf {
	seed := s.seedOf(key)
	l := &scene.Loaf{
		Seed: seed, Size: pictureSize, Form: d.form, Grain: d.grain, Score: d.score[seed%uint64(len(d.score))],
		Ground: scene.Ground(seed >> 8 % 4), Baked: 0.42 + 0.3*float32(seed>>16%64)/64,
		Spring:  float32(clamp(0.45+0.012*m.cold+0.3*m.skill, 0.3, 1)),
		Floured: 0.35 + 0.5*float32(seed>>24%64)/64,
	}
	switch {
	case d.form == scene.Tin:
		l.Floured = 0.12
	case d.ryeShare() > 50:
		l.Floured = 0.2
	}
	for _, a := range d.adds {
		l.Seeded = l.Seeded || a.name == "Sesame seeds"
	}
	if l.Seeded {
		l.Floured = 0
	}
	return l
}

// sliceOf is the cut face of a bread whose openness got that score.
func (s *story) sliceOf(d *bread, open int, key string) *phantom.Slice {
	seed := s.seedOf(key)
	o := float64(open)
	out := &phantom.Slice{
		Seed: seed, Width: pictureW, Height: pictureH, Shape: d.slice, Tone: d.tone,
		Ground: phantom.Ground(seed >> 8 % 3), Fill: 0.84,
		Cells: phantom.Cells{
			MedianMM: 0.75 + 0.11*o, LogSD: 0.42 + 0.045*o, Porosity: 0.24 + 0.024*o, TopOpen: 0.06 * o, Stretch: 1.25, Depth: 0.42,
		},
		Light: phantom.Light{Gradient: 0.10, Direction: 35, Vignette: 0.08, Noise: 1.6, Blur: 0.6, Balance: [3]float64{1.05, 1, 0.94}},
	}
	for _, a := range d.adds {
		if a.role == formula.Seeds && a.name != "Rolled oats" {
			out.Seeds = 0.025
		}
	}
	return out
}

// A jarShot is a photo of a jar at a reading.
type jarShot struct {
	grain   scene.Grain
	label   string
	start   float32
	bubbles float32
	band    int
}

// photographJar takes the jar at a reading and lays the three lines on it.
func (s *story) photographJar(r *journal.Reading, j *jarShot) {
	r.ID = s.id(r.At)
	key := "jar " + string(r.ID)
	jar := &scene.Jar{
		Seed: s.seedOf(key), Size: pictureSize, Grain: j.grain, Label: j.label, Start: j.start,
		Rise: float32(*r.Rise), Bubbles: j.bubbles, Band: j.band,
	}
	bottom, start, now := jar.Lines()
	id := s.want(shot{key: key, owner: journal.RefOf(r), role: journal.RoleJar, at: r.At, jar: jar})
	r.Lines = &journal.JarLines{Photo: id, Bottom: round(bottom, 0.0001), Start: round(start, 0.0001), Now: round(now, 0.0001)}
}
