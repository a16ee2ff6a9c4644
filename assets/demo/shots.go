package demo

import (
	"fmt"
	"math"
	"time"

	"twinloaf/assets/demo/plates"
	"twinloaf/journal"
)

// A shot is a photo that the story wants in the journal.
type shot struct {
	id      journal.ID
	plate   *plates.Plate
	owner   journal.Ref
	at      time.Time
	caption string
	// scaled gives the photo the slice's true width, as if a ruler had lain by.
	scaled bool
	same   journal.ID // the photo of which this is a retake
}

// want adds a shot to those that the journal gets.
func (s *story) want(sh shot) journal.ID {
	sh.id = s.id(sh.at)
	s.wanted = append(s.wanted, sh)
	return sh.id
}

// plate chooses a picture of a thing: of those within a distance of the level the one
// that was shown least often, else the nearest.
func (s *story) plate(role journal.Role, of string, level, within float64) *plates.Plate {
	var best *plates.Plate
	rank := func(p *plates.Plate) (shown int, far float64) {
		if far = math.Abs(p.Level - level); far > within {
			return math.MaxInt, far
		}
		return s.shown[p.File], far
	}
	for i := range s.plates {
		p := &s.plates[i]
		if p.Role != role || p.Of != of {
			continue
		}
		if best == nil {
			best = p
			continue
		}
		shown, far := rank(p)
		if n, f := rank(best); shown < n || shown == n && far < f {
			best = p
		}
	}
	if best == nil {
		s.fail(fmt.Errorf("there is no picture of the %s of %s: see cmd/demopictures", role, of))
		return &plates.Plate{}
	}
	s.shown[best.File]++
	return best
}

// photograph takes the photos of a bake; of older ones some were not taken.
func (s *story) photograph(d *bread, b *journal.Bake, culture string, score int, own bool) {
	owner, of := journal.RefOf(b), d.key()
	if b.Trial != "" {
		of += ", " + culture
	}
	open := 5
	if len(b.Outcome.Scores) > 2 {
		open = b.Outcome.Scores[2].Score
	}
	if !own && s.rng.IntN(12) == 0 {
		return
	}
	if own || s.rng.IntN(4) > 0 {
		s.want(shot{plate: s.plate(journal.RoleCrust, of, 0, math.Inf(1)), owner: owner, at: b.Ready.Add(12 * time.Minute)})
	}
	s.want(shot{
		plate: s.plate(journal.RoleCrumb, of, float64(open), 1.5), owner: owner, at: b.Ready.Add(3 * time.Hour), scaled: own,
		caption: s.caption(score, own),
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
		s.want(shot{plate: s.plate(journal.RoleDough, d.dough, 0, math.Inf(1)), owner: journal.RefOf(b), at: st.End.Add(-2 * time.Minute)})
	}
}

// photographJar takes the jar at a reading and lays the three lines on it, if there is a picture
// of about that rise, and tells whether. The rise is then the one that the picture shows.
func (s *story) photographJar(r *journal.Reading, culture string) bool {
	jar := s.plate(journal.RoleJar, culture, *r.Rise, 0)
	if math.Abs(jar.Level-*r.Rise) > 0.1 {
		return false
	}
	r.ID = s.id(r.At)
	id := s.want(shot{plate: jar, owner: journal.RefOf(r), at: r.At})
	if jar.Lines == nil {
		return false // it failed
	}
	*r.Rise = jar.Level
	r.Lines = &journal.JarLines{Photo: id, Bottom: jar.Lines[0], Start: jar.Lines[1], Now: jar.Lines[2]}
	return true
}
