package bakes

import (
	"errors"
	"reflect"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// record is the bake that a page shows. A new bake is put into the journal when
// something is written on its page, and not before: a page that is opened and left
// again leaves nothing behind.
type record struct {
	env *pages.Env
	id  journal.ID
	// draft marks a bake that the page itself puts into the journal; at and
	// culture are what it begins with.
	draft   bool
	at      time.Time
	culture journal.ID
}

func newBakeLabel() string { return lang.L("new bake") }

// openRecord finds the bake of a page; without an ID it is a new one.
func openRecord(env *pages.Env, id, culture journal.ID) (*record, error) {
	if id != "" {
		_, err := journal.Get[journal.Bake](env.Journal, id)
		return &record{env: env, id: id}, err
	}
	id, err := env.Journal.NewID()
	return &record{env: env, id: id, draft: true, at: env.Now(), culture: culture}, err
}

// get reads the bake. A new one that is not in the journal yet is blank.
func (r *record) get() (b *journal.Bake, exists bool, err error) {
	b, err = journal.Get[journal.Bake](r.env.Journal, r.id)
	if errors.Is(err, journal.ErrNotFound) && r.draft {
		return r.blank(), false, nil
	}
	return b, err == nil, err
}

func (r *record) blank() *journal.Bake {
	return &journal.Bake{Head: journal.Head{ID: r.id}, At: r.at, Culture: r.culture}
}

// put makes sure that the bake is in the journal.
func (r *record) put() bool {
	_, exists, err := r.get()
	switch {
	case err != nil:
		r.env.Fail(err)
		return false
	case exists:
		return true
	}
	return r.env.Do(newBakeLabel(), func(tx *journal.Tx) error { return journal.Put(tx, r.blank()) })
}

// edit keeps what is typed.
func (r *record) edit(label string, set func(*journal.Bake)) {
	if r.put() {
		r.env.Fail(journal.Edit(r.env.Journal, r.id, label, set))
	}
}

// do makes one change that is a step of the history by itself.
func (r *record) do(label string, change func(*journal.Bake)) bool {
	return r.put() && r.env.Do(label, func(tx *journal.Tx) error {
		return journal.Change(tx, r.id, change)
	})
}

// leave takes away a new bake that was left empty. Where the history ends with
// its making, that step is taken back, so that nothing is left of it and what was
// undone can still be done again.
func (r *record) leave() {
	if !r.draft {
		return
	}
	b, exists, err := r.get()
	if err != nil || !exists || !isEmpty(b, r.culture) || b.InBin() {
		return
	}
	if photos, err := journal.Photos(r.env.Journal, r.id); err != nil || len(photos) > 0 {
		return
	}
	if rows, err := journal.SeriesOf(r.env.Journal, r.id); err != nil || len(rows) > 0 {
		return
	}
	if undo, _ := r.env.Journal.Steps(); undo == newBakeLabel() {
		_, err = r.env.Journal.Undo()
		r.env.Fail(err)
		return
	}
	r.env.Do(lang.L("removing an empty bake"), func(tx *journal.Tx) error {
		return tx.Remove(journal.RefOf(b))
	})
}

// isEmpty reports whether a bake says nothing beyond its day and the culture that
// it began with.
func isEmpty(b *journal.Bake, culture journal.ID) bool {
	for _, in := range b.Ingredients {
		if !blankLine(in) {
			return false
		}
	}
	for _, s := range b.Outcome.Scores {
		if s.Score != 0 || s.Note != "" {
			return false
		}
	}
	o := b.Outcome
	o.Scores = nil
	return b.Name == "" && b.Notes == "" && b.Loaves == 0 && b.State == journal.Recorded &&
		(b.Culture == "" || b.Culture == culture) && b.Formula == "" && b.From == "" && b.Trial == "" &&
		len(b.Levains) == 0 && len(b.Steps) == 0 && reflect.DeepEqual(o, journal.Outcome{}) &&
		reflect.DeepEqual(b.Water, journal.WaterPlan{})
}

// blankLine reports whether nothing is written on a line of the dough.
func blankLine(in journal.Ingredient) bool { return in.Name == "" && in.Grams == 0 && in.Lot == "" }

// Mix gives what went into the bake.
func (r *record) Mix() dough.Mix {
	b, _, err := r.get()
	if err != nil {
		return dough.Mix{} // the page says so when it shows the bake
	}
	return dough.SideOf(b).Mix
}

// Edit keeps what is typed of the dough.
func (r *record) Edit(label string, change func(*dough.Mix)) { r.edit(label, dough.OfBake(change)) }

// Do changes the dough at once.
func (r *record) Do(label string, change func(*dough.Mix)) bool {
	return r.do(label, dough.OfBake(change))
}
