package journal

import (
	"bytes"
	"context"
	"fmt"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/photo"
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
	// Repaired says that the indexes have been made anew.
	Repaired bool
}

// Sound reports whether nothing was found wrong.
func (r Report) Sound() bool { return len(r.Unreadable) == 0 && len(r.Photos) == 0 && r.Indexes == 0 }

// Check reads every record and the original of every photo, compares every index with one made anew from the
// records, and, with repair, keeps the new one where they differ.
func (j *Journal) Check(ctx context.Context, repair bool) (Report, error) {
	if err := j.Flush(); err != nil {
		return Report{}, err
	}
	j.write.Lock()
	defer j.write.Unlock()
	var report Report
	err := j.db.Update(func(tx *bolt.Tx) error {
		kept := snapshot(tx, bucketLinks, bucketCards)
		fresh, err := j.rebuild(ctx, tx, &report)
		if err != nil {
			return err
		}
		report.Indexes = kept.differences(fresh)
		damaged, err := checkDerived(tx, repair)
		if err != nil {
			return err
		}
		report.Indexes += damaged
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

// rebuild makes the indexes anew within tx and gives what is then in them.
func (j *Journal) rebuild(ctx context.Context, tx *bolt.Tx, report *Report) (buckets, error) {
	for _, name := range [][]byte{bucketLinks, bucketCards} {
		if err := tx.DeleteBucket(name); err != nil {
			return nil, err
		}
		if _, err := tx.CreateBucket(name); err != nil {
			return nil, err
		}
	}
	for _, kind := range Kinds() {
		err := tx.Bucket([]byte(kind)).ForEach(func(k, v []byte) error {
			report.Records++
			if err := reindexLinks(tx, Ref{kind, ID(k)}, nil, v); err != nil {
				report.Unreadable = append(report.Unreadable, err)
			}
			return ctx.Err()
		})
		if err != nil {
			return nil, err
		}
	}
	t := &Tx{tx: tx, j: j, before: map[Ref][]byte{}}
	err := tx.Bucket([]byte(KindBake)).ForEach(func(k, _ []byte) error {
		if _, err := storeCard(t, ID(k)); err != nil {
			// A damaged bake has been reported above and has no card.
			return ctx.Err()
		}
		return ctx.Err()
	})
	if err != nil {
		return nil, err
	}
	return snapshot(tx, bucketLinks, bucketCards), nil
}

// buckets are the keys and values of some buckets, in memory.
type buckets map[string][]byte

func snapshot(tx *bolt.Tx, names ...[]byte) buckets {
	out := buckets{}
	for _, name := range names {
		b := tx.Bucket(name)
		if b == nil {
			continue
		}
		_ = b.ForEach(func(k, v []byte) error {
			out[string(name)+"\x00"+string(k)] = bytes.Clone(v)
			return nil
		})
	}
	return out
}

// differences counts the keys at which two sets of buckets differ.
func (b buckets) differences(other buckets) int {
	n := 0
	for k, v := range b {
		if w, ok := other[k]; !ok || !bytes.Equal(v, w) {
			n++
		}
	}
	for k := range other {
		if _, ok := b[k]; !ok {
			n++
		}
	}
	return n
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
