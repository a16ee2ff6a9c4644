package kit

import (
	"testing"

	"fyne.io/fyne/v2"
)

// A grouped list holds every option once, behind its group, and choosing there chooses it.
func TestGroupsOfAChoice(t *testing.T) {
	var chosen []int
	c := NewChoiceField("by", "choose", []string{"salt", "rye", "season", "spelt"}, func(i int) { chosen = append(chosen, i) })
	items := func() []*fyne.MenuItem {
		var out []*fyne.MenuItem
		for i, o := range c.options {
			out = append(out, fyne.NewMenuItem(o, func() { c.choose(i) }))
		}
		return out
	}
	if got := c.grouped(items()); len(got) != 4 {
		t.Errorf("without groups there are %d items", len(got))
	}
	c.SetGroups([]string{"", "Flours", "", "Flours"})
	got := c.grouped(items())
	if len(got) != 3 || got[0].Label != "salt" || got[1].Label != "Flours" || got[2].Label != "season" {
		t.Fatalf("grouped %v", got)
	}
	flours := got[1].ChildMenu.Items
	if len(flours) != 2 || flours[1].Label != "spelt" {
		t.Fatalf("the group holds %v", flours)
	}
	flours[1].Action()
	if len(chosen) != 1 || chosen[0] != 3 {
		t.Errorf("chosen %v", chosen)
	}
}
