package kit

import "fyne.io/fyne/v2"

// pickChoice keeps which of a list are chosen, as file lists do everywhere: a tap
// chooses one, Ctrl adds or takes one away, Shift takes all from the last one.
type pickChoice struct {
	chosen map[int]bool
	anchor int
	many   bool
}

func newPickChoice(many bool) *pickChoice {
	return &pickChoice{chosen: map[int]bool{}, many: many}
}

func (c *pickChoice) clear() {
	clear(c.chosen)
	c.anchor = 0
}

// tap is a tap on i with modifiers held.
func (c *pickChoice) tap(i int, mod fyne.KeyModifier) {
	switch {
	case c.many && mod&fyne.KeyModifierShift != 0:
		if mod&(fyne.KeyModifierControl|fyne.KeyModifierSuper) == 0 {
			clear(c.chosen)
		}
		for k := min(c.anchor, i); k <= max(c.anchor, i); k++ {
			c.chosen[k] = true
		}
	case c.many && mod&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0:
		c.toggle(i)
	default:
		clear(c.chosen)
		c.chosen[i] = true
		c.anchor = i
	}
}

// toggle is Space on i.
func (c *pickChoice) toggle(i int) {
	if !c.many {
		c.tap(i, 0)
		return
	}
	if c.chosen[i] {
		delete(c.chosen, i)
	} else {
		c.chosen[i] = true
	}
	c.anchor = i
}

// all chooses everything from first to n-1.
func (c *pickChoice) all(first, n int) {
	if !c.many {
		return
	}
	for i := first; i < n; i++ {
		c.chosen[i] = true
	}
}
