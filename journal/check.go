package journal

import (
	"context"
	"fmt"

	"twinloaf/journal/photo"
	"twinloaf/journal/store"
)

// A Report is what [Journal.Check] found.
type Report struct {
	Records int
	// Unreadable names the records whose bytes are damaged. They are left as
	// they are.
	Unreadable []error
	// Indexes counts the entries of indexes that were wrong or missing, and what
	// was worked out and kept but can no longer be read.
	Indexes int
	// Photos names the photos whose original is missing or altered.
	Photos []error
	// Seals names the tastings of which a part is not what was sealed or handed in.
	Seals []error
	// Repaired says that the indexes have been made anew.
	Repaired bool
}

// Sound reports whether nothing was found wrong.
func (r Report) Sound() bool {
	return len(r.Unreadable) == 0 && len(r.Photos) == 0 && len(r.Seals) == 0 && r.Indexes == 0
}

// Check reads every record and the original of every photo, compares every index with one made anew from the
// records, and, with repair, keeps the new one where they differ.
func (j *Journal) Check(ctx context.Context, repair bool) (Report, error) {
	if err := j.Flush(); err != nil {
		return Report{}, err
	}
	j.write.Lock()
	defer j.write.Unlock()
	var report Report
	err := j.store.Update(func(st *store.Tx) error {
		kept, err := st.Contents(store.BucketLinks, sideCards)
		if err != nil {
			return err
		}
		fresh, err := j.rebuild(ctx, st, &report)
		if err != nil {
			return err
		}
		report.Indexes = kept.Differences(fresh)
		damaged, err := checkDerived(st, repair)
		if err != nil {
			return err
		}
		report.Indexes += damaged
		if err := checkSeals(&Tx{st: st, j: j}, func(why error) { report.Seals = append(report.Seals, why) }); err != nil {
			return err
		}
		if !repair || report.Indexes == 0 {
			return errNothing
		}
		report.Repaired = true
		return nil
	})
	if err != nil && err != errNothing {
		return report, fmt.Errorf("checking the journal: %w", err)
	}
	if report.Repaired {
		j.mu.Lock()
		j.cards = nil
		j.mu.Unlock()
	}
	if err := j.checkPhotos(ctx, &report); err != nil {
		return report, fmt.Errorf("checking the photos: %w", err)
	}
	return report, nil
}

// rebuild makes the indexes anew within st and gives what is then in them.
func (j *Journal) rebuild(ctx context.Context, st *store.Tx, report *Report) (store.Contents, error) {
	var err error
	report.Records, err = st.RebuildLinks(ctx, func(_ Ref, why error) {
		report.Unreadable = append(report.Unreadable, why)
	})
	if err != nil {
		return nil, err
	}
	if err := st.Clear(sideCards); err != nil {
		return nil, err
	}
	bakes, err := st.IDs(KindBake)
	if err != nil {
		return nil, err
	}
	t := &Tx{st: st, j: j}
	for _, id := range bakes {
		_, _ = storeCard(t, id) // a damaged bake has been reported above and has no card
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	return st.Contents(store.BucketLinks, sideCards)
}

// checkPhotos verifies the original of every photo against its hash.
func (j *Journal) checkPhotos(ctx context.Context, report *Report) error {
	photos, err := collect[Photo](j, func(*Photo) bool { return true })
	if err != nil {
		return nil // an unreadable record is reported as such
	}
	seen := map[string]bool{}
	for _, p := range photos {
		if seen[p.Hash] {
			continue
		}
		seen[p.Hash] = true
		h, err := photo.ParseHash(p.Hash)
		if err == nil {
			err = j.files.Verify(ctx, h)
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			report.Photos = append(report.Photos, fmt.Errorf("photo %s (%s): %w", p.ID, p.Name, err))
		}
	}
	return nil
}
