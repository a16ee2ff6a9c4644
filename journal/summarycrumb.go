package journal

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"twinloaf/journal/crumb"
	"twinloaf/journal/store"
)

// crumbPrefix is before the photo's ID in the keys of what was measured.
const crumbPrefix = "crumb/"

// crumbBasis is what the measures of a crumb rest on: the picture and what the
// baker said of it. Which photo it is a retake of alters no figure.
func crumbBasis(p *Photo) (string, error) {
	s := Slice{}
	if p.Slice != nil {
		s = *p.Slice
	}
	return fingerprint(struct {
		Hash     string
		Outline  []Spot
		Inside   bool
		From, To Spot
		Length   float64
		Setting  float64
		Large    float64
		Corners  []Spot `json:",omitempty"`
		Wide     float64
		High     float64
		Hand     []CellStroke `json:",omitempty"`
	}{p.Hash, s.Outline, s.CrumbOnly, s.From, s.To, s.LengthMM, s.Sensitivity, s.LargeFromMM, s.Corners, s.WideMM, s.HighMM, s.Strokes})
}

// CrumbMeasures gives what was measured of the crumb on a photo; false when it
// has not been measured, or by another version of the method, or before the
// picture's outline, true length or sensitivity was changed.
func CrumbMeasures(r Reader, p *Photo) (s crumb.Summary, ok bool, err error) {
	err = r.view(func(st *store.Tx) (err error) {
		s, ok, err = crumbIn(st, p)
		return err
	})
	return s, ok, err
}

func crumbIn(st *store.Tx, p *Photo) (crumb.Summary, bool, error) {
	d, ok := readDerived[crumb.Summary](st, crumbPrefix+string(p.ID))
	if !ok || d.Method != crumb.MethodVersion {
		return crumb.Summary{}, false, nil
	}
	basis, err := crumbBasis(p)
	if err != nil || basis != d.Basis {
		return crumb.Summary{}, false, err
	}
	return d.Value, true, nil
}

// KeepCrumb keeps what was measured of the crumb on a photo, which is the photo
// as it was when it was measured, and brings the bake's summary up to it. When the
// photo has been changed since, nothing is kept, and kept is false. It is no step
// of the history.
func (j *Journal) KeepCrumb(p *Photo, s crumb.Summary) (kept bool, err error) {
	err = j.DoWithoutUndo("keeping what was measured of a crumb", func(t *Tx) error {
		now, err := Get[Photo](t, p.ID)
		if err != nil {
			return err
		}
		then, err := crumbBasis(p)
		if err != nil {
			return err
		}
		basis, err := crumbBasis(now)
		if err != nil || basis != then {
			return err
		}
		if old, ok, err := crumbIn(t.st, now); err == nil && ok && sameFigures(old, s) {
			kept = true
			return nil
		}
		kept = true
		t.reindexOwner(now)
		return keepDerived(t.st, crumbPrefix+string(p.ID), derived[crumb.Summary]{Method: s.Method, Basis: basis, Value: s})
	})
	return kept && err == nil, err
}

// sameFigures says that two values are kept alike, which spares the disk a commit that would
// change nothing.
func sameFigures[T any](a, b T) bool {
	x, errX := fingerprint(a)
	y, errY := fingerprint(b)
	return errX == nil && errY == nil && x == y
}

// reindexOwner has the summary of a photo's bake made again although no record was
// written.
func (t *Tx) reindexOwner(p *Photo) {
	t.secret = true // there may be no record among what changed
	if p.Owner.Kind != KindBake {
		return
	}
	if t.reindex == nil {
		t.reindex = map[ID]bool{}
	}
	t.reindex[p.Owner.ID] = true
}

// onShelf gives the figures that may stand beside those of other bakes: those
// without a doubt, taken at the sensitivity as it comes. A figure in shares of the
// slice's width stands beside none in millimetres, a share of large cells beside
// none with another size called large, the share of sure voids beside none, since it
// grows with a photo's contrast, and a direction has neither more nor less.
func onShelf(s crumb.Summary) map[string]float64 {
	if s.Sensitivity != 0 {
		return nil
	}
	out := map[string]float64{}
	for _, f := range s.Figures {
		d, ok := crumb.Define(f.ID)
		switch {
		case !ok || f.Trust != crumb.Good || f.ID == crumb.Direction || f.ID == crumb.SureVoids:
		case s.Relative && (d.RelativeUnit != "" || f.ID == crumb.LargeShare || f.ID == crumb.SmallToLarge):
		case f.ID == crumb.LargeShare && s.LargeFrom != crumb.LargeFromMM:
		default:
			out[string(f.ID)] = f.Value
		}
	}
	return out
}

// structureOf gives the figures of a bake's crumb: of each the mean over the
// slices measured, retakes of one slice left out.
func structureOf(t *Tx, photos []*Photo) map[string]float64 {
	sums, counts := map[string]float64{}, map[string]float64{}
	for _, p := range photos {
		if p.Slice != nil && p.Slice.Same != "" {
			continue
		}
		s, ok, err := crumbIn(t.st, p)
		if err != nil || !ok {
			continue // derived: it is measured again, and stops no bake from being indexed
		}
		for name, v := range onShelf(s) {
			sums[name] += v
			counts[name]++
		}
	}
	for name := range sums {
		sums[name] /= counts[name]
	}
	return sums
}

const keyCrumbMethod = "crumb method"

// invalidateCrumb takes figures of an older version of the method off the summaries, in
// the first opening by a program with a newer one.
func invalidateCrumb(s *store.Store, method uint64) error {
	now := binary.BigEndian.AppendUint64(nil, method)
	var stale bool
	if err := s.View(func(st *store.Tx) error {
		stale = !bytes.Equal(st.Meta(keyCrumbMethod), now)
		return nil
	}); err != nil || !stale {
		return err
	}
	err := s.Update(func(st *store.Tx) error {
		t := &Tx{st: st}
		bakes := map[ID]bool{}
		err := st.Side(sideDerived).Each(crumbPrefix, func(key string, _ []byte, _ error) error {
			p, err := Get[Photo](t, ID(key[len(crumbPrefix):]))
			if err == nil && p.Owner.Kind == KindBake {
				bakes[p.Owner.ID] = true
			}
			return nil
		})
		if err != nil {
			return err
		}
		for id := range bakes {
			if _, err := storeSummary(t, id); err != nil {
				continue // a damaged bake is told by Check, and stops no journal from opening
			}
		}
		return st.SetMeta(keyCrumbMethod, now)
	})
	if err != nil {
		return fmt.Errorf("bringing the figures of crumbs up to this version: %w", err)
	}
	return nil
}
