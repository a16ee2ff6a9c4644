package dough

import (
	"testing"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// A levain is begun with the culture that the bake is said to be of.
func TestALevainIsOfTheBakesCulture(t *testing.T) {
	b := pagestest.New(t)
	ids := map[string]journal.ID{}
	for _, name := range []string{"Gorse", "Harbour"} {
		c := &journal.Culture{Name: name}
		if err := b.Env.Journal.Do("a culture", func(tx *journal.Tx) error { return journal.Put(tx, c) }); err != nil {
			t.Fatal(err)
		}
		ids[name] = c.ID
	}
	names, err := KnowNames(b.Env.Journal)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"Gorse", "Harbour"} {
		p := &slowPage{mix: Mix{Culture: ids[name]}}
		NewParts(b.Env, p, names).addLevain()
		if got := p.mix.Levains[0].Lines[0].Name; got != name {
			t.Errorf("of %s it is begun with %q", name, got)
		}
	}
}
