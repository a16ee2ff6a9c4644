package crumb

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// others lists the crumb photos beside one: of the same bake first, then the
// newest.
func others(j *journal.Journal, ph *journal.Photo) ([]*journal.Photo, error) {
	all, err := journal.All[journal.Photo](j)
	if err != nil {
		return nil, err
	}
	all = slices.DeleteFunc(all, func(o *journal.Photo) bool { return o.Role != journal.RoleCrumb || o.ID == ph.ID })
	slices.SortStableFunc(all, func(a, b *journal.Photo) int {
		if own, other := a.Owner == ph.Owner, b.Owner == ph.Owner; own != other {
			if own {
				return -1
			}
			return 1
		}
		return b.When().Compare(a.When())
	})
	return all, nil
}

// choosePhoto offers crumb photos and hands over which was taken.
func choosePhoto(env *pages.Env, title, aside string, all []*journal.Photo, took func(*journal.Photo)) {
	if len(all) == 0 {
		env.Say(lang.L("There is no other crumb photo yet."), false)
		return
	}
	items := make([]kit.PhotoItem, len(all))
	for i, ph := range all {
		items[i] = kit.PhotoItem{Key: ph.Hash, Title: ownerName(env.Journal, ph), Sub: env.Units().Moment(ph.When(), env.Now())}
	}
	env.PickPhoto(title, aside, items, func(i int) { took(all[i]) })
}

// compare asks with which photo to compare this one.
func (p *measurePage) compare() {
	p.choose(lang.L("Compare with which photo?"), lang.L("Arrow keys move, Enter selects."), func(second *journal.Photo) {
		p.env.Go(pages.Route{Name: pages.Crumb, ID: p.id, More: string(second.ID)})
	})
}

// retake asks which photo shows the same slice.
func (p *measurePage) retake() {
	p.choose(lang.L("Which photo shows the same slice?"),
		lang.L("Photos of one slice, each taken anew, tell how far figures move by themselves."), func(second *journal.Photo) {
			if tieSame(p.env, p.id, second.ID) {
				p.env.Go(pages.Route{Name: pages.Crumb, ID: p.id, More: string(second.ID)})
			}
		})
}

func (p *measurePage) choose(title, aside string, took func(*journal.Photo)) {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	all, err := others(p.env.Journal, ph)
	if p.env.Failed(err) {
		return
	}
	choosePhoto(p.env, title, aside, all, took)
}

// tieSame notes that second is a retake of the slice on first. The one that came
// later is the retake, so that the other keeps standing for the slice.
func tieSame(env *pages.Env, first, second journal.ID) bool {
	return env.Do(lang.L("two photos of one slice"), func(tx *journal.Tx) error {
		a, err := journal.Get[journal.Photo](tx, first)
		if err != nil {
			return err
		}
		b, err := journal.Get[journal.Photo](tx, second)
		if err != nil {
			return err
		}
		if a.When().After(b.When()) {
			a, b = b, a
		}
		if sliceOf(a).Same == b.ID {
			return nil
		}
		saidOf(b).Same = a.ID
		return journal.Put(tx, b)
	})
}

// untie takes back that two photos show one slice.
func untie(env *pages.Env, first, second journal.ID) {
	env.Do(lang.L("two photos of different slices"), func(tx *journal.Tx) error {
		for _, pair := range [][2]journal.ID{{first, second}, {second, first}} {
			if err := journal.Change(tx, pair[0], func(ph *journal.Photo) {
				if ph.Slice != nil && ph.Slice.Same == pair[1] {
					ph.Slice.Same = ""
				}
			}); err != nil {
				return err
			}
		}
		return nil
	})
}
