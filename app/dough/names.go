package dough

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// Names is what the journal can say of an ingredient by its name.
type Names struct {
	cultures, flours, others []string
	facts                    map[string]*journal.FlourFacts // by [journal.FlourKey]
	hydration                map[string]*formula.Percent    // of a culture, likewise
}

// KnowNames asks the journal for the flours, cultures and add-ins it has.
func KnowNames(j *journal.Journal) (*Names, error) {
	n := &Names{facts: map[string]*journal.FlourFacts{}, hydration: map[string]*formula.Percent{}}
	cultures, err := journal.All[journal.Culture](j)
	if err != nil {
		return nil, err
	}
	for _, c := range cultures {
		if c.Ended.IsZero() {
			n.cultures = append(n.cultures, c.Name)
			n.hydration[journal.FlourKey(c.Name)] = c.Hydration
		}
	}
	flours, err := journal.All[journal.Flour](j)
	if err != nil {
		return nil, err
	}
	for _, f := range flours {
		n.flours = append(n.flours, f.Name)
		n.facts[journal.FlourKey(f.Name)] = new(f.Facts)
	}
	cards, err := j.Cards()
	if err != nil {
		return nil, err
	}
	n.fromCards(cards)
	return n, nil
}

// fromCards adds what was baked with, the newest first.
func (n *Names) fromCards(cards []*journal.Card) {
	seen := map[string]bool{}
	for _, f := range n.flours {
		seen[journal.FlourKey(f)] = true
	}
	for _, c := range cards {
		for _, f := range c.Flours {
			if !seen[f.Key] {
				seen[f.Key] = true
				n.flours = append(n.flours, f.Name)
			}
		}
		for _, a := range c.AddIns {
			if !seen[a] {
				seen[a] = true
				n.others = append(n.others, a)
			}
		}
	}
}

// Suggest gives the names that hold what is typed, those that begin with it first.
func (n *Names) Suggest(text string) []string {
	low := journal.FlourKey(text)
	if low == "" {
		return nil
	}
	all := slices.Concat(n.flours, n.cultures, []string{lang.L("Water"), lang.L("Salt")}, n.others)
	var begin, hold []string
	for _, name := range all {
		switch key := journal.FlourKey(name); {
		case strings.HasPrefix(key, low):
			begin = append(begin, name)
		case strings.Contains(key, low):
			hold = append(hold, name)
		}
	}
	return append(begin, hold...)
}

// Name gives a line a name and what the name tells: its role, a flour's facts, a
// culture's hydration, a liquid's water. What the baker said stays.
func (n *Names) Name(in *journal.Ingredient, name string) {
	guessed := in.Role == "" || in.Role == room.GuessRole(in.Name, n.cultures, n.flours)
	in.Name = name
	if role := room.GuessRole(name, n.cultures, n.flours); guessed {
		in.Role = role
	}
	key := journal.FlourKey(name)
	switch in.Role {
	case formula.Flour:
		if f, ok := n.facts[key]; ok {
			in.Flour = new(*f)
			return
		}
		if grain, whole := room.GuessGrain(name); in.Flour == nil || in.Flour.Type == "" && in.Flour.Ash == nil && in.Flour.Protein == nil {
			in.Flour = &journal.FlourFacts{Grain: grain}
			if whole {
				in.Flour.Wholegrain = 100
			}
		}
	case formula.Culture:
		if h, ok := n.hydration[key]; ok {
			in.Hydration = h
		}
	case formula.Liquid, formula.Fat, formula.Sugar:
		if share, ok := formula.WaterShareOf(name); ok {
			in.WaterShare = new(share)
		}
	}
}
