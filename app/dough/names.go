package dough

import (
	"cmp"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// Names is what the journal can say of an ingredient by its name: the flours and
// cultures it has, and what earlier bakes held.
type Names struct {
	cultures, flours, others []string                       // flours and others by how often they were used
	facts                    map[string]*journal.FlourFacts // by [journal.FlourKey]
	fed                      map[string]*journal.Culture    // likewise
	// newest is the newest bake that holds a flour, in which its facts are
	// looked up when they are wanted; nothing is read before.
	newest map[string]journal.ID
	read   func(journal.ID) (*journal.Bake, error)
}

// KnowNames asks the journal for the flours, cultures and add-ins it has.
func KnowNames(j *journal.Journal) (*Names, error) {
	n := &Names{
		facts: map[string]*journal.FlourFacts{}, fed: map[string]*journal.Culture{}, newest: map[string]journal.ID{},
		read: func(id journal.ID) (*journal.Bake, error) { return journal.Get[journal.Bake](j, id) },
	}
	cultures, err := journal.All[journal.Culture](j)
	if err != nil {
		return nil, err
	}
	for _, c := range cultures {
		if c.Ended.IsZero() && c.Name != "" {
			n.cultures = append(n.cultures, c.Name)
			n.fed[journal.FlourKey(c.Name)] = c
		}
	}
	flours, err := journal.All[journal.Flour](j)
	if err != nil {
		return nil, err
	}
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, err
	}
	n.gather(flours, summaries)
	return n, nil
}

// cultureOr is the name of the culture that a dough is said to be of, or else of the first.
func (n *Names) cultureOr(own journal.ID) string {
	for _, name := range n.cultures {
		if n.fed[journal.FlourKey(name)].ID == own {
			return name
		}
	}
	if len(n.cultures) > 0 {
		return n.cultures[0]
	}
	return ""
}

// tally counts how often names were used.
type tally struct {
	at    map[string]int // by key
	names []string
	n     []int
}

func (t *tally) add(name string) {
	key := journal.FlourKey(name)
	if key == "" {
		return
	}
	i, ok := t.at[key]
	if !ok {
		if t.at == nil {
			t.at = map[string]int{}
		}
		i = len(t.names)
		t.at[key], t.names, t.n = i, append(t.names, name), append(t.n, 0)
	}
	t.n[i]++
}

// most gives the names, the most used first.
func (t *tally) most() []string {
	order := make([]int, len(t.names))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(t.n[b]-t.n[a], strings.Compare(t.names[a], t.names[b]))
	})
	out := make([]string, len(order))
	for i, k := range order {
		out[i] = t.names[k]
	}
	return out
}

// gather counts what the larder holds and what was baked with; the summaries come
// newest first.
func (n *Names) gather(flours []*journal.Flour, summaries []*journal.BakeSummary) {
	var used, others tally
	for _, f := range flours {
		used.add(f.Name)
		n.facts[journal.FlourKey(f.Name)] = &f.Facts
	}
	for _, c := range summaries {
		for _, f := range c.Flours {
			used.add(f.Name)
			if _, seen := n.newest[f.Key]; !seen {
				n.newest[f.Key] = c.ID
			}
		}
		for _, a := range c.AddIns {
			others.add(a)
		}
	}
	n.flours, n.others = used.most(), others.most()
}

// suggest gives the names that hold what is typed, those that begin with it first.
func (n *Names) suggest(text string) []string {
	low := journal.FlourKey(text)
	if low == "" {
		return nil
	}
	var begin, hold []string
	for _, name := range slices.Concat(n.flours, n.cultures, []string{lang.L("Water"), lang.L("Salt")}, n.others) {
		switch key := journal.FlourKey(name); {
		case slices.Contains(begin, name) || slices.Contains(hold, name):
		case strings.HasPrefix(key, low):
			begin = append(begin, name)
		case strings.Contains(key, low):
			hold = append(hold, name)
		}
	}
	return append(begin, hold...)
}

// told is what a name tells of an ingredient.
type told struct {
	role       formula.Role
	flour      *journal.FlourFacts
	hydration  *formula.Percent
	waterShare *formula.Percent
}

func (n *Names) tell(name string) told {
	t := told{role: formula.GuessRole(name, n.cultures, n.flours)}
	switch t.role {
	case formula.Flour:
		t.flour = n.flour(name)
	case formula.Culture:
		if c := n.culture(name); c != nil {
			t.hydration, t.flour = c.Hydration, fedWith(c)
		}
	default:
		if share, ok := formula.WaterShareOf(name); ok {
			t.waterShare = new(share)
		}
	}
	return t
}

// Name gives a line a name and what the name tells: its role, a flour's facts, a
// culture's hydration, a liquid's water. What the baker said otherwise stays.
func (n *Names) Name(in *journal.Ingredient, name string) { n.naming(in.Name, name)(in) }

// naming is the change that [Names.Name] makes of a line that was called otherwise. What
// the names tell is looked up before, so that the change itself reads nothing: it may be
// made again while the journal writes, on another goroutine.
func (n *Names) naming(old, name string) func(*journal.Ingredient) {
	was, now := n.tell(old), n.tell(name)
	return func(in *journal.Ingredient) {
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
}

// flour gives what is known of a flour, or else what its name tells.
func (n *Names) flour(name string) *journal.FlourFacts {
	key := journal.FlourKey(name)
	if f, ok := n.facts[key]; ok {
		return new(*f)
	}
	if f := n.baked(key); f != nil {
		n.facts[key] = f
		return new(*f)
	}
	grain, whole := formula.GuessGrain(name)
	if grain == "" && !whole {
		return nil
	}
	f := &journal.FlourFacts{Grain: grain}
	if whole {
		f.Wholegrain = 100
	}
	return f
}

// baked looks the facts of a flour up in the newest bake that holds it.
func (n *Names) baked(key string) *journal.FlourFacts {
	id, ok := n.newest[key]
	if !ok {
		return nil
	}
	b, err := n.read(id)
	if err != nil {
		return nil // what its name tells stands in
	}
	m := Mix{Ingredients: b.Ingredients, Levains: b.Levains}
	for part := formula.Final; part < len(m.Levains); part++ {
		for _, in := range *m.Lines(part) {
			if in.Role == formula.Flour && in.Flour != nil && journal.FlourKey(in.Name) == key {
				return in.Flour
			}
		}
	}
	return nil
}

// culture gives the culture whose name a name is or holds.
func (n *Names) culture(name string) *journal.Culture {
	padded := " " + journal.FlourKey(name) + " "
	for _, c := range n.cultures {
		if key := journal.FlourKey(c); strings.Contains(padded, " "+key+" ") {
			return n.fed[key]
		}
	}
	return nil
}

// fedWith is what a culture is fed with, as one flour; nil if not known.
func fedWith(c *journal.Culture) *journal.FlourFacts {
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
