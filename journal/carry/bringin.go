package carry

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"strconv"
	"sync/atomic"

	"github.com/go-json-experiment/json/jsontext"
	"golang.org/x/sync/errgroup"

	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/photo"
	"twinloaf/journal/say"
)

// A Way says what becomes of two versions of a record. The zero Way loses nothing.
type Way int

// The ways.
const (
	KeepBoth   Way = iota // the journal's stays, the other is kept beside it
	KeepMine              // the journal's stays
	TakeTheirs            // the other takes its place
)

// ErrChanged is wrapped when the journal has changed since it was compared.
var ErrChanged = say.NewError("the journal has changed since the archive was looked at; look at it again")

// undoable is how much may be brought in so that one undo takes it back: each step of
// the history is read whole whenever its name is shown.
const undoable = 8 << 20

// An Order is how an archive is to be brought in.
type Order struct {
	// Label names the change to the baker.
	Label string
	// Way chooses for each item that is Different; nil keeps both. Settings, of which
	// there is one record, stay the journal's unless the others are taken.
	Way func(*Item) Way
	// Named gives the name of a copy that is kept beside what has the name; nil gives it
	// the same.
	Named func(name string) string
	// Progress, which may be nil, is told how many bytes of pictures are done, from several
	// goroutines at once.
	Progress func(done int64)
}

// Brought is what was brought in.
type Brought struct {
	Records int // written, copies among them
	Photos  int // pictures that the journal had not got
	// Undoable says that one undo takes it back. The pictures stay on the disk.
	Undoable bool
}

// A kept record is about to be written.
type kept struct {
	journal.Raw
	was *Item
	// copied says that it is kept under another ID than its own.
	copied bool
}

// BringIn keeps what the archive brings. First all pictures that are missing are
// stored, which no record names yet; then all records are written in one change. On any
// error, and when ctx ends, no record has changed; pictures that were stored by then
// are named by none.
func (ar *Arrival) BringIn(ctx context.Context, o Order) (Brought, error) {
	picked, beside := ar.pick(o)
	records, err := ar.written(o, picked, beside)
	if err != nil {
		return Brought{}, err
	}
	defer ar.j.Adding()()
	done := Brought{Records: len(records)}
	if done.Photos, err = ar.storePictures(ctx, records, o.Progress); err != nil {
		return Brought{}, err
	}
	change := ar.j.DoWithoutUndo
	if done.Undoable = fitsUndo(picked); done.Undoable {
		change = ar.j.Do
	}
	err = change(o.Label, func(tx *journal.Tx) error {
		for _, r := range records {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := r.put(tx); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return Brought{}, err
	}
	return done, nil
}

// Undoable tells whether what would be brought in can be taken back by one undo. It
// answers at once.
func (ar *Arrival) Undoable(o Order) bool {
	picked, _ := ar.pick(o)
	return fitsUndo(picked)
}

func fitsUndo(picked []choice) bool {
	size := 0
	for _, c := range picked {
		size += len(c.item.theirs)
	}
	return size <= undoable
}

// put writes a record if what is there is what was compared.
func (k kept) put(tx *journal.Tx) error {
	now, err := journal.GetRaw(tx, k.Ref)
	switch {
	case errors.Is(err, journal.ErrNotFound):
		if !k.copied && k.was.Standing != New {
			return ErrChanged
		}
	case err != nil:
		return err
	case k.copied:
		return nil // it was kept beside before
	case k.was.Standing == New:
		return ErrChanged
	default:
		if d, err := archive.DigestOf(now.Body); err != nil || d != k.was.mine {
			return ErrChanged
		}
	}
	return journal.PutRaw(tx, k.Raw)
}

// A choice is a record of the archive that is to be written.
type choice struct {
	item   *Item
	copied bool
}

// pick lists the records to be written, and the names that copies get, by the names that
// they have in the archive.
func (ar *Arrival) pick(o Order) (chosen []choice, beside map[string]string) {
	beside = map[string]string{}
	maps.Copy(beside, ar.beside)
	for i := range ar.Items {
		item := &ar.Items[i]
		way := KeepMine
		switch {
		case item.Standing == Refused:
			continue
		case item.Standing == New:
			chosen = append(chosen, choice{item, false})
			continue
		case item.Standing == Different && o.Way == nil:
			way = KeepBoth
		case item.Standing == Different:
			way = o.Way(item)
		}
		if way == TakeTheirs {
			chosen = append(chosen, choice{item, false})
			continue
		}
		// What belongs to a copy is kept again with it, so that both are whole.
		if item.settled {
			continue
		}
		id := besideOwner(*item, beside)
		if id == "" && way == KeepBoth && item.Kind != journal.KindSettings {
			id = archive.Beside(string(item.ID), item.digest)
		}
		if id != "" && ar.beside[string(item.ID)] == "" {
			beside[string(item.ID)] = id
			chosen = append(chosen, choice{item, true})
		}
	}
	return chosen, beside
}

// written gives the records as they are to be written.
func (ar *Arrival) written(o Order, chosen []choice, beside map[string]string) ([]kept, error) {
	var out []kept
	for _, c := range chosen {
		body, err := ar.renamed(c.item.Kind, c.item.theirs, beside)
		if err != nil {
			return nil, err
		}
		k := kept{Raw: journal.Raw{Ref: c.item.Ref, Body: body}, was: c.item, copied: c.copied}
		if c.copied {
			k.ID = journal.ID(beside[string(c.item.ID)])
			if k.Body, err = o.name(c.item, body); err != nil {
				return nil, err
			}
		}
		out = append(out, k)
	}
	return out, nil
}

// name has a copy that the baker sees in lists bear another name than what it lies beside.
func (o Order) name(item *Item, body jsontext.Value) (jsontext.Value, error) {
	if o.Named == nil || item.Name == "" || item.Owner.ID != "" || item.Kind == journal.KindPhoto || item.Kind == journal.KindTempLog {
		return body, nil
	}
	name, err := jsontext.AppendQuote(nil, o.Named(item.Name))
	if err != nil {
		return nil, err
	}
	return archive.With(body, map[string]jsontext.Value{"name": name})
}

// missing gives the pictures, by their hash, that some records name and the journal has not got.
func (ar *Arrival) missing(records []journal.Raw) map[string]archive.Photo {
	out := map[string]archive.Photo{}
	for _, r := range records {
		if r.Kind != journal.KindPhoto {
			continue
		}
		hash := fileOf(r).hash
		if p, ok := ar.photos[hash]; ok && !ar.j.HasOriginal(hash) {
			out[hash] = p
		}
	}
	return out
}

// storePictures stores the pictures that are missing.
func (ar *Arrival) storePictures(ctx context.Context, records []kept, progress func(int64)) (int, error) {
	raws := make([]journal.Raw, len(records))
	for i, r := range records {
		raws[i] = r.Raw
	}
	wanted := ar.missing(raws)
	if len(wanted) == 0 {
		return 0, nil
	}
	in := ar.j.Intake()
	defer in.Drop()
	var done atomic.Int64
	work, working := errgroup.WithContext(ctx)
	work.SetLimit(8) // it is the disk that is waited for
	for _, p := range ar.Manifest.Photos {
		if _, ok := wanted[p.SHA256]; !ok {
			continue
		}
		work.Go(func() error {
			if err := ar.storePicture(working, in, p); err != nil {
				return err
			}
			if n := done.Add(p.Bytes); progress != nil {
				progress(n)
			}
			return nil
		})
	}
	if err := work.Wait(); err != nil {
		return 0, err
	}
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	return len(wanted), in.Settle()
}

func (ar *Arrival) storePicture(ctx context.Context, in *photo.Intake, p archive.Photo) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	h, err := photo.ParseHash(p.SHA256)
	if err != nil {
		return err
	}
	format, _ := photo.FormatOf(p.Ext()) // the manifest has no other endings
	r, err := ar.a.Photo(ctx, p)
	if err != nil {
		return err
	}
	defer r.Close()
	if err := in.Add(ctx, h, format, r); err != nil {
		return fmt.Errorf("storing picture %s: %w", strconv.Quote(p.Path), err)
	}
	return nil
}
