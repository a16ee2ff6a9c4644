package bakes

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// binned is a record in the bin.
type binned struct {
	ref   journal.Ref
	at    time.Time // when it was put there
	name  string
	kind  string
	cover string // hash of a picture
	back  func(tx *journal.Tx) error
}

// readBin lists what is in the bin, the latest first.
func readBin(j *journal.Journal, u measure.Units) ([]binned, error) {
	var out []binned
	now := j.Now()
	for _, list := range []func(*journal.Journal) ([]binned, error){
		inBin(lang.L("bake"), func(b *journal.Bake) string {
			return lang.L("{{.Name}}, {{.Day}}", map[string]any{"Name": past.Name(b.Name), "Day": u.Day(b.At, now)})
		}),
		inBin(lang.L("photo"), func(p *journal.Photo) string {
			if p.Caption != "" {
				return p.Caption
			}
			return lang.L("{{.Role}}, {{.Name}}", map[string]any{"Role": pages.PhotoRoleWord(p.Role), "Name": p.Name})
		}),
		inBin(lang.L("culture"), func(c *journal.Culture) string { return named(c.Name) }),
		inBin(lang.L("feeding"), func(f *journal.Feeding) string { return u.Moment(f.At, now) }),
		inBin(lang.L("reading"), func(r *journal.Reading) string { return u.Moment(r.At, now) }),
		inBin(lang.L("move"), func(m *journal.Move) string { return u.Moment(m.At, now) }),
		inBin(lang.L("temperatures"), func(l *journal.TempLog) string { return named(l.Name) }),
		inBin(lang.L("row of pictures"), func(s *journal.Series) string { return named(s.Name) }),
		inBin(lang.L("formula"), func(f *journal.Formula) string {
			return lang.L("{{.Name}}, version {{.N}}", map[string]any{"Name": named(f.Name), "N": f.Number})
		}),
		inBin(lang.L("flour"), func(f *journal.Flour) string { return named(f.Name) }),
		inBin(lang.L("trial"), func(t *journal.Trial) string { return named(t.Name) }),
		inBin(lang.L("tasting"), func(t *journal.Tasting) string { return named(t.Name) }),
		inBin(lang.L("view of the shelf"), func(v *journal.View) string { return named(v.Name) }),
	} {
		some, err := list(j)
		if err != nil {
			return nil, fmt.Errorf("looking into the bin: %w", err)
		}
		out = append(out, some...)
	}
	slices.SortStableFunc(out, func(a, b binned) int { return b.at.Compare(a.at) })
	return out, nil
}

// inBin lists the records of one kind that are in the bin.
func inBin[T any, R journal.Record[T]](kind string, name func(R) string) func(*journal.Journal) ([]binned, error) {
	return func(j *journal.Journal) (out []binned, err error) {
		records, err := journal.Bin[T, R](j)
		for _, r := range records {
			ref := journal.RefOf(r)
			b := binned{ref: ref, at: journal.BinnedAt(r), name: name(r), kind: kind,
				back: func(tx *journal.Tx) error { return journal.Restore[T, R](tx, ref.ID) }}
			switch x := any(r).(type) {
			case *journal.Photo:
				b.cover = x.Hash
			case *journal.Bake:
				b.cover = coverOf(j, x.ID)
			}
			out = append(out, b)
		}
		return out, err
	}
}

// coverOf finds the picture that stands for a bake.
func coverOf(j *journal.Journal, id journal.ID) string {
	summaries, err := j.BakeSummaries()
	if err != nil {
		return "" // the row shows no picture
	}
	for _, c := range summaries {
		if c.ID == id {
			return c.Cover
		}
	}
	return ""
}

func named(name string) string { return cmp.Or(name, lang.L("without a name")) }

// emptyBin takes away for good what is in the bin, with what belongs to it.
func emptyBin(tx *journal.Tx, all []binned) error {
	for _, b := range all {
		if err := removeWhole(tx, b.ref); err != nil {
			return err
		}
	}
	return nil
}

// removeWhole takes a record away, and what belongs to it, and to that in turn.
func removeWhole(tx *journal.Tx, ref journal.Ref) error {
	if err := tx.Remove(ref); err != nil {
		return err
	}
	for _, list := range []func(*journal.Tx, journal.ID) ([]journal.Ref, error){
		owned[journal.Feeding], owned[journal.Reading], owned[journal.Move], owned[journal.TempLog], owned[journal.Photo], rowsOf,
	} {
		refs, err := list(tx, ref.ID)
		if err != nil {
			return err
		}
		for _, below := range refs {
			if err := removeWhole(tx, below); err != nil {
				return err
			}
		}
	}
	return nil
}

// owned lists the records of one kind that belong to another.
func owned[T any, R journal.Record[T]](tx *journal.Tx, owner journal.ID) ([]journal.Ref, error) {
	records, err := journal.Linked[T, R](tx, owner)
	refs := make([]journal.Ref, len(records))
	for i, r := range records {
		refs[i] = journal.RefOf(r)
	}
	return refs, err
}

// rowsOf are the rows of pictures of a culture, a feeding or a bake. A row in which
// something else stands beside it stays.
func rowsOf(tx *journal.Tx, owner journal.ID) ([]journal.Ref, error) {
	rows, err := journal.SeriesOf(tx, owner)
	if err != nil {
		return nil, err
	}
	var all []journal.Ref
	for _, s := range rows {
		if slices.ContainsFunc(s.Jars, func(j journal.SeriesJar) bool { return j.Culture != owner && j.Feeding != owner && j.Bake != owner }) {
			continue
		}
		all = append(all, journal.RefOf(s))
	}
	return all, nil
}
