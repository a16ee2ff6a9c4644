package journal

import (
	"fmt"

	"github.com/go-json-experiment/json"
)

// crumbFiguresKey is where the derived bucket keeps the figures of a photo.
func crumbFiguresKey(photo ID) []byte { return []byte("crumb figures/" + string(photo)) }

// KeepCrumbFigures keeps what was measured of the crumb on a photo, each figure
// by a name that stays the same from one measuring to the next, and brings the
// bake's card up to it in the same transaction. No figures take away what was
// kept. Figures are derived: they are no step of the history, and whoever
// alters the photo's slice keeps them anew.
func KeepCrumbFigures(t *Tx, photo ID, figures map[string]float64) error {
	p, err := Get[Photo](t, photo)
	if err != nil {
		return fmt.Errorf("keeping the figures of a crumb: %w", err)
	}
	b, key := t.tx.Bucket(bucketDerived), crumbFiguresKey(photo)
	if len(figures) == 0 {
		err = b.Delete(key)
	} else {
		var body []byte
		if body, err = json.Marshal(figures, json.Deterministic(true)); err == nil {
			err = b.Put(key, wrap(string(bucketDerived), string(key), body))
		}
	}
	if err != nil {
		return fmt.Errorf("keeping the figures of a crumb: %w", err)
	}
	t.secret = true // there may be no record among what changed
	if p.Owner.Kind == KindBake {
		if t.recard == nil {
			t.recard = map[ID]bool{}
		}
		t.recard[p.Owner.ID] = true
	}
	return nil
}

// structureOf gives the figures of a bake's crumb: of each the mean over the
// slices measured, retakes of one slice left out.
func structureOf(t *Tx, photos []*Photo) map[string]float64 {
	sums, counts := map[string]float64{}, map[string]float64{}
	for _, p := range photos {
		if p.Slice != nil && p.Slice.Same != "" {
			continue
		}
		key := crumbFiguresKey(p.ID)
		v := t.tx.Bucket(bucketDerived).Get(key)
		if v == nil {
			continue
		}
		body, err := unwrap(string(bucketDerived), string(key), v)
		if err != nil {
			continue // derived: it is measured again, and stops no bake from being indexed
		}
		var figures map[string]float64
		if err := json.Unmarshal(body, &figures); err != nil {
			continue
		}
		for name, f := range figures {
			sums[name] += f
			counts[name]++
		}
	}
	if len(sums) == 0 {
		return nil
	}
	for name := range sums {
		sums[name] /= counts[name]
	}
	return sums
}
