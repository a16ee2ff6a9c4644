package journal

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/formula"
)

// A Flour is one flour of the larder.
type Flour struct {
	Head
	Name  string     `json:"name"`
	Facts FlourFacts `json:"facts,omitzero"`
	Lots  []FlourLot `json:"lots,omitempty"`
	Notes string     `json:"notes,omitzero"`
}

func (*Flour) kind() Kind { return KindFlour }

// A FlourLot is one bag or delivery of a flour.
type FlourLot struct {
	ID     ID             `json:"id"`
	Mark   string         `json:"mark,omitzero"` // as printed on the bag
	Bought time.Time      `json:"bought,omitzero"`
	Grams  formula.Grams  `json:"g,omitzero"`
	Price  float64        `json:"price,omitzero"` // of the lot, in the journal's currency
	Note   string         `json:"note,omitzero"`
	Rest   jsontext.Value `json:",embed"`
}

// PerGram is what a gram of the flour cost at a time: by the lot bought last until
// then, or else by the first one. It is false when no lot has both a weight and a
// price.
func (f *Flour) PerGram(at time.Time) (price float64, ok bool) {
	var priced []FlourLot
	for _, l := range f.Lots {
		if l.Grams > 0 && l.Price > 0 {
			priced = append(priced, l)
		}
	}
	if len(priced) == 0 {
		return 0, false
	}
	slices.SortStableFunc(priced, func(a, b FlourLot) int { return a.Bought.Compare(b.Bought) })
	lot := priced[0]
	for _, l := range priced {
		if !l.Bought.After(at) {
			lot = l
		}
	}
	return lot.Price / float64(lot.Grams), true
}

// FlourNamed finds the flour of the larder with a key; nil if there is none.
func FlourNamed(r Reader, key string) (*Flour, error) {
	flours, err := All[Flour](r)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(flours, func(f *Flour) bool { return FlourKey(f.Name) == key })
	if i < 0 {
		return nil, nil
	}
	return flours[i], nil
}

// FlourFactsOf gives what the newest bakes say of a flour that is not in the
// larder; nil if none says anything. bakes come newest first.
func FlourFactsOf(bakes []*Bake, key string) *FlourFacts {
	for _, b := range bakes {
		for _, in := range b.everyLine() {
			if in.Role == formula.Flour && FlourKey(in.Name) == key && in.Flour != nil {
				return in.Flour
			}
		}
	}
	return nil
}

// RenameFlour gives a flour another name wherever it stands: in bakes, formulas,
// cultures, feedings and the larder, the bin among them. When the name is that of
// another flour the two become one, with the lots and notes of both. It gives how
// many bakes were altered.
func RenameFlour(t *Tx, key, name string) (bakes int, err error) {
	if name = strings.Join(strings.Fields(name), " "); name == "" {
		return 0, fmt.Errorf("renaming the flour %q: it needs a name", key)
	}
	lines := func(list []Ingredient) (changed bool) {
		for i := range list {
			if in := &list[i]; in.Role == formula.Flour && FlourKey(in.Name) == key && in.Name != name {
				in.Name, changed = name, true
			}
		}
		return changed
	}
	shares := func(list []FlourShare) (changed bool) {
		for i := range list {
			if FlourKey(list[i].Name) == key && list[i].Name != name {
				list[i].Name, changed = name, true
			}
		}
		return changed
	}
	dough := func(list []Ingredient, levains []LevainBuild) bool {
		changed := lines(list)
		for i := range levains {
			changed = lines(levains[i].Lines) || changed
		}
		return changed
	}
	if bakes, err = rewrite(t, func(b *Bake) bool { return dough(b.Ingredients, b.Levains) }); err != nil {
		return 0, err
	}
	if _, err = rewrite(t, func(f *Formula) bool { return dough(f.Ingredients, f.Levains) }); err != nil {
		return 0, err
	}
	if _, err = rewrite(t, func(c *Culture) bool { return shares(c.Flours) }); err != nil {
		return 0, err
	}
	if _, err = rewrite(t, func(f *Feeding) bool { return shares(f.Flours) }); err != nil {
		return 0, err
	}
	return bakes, renameInLarder(t, key, name)
}

// renameInLarder renames the record of a flour, or pours it into the one that has
// the name already.
func renameInLarder(t *Tx, key, name string) error {
	from, err := FlourNamed(t, key)
	if err != nil || from == nil {
		return err
	}
	to, err := FlourNamed(t, FlourKey(name))
	if err != nil {
		return err
	}
	if to == nil || to.ID == from.ID {
		from.Name = name
		return Put(t, from)
	}
	to.Name = name
	to.Lots = append(to.Lots, from.Lots...)
	to.Facts.fill(from.Facts)
	to.Notes = strings.TrimSpace(to.Notes + "\n" + from.Notes)
	if err := Put(t, to); err != nil {
		return err
	}
	return MoveToBin[Flour](t, from.ID)
}

// fill takes over what is not known yet.
func (f *FlourFacts) fill(o FlourFacts) {
	f.Grain = cmp.Or(f.Grain, o.Grain)
	f.Type = cmp.Or(f.Type, o.Type)
	f.Wholegrain = cmp.Or(f.Wholegrain, o.Wholegrain)
	f.Protein = cmp.Or(f.Protein, o.Protein)
	f.Ash = cmp.Or(f.Ash, o.Ash)
}

// rewrite goes through every record of a kind, the bin among them, and writes those
// that fn changed; it gives how many.
func rewrite[T any, R Record[T]](t *Tx, fn func(R) bool) (int, error) {
	all, err := collect[T, R](t, func(R) bool { return true })
	if err != nil {
		return 0, err
	}
	n := 0
	for _, rec := range all {
		if !fn(rec) {
			continue
		}
		if err := Put[T, R](t, rec); err != nil {
			return n, err
		}
		n++
	}
	return n, nil
}
