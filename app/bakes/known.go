package bakes

import (
	"cmp"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// known is what the journal can say of an ingredient by its name: the flours and
// cultures it has, and what earlier bakes held.
type known struct {
	cultures []*journal.Culture
	flours   []string // by how often they were baked with
	others   []string
	facts    map[string]*journal.FlourFacts // by [journal.FlourKey]
	// newest is the newest bake that holds a flour, in which its facts are
	// looked up when they are wanted.
	newest map[string]journal.ID
	read   func(journal.ID) (*journal.Bake, error)
}

// know asks the journal.
func know(j *journal.Journal) (*known, error) {
	k := &known{
		facts: map[string]*journal.FlourFacts{}, newest: map[string]journal.ID{},
		read: func(id journal.ID) (*journal.Bake, error) { return journal.Get[journal.Bake](j, id) },
	}
	var err error
	if k.cultures, err = journal.All[journal.Culture](j); err != nil {
		return nil, err
	}
	flours, err := journal.All[journal.Flour](j)
	if err != nil {
		return nil, err
	}
	cards, err := j.Cards()
	if err != nil {
		return nil, err
	}
	k.gather(flours, cards)
	return k, nil
}

// gather counts the names.
func (k *known) gather(flours []*journal.Flour, cards []*journal.Card) {
	type count struct {
		name string
		n    int
	}
	counts, others := map[string]*count{}, map[string]*count{}
	add := func(m map[string]*count, name string, n int) {
		key := journal.FlourKey(name)
		if c, ok := m[key]; ok {
			c.n += n
		} else if key != "" {
			m[key] = &count{name, n}
		}
	}
	for _, f := range flours {
		add(counts, f.Name, 1)
		k.facts[journal.FlourKey(f.Name)] = &f.Facts
	}
	for _, c := range cards { // newest first
		for _, f := range c.Flours {
			add(counts, f.Name, 1)
			if _, seen := k.newest[f.Key]; !seen {
				k.newest[f.Key] = c.ID
			}
		}
		for _, name := range c.AddIns {
			add(others, name, 1)
		}
	}
	sorted := func(m map[string]*count) []string {
		all := make([]*count, 0, len(m))
		for _, c := range m {
			all = append(all, c)
		}
		slices.SortFunc(all, func(a, b *count) int {
			return cmp.Or(b.n-a.n, strings.Compare(a.name, b.name))
		})
		names := make([]string, len(all))
		for i, c := range all {
			names[i] = c.name
		}
		return names
	}
	k.flours = sorted(counts)
	k.others = append([]string{lang.L("Water"), lang.L("Salt")}, sorted(others)...)
}

// suggest gives the names that go on from what is typed, or hold it.
func (k *known) suggest(text string) []string {
	low := journal.FlourKey(text)
	if low == "" {
		return nil
	}
	names := slices.Clone(k.flours)
	for _, c := range k.cultures {
		names = append(names, c.Name)
	}
	names = append(names, k.others...)
	var begins, holds []string
	for _, name := range names {
		switch key := journal.FlourKey(name); {
		case slices.Contains(begins, name) || slices.Contains(holds, name):
		case strings.HasPrefix(key, low):
			begins = append(begins, name)
		case strings.Contains(key, low):
			holds = append(holds, name)
		}
	}
	return append(begins, holds...)
}

// culture gives the culture of that name, or one whose name it holds.
func (k *known) culture(name string) *journal.Culture {
	low := " " + journal.FlourKey(name) + " "
	for _, c := range k.cultures {
		if key := journal.FlourKey(c.Name); key != "" && strings.Contains(low, " "+key+" ") {
			return c
		}
	}
	return nil
}

// guess is what a name tells of an ingredient.
type guess struct {
	role       formula.Role
	flour      *journal.FlourFacts
	hydration  *formula.Percent
	waterShare *formula.Percent
}

func (k *known) guess(name string) guess {
	names := make([]string, len(k.cultures))
	for i, c := range k.cultures {
		names[i] = c.Name
	}
	g := guess{role: room.GuessRole(name, names, k.flours)}
	switch g.role {
	case formula.Flour:
		g.flour = k.flourFacts(name)
	case formula.Culture:
		if c := k.culture(name); c != nil {
			g.hydration, g.flour = c.Hydration, cultureFlour(c)
		}
	case formula.Liquid, formula.Fat, formula.Sugar, formula.Other:
		if share, ok := formula.WaterShareOf(name); ok {
			g.waterShare = new(share)
		}
	}
	return g
}

// flourFacts gives what is known of a flour, or else what its name tells.
func (k *known) flourFacts(name string) *journal.FlourFacts {
	key := journal.FlourKey(name)
	if f, ok := k.facts[key]; ok {
		return new(*f)
	}
	if id, ok := k.newest[key]; ok {
		if f := k.factsIn(id, key); f != nil {
			k.facts[key] = f
			return new(*f)
		}
	}
	grain, whole := room.GuessGrain(name)
	if grain == "" && !whole {
		return nil
	}
	f := &journal.FlourFacts{Grain: grain}
	if whole {
		f.Wholegrain = 100
	}
	return f
}

func (k *known) factsIn(id journal.ID, key string) *journal.FlourFacts {
	b, err := k.read(id)
	if err != nil {
		return nil // the guess from the name stands in
	}
	lines := slices.Clone(b.Ingredients)
	for _, l := range b.Levains {
		lines = append(lines, l.Lines...)
	}
	for _, in := range lines {
		if in.Flour != nil && in.Role == formula.Flour && journal.FlourKey(in.Name) == key {
			return in.Flour
		}
	}
	return nil
}

// cultureFlour is what a culture is fed with, as one flour; nil if not known.
func cultureFlour(c *journal.Culture) *journal.FlourFacts {
	var whole, sum, most formula.Percent
	out := &journal.FlourFacts{}
	for _, f := range c.Flours {
		whole += f.Share * f.Wholegrain
		sum += f.Share
		if f.Share > most {
			most, out.Grain = f.Share, f.Grain
		}
	}
	if sum <= 0 {
		return nil
	}
	out.Wholegrain = whole / sum
	return out
}

// nameLine gives a line a name, and with it what the name tells: as long as the
// baker has not said otherwise, the role and the facts follow the name.
func (k *known) nameLine(in *journal.Ingredient, name string) {
	was, now := k.guess(in.Name), k.guess(name)
	in.Name = name
	if in.Role == "" || in.Role == was.role {
		in.Role = now.role
	}
	if in.Flour == nil || reflect.DeepEqual(in.Flour, was.flour) {
		in.Flour = now.flour
	}
	if in.Hydration == nil || reflect.DeepEqual(in.Hydration, was.hydration) {
		in.Hydration = now.hydration
	}
	if in.WaterShare == nil || reflect.DeepEqual(in.WaterShare, was.waterShare) {
		in.WaterShare = now.waterShare
	}
}
