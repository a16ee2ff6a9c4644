package journal

import (
	"cmp"
	"context"
	"errors"
	"fmt"

	"twinloaf/journal/photo"
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// A Report is what [Journal.Check] found, a sentence for each thing that is wrong.
type Report struct {
	Records int
	// Unreadable tells of the records that cannot be read, or not by this program.
	// They are left as they are.
	Unreadable []say.Line
	// Seals tells of the sealed tastings that can no longer be unsealed, and of those
	// of which a part is not what was sealed or handed in.
	Seals []say.Line
	// Steps counts the steps of the history that can no longer be taken back.
	Steps int
	// Indexes counts the entries of indexes that were wrong or missing, and what
	// was worked out and kept but can no longer be read.
	Indexes int
	// Photos tells of the photos whose original is missing or altered.
	Photos []say.Line
	// Repaired says that the indexes have been made anew.
	Repaired bool
}

// Sound reports whether nothing was found wrong.
func (r Report) Sound() bool { return r.Indexes == 0 && len(r.Left()) == 0 }

// Left says what is wrong and cannot be mended, a sentence each.
func (r Report) Left() []say.Line {
	var out []say.Line
	out = append(append(append(out, r.Unreadable...), r.Seals...), r.Photos...)
	if r.Steps > 0 {
		out = append(out, say.N("One earlier change can no longer be undone.", "{{.N}} earlier changes can no longer be undone.", r.Steps))
	}
	return out
}

// Checking says how a journal is checked.
type Checking struct {
	// Repair keeps indexes that were made anew where they differ.
	Repair bool
	// Progress, where there is one, is told after each how many records have been read,
	// and then of how many pictures.
	Progress func(records, pictures, of int)
}

func (c Checking) tell(records, pictures, of int) {
	if c.Progress != nil {
		c.Progress(records, pictures, of)
	}
}

// Check reads everything that the journal holds: every record, step of the history,
// sealed plan and value that was worked out, and the original of every photo. It
// compares every index with one made anew from the records and, with repair, keeps
// the new one where they differ.
func (j *Journal) Check(ctx context.Context, repair bool) (Report, error) {
	return j.CheckAs(ctx, Checking{Repair: repair})
}

// CheckAs is Check that tells how far it is. Where ctx ends it, indexes that were made anew
// by then are kept, which the report says.
func (j *Journal) CheckAs(ctx context.Context, how Checking) (Report, error) {
	if err := j.Flush(); err != nil {
		return Report{}, err
	}
	j.write.Lock()
	defer j.write.Unlock()
	var report Report
	err := j.store.Update(func(st *store.Tx) error {
		t := &Tx{st: st, j: j}
		if err := checkRecords(ctx, t, &report, how); err != nil {
			return err
		}
		if err := checkSeals(t, &report); err != nil {
			return err
		}
		err := st.EachEntry(func(_ *store.Entry, damage error) error {
			if damage != nil {
				report.Steps++
			}
			return ctx.Err()
		})
		if err != nil {
			return err
		}
		kept, err := st.Contents(store.BucketLinks, sideSummaries)
		if err != nil {
			return err
		}
		fresh, err := rebuild(ctx, t)
		if err != nil {
			return err
		}
		report.Indexes = kept.Differences(fresh)
		damaged, err := checkDerived(st, how.Repair)
		if err != nil {
			return err
		}
		report.Indexes += damaged
		if !how.Repair || report.Indexes == 0 {
			return errNothing
		}
		report.Repaired = true
		return nil
	})
	if err != nil && !errors.Is(err, errNothing) {
		return report, fmt.Errorf("checking the journal: %w", err)
	}
	if report.Repaired {
		j.mu.Lock()
		j.summaries = nil
		j.mu.Unlock()
	}
	if err := j.checkPhotos(ctx, &report, how); err != nil {
		return report, fmt.Errorf("checking the photos: %w", err)
	}
	return report, nil
}

// checkRecords decodes every record.
func checkRecords(ctx context.Context, t *Tx, report *Report, how Checking) error {
	d := describer{t: t, reader: newSummaryReader()}
	for _, r := range registrations {
		err := t.st.Each(r.kind, func(id ID, envelope []byte) error {
			report.Records++
			how.tell(report.Records, 0, 0)
			_, err := r.read(id, envelope)
			if err == nil {
				return ctx.Err()
			}
			body, _ := store.Unwrap(string(r.kind), string(id), envelope)
			with := say.With{"What": d.item(store.Found{Bucket: string(r.kind), Key: string(id), State: store.Lost, Body: body}).what()}
			line := say.Of("{{.What}}: cannot be read.", with)
			if errors.Is(err, ErrNewer) {
				line = say.Of("{{.What}}: written by a newer version of Twinloaf, and left as it is.", with)
			}
			report.Unreadable = append(report.Unreadable, line)
			return ctx.Err()
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// checkSeals reads the vault, looks in it for every sealed tasting, and verifies each
// against its fingerprints.
func checkSeals(t *Tx, report *Report) error {
	d := describer{t: t, reader: newSummaryReader()}
	done := map[ID]bool{}
	told := func(id ID) {
		done[id] = true
		item := d.item(store.Found{Bucket: string(KindTasting), Key: string(id), State: store.Lost})
		item.Seal = true
		report.Seals = append(report.Seals, say.Of("{{.What}}: cannot be read, so that nobody can unseal it.", say.With{"What": item.what()}))
	}
	vault := t.st.Side(sideVault)
	err := vault.Each("", func(key string, _ []byte, damage error) error {
		if damage != nil {
			told(ID(key))
		}
		return nil
	})
	if err != nil {
		return err
	}
	tastings, err := collect[Tasting](t, func(ta *Tasting) bool { return ta.IsSealed() && !vault.Has(string(ta.ID)) })
	if err != nil {
		return err
	}
	for _, ta := range tastings {
		told(ta.ID)
	}
	return verifySeals(t, func(id ID, err error) {
		if done[id] {
			return
		}
		why, said := say.OfError(err)
		if !said {
			why = say.Of("something in it cannot be read")
		}
		item := d.item(store.Found{Bucket: string(KindTasting), Key: string(id), State: store.Lost})
		report.Seals = append(report.Seals, say.Of("{{.What}}: {{.Why}}.", say.With{"What": item.what(), "Why": why}))
	})
}

// rebuild makes the indexes anew and gives what is then in them.
func rebuild(ctx context.Context, t *Tx) (store.Contents, error) {
	// Records that cannot be read have been told of.
	if _, err := t.st.RebuildLinks(ctx, func(Ref, error) {}); err != nil {
		return nil, err
	}
	// The summaries of bakes that only a newer program can read stay as they are.
	summaries := t.st.Side(sideSummaries)
	kept := map[ID][]byte{}
	err := t.st.Each(KindBake, func(id ID, envelope []byte) error {
		if _, err := decode[Bake](id, envelope); errors.Is(err, ErrNewer) {
			if body, err := summaries.Get(string(id)); err == nil && body != nil {
				kept[id] = append([]byte{}, body...)
			}
		}
		return ctx.Err()
	})
	if err != nil {
		return nil, err
	}
	if err := t.st.Clear(sideSummaries); err != nil {
		return nil, err
	}
	summaries = t.st.Side(sideSummaries)
	for id, body := range kept {
		if err := summaries.Put(string(id), body); err != nil {
			return nil, err
		}
	}
	if err := reindexAll(t); err != nil {
		return nil, err
	}
	return t.st.Contents(store.BucketLinks, sideSummaries)
}

// checkPhotos verifies the original of every photo against its hash.
func (j *Journal) checkPhotos(ctx context.Context, report *Report, how Checking) error {
	photos, err := collect[Photo](j, func(*Photo) bool { return true })
	if err != nil {
		return err
	}
	d := describer{t: j, reader: newSummaryReader()}
	found := map[string]error{}
	for i, p := range photos {
		how.tell(report.Records, i, len(photos))
		err, done := found[p.Hash]
		if !done {
			var h photo.Hash
			if h, err = photo.ParseHash(p.Hash); err == nil {
				err = j.files.Verify(ctx, h)
			}
			found[p.Hash] = err
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err == nil {
			continue
		}
		name, day := d.nameOf(p.Owner.ID)
		item := AsideItem{Kind: KindPhoto, IDs: []ID{p.ID}, Name: name, Day: day}
		with := say.With{"What": item.what(), "File": cmp.Or(p.Name, p.Caption)}
		switch {
		case errors.Is(err, photo.ErrAltered):
			report.Photos = append(report.Photos, say.Of("{{.What}} (“{{.File}}”): the original picture was altered.", with))
		case errors.Is(err, photo.ErrMissing):
			report.Photos = append(report.Photos, say.Of("{{.What}} (“{{.File}}”): the original picture is missing.", with))
		default:
			report.Photos = append(report.Photos, say.Of("{{.What}} (“{{.File}}”): the original picture cannot be read.", with))
		}
	}
	return nil
}
