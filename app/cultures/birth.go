package cultures

import (
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
)

// An origin is how a culture comes into the journal.
type origin int

const (
	fromFlour origin = iota // mixed now, from flour and water
	already                 // it exists, and is entered
	splitOff                // taken from another
)

// A birth is a new culture as it is being written down.
type birth struct {
	origin       origin
	name         string
	born         time.Time // zero: not known
	about        bool
	flours       string
	hydration    float64 // percent
	home         journal.Home
	usual        *float64
	flour, water float64 // of its first mix, or fed to what was split off
	parent       journal.ID
	split        float64 // grams taken from the parent
}

// begin is a birth with what is usual filled in.
func begin(parent *histories.CultureHistory, now time.Time) birth {
	b := birth{born: now, hydration: 100, home: journal.Counter, flour: 60, water: 60}
	if parent == nil {
		return b
	}
	c := parent.Culture
	b.origin, b.parent, b.split = splitOff, c.ID, 25
	b.flours, b.hydration, b.flour, b.water = floursText(c.Flours), 100*parent.Hydration(), 50, 50*parent.Hydration()
	return b
}

// problem says what is missing, or nothing.
func (b birth) problem(now time.Time) string {
	switch {
	case strings.TrimSpace(b.name) == "":
		return lang.L("Give it a name.")
	case !b.born.IsZero() && b.born.After(now.Add(time.Minute)):
		return lang.L("Its birth lies ahead: choose a day that has been.")
	case b.origin == fromFlour && (b.flour <= 0 || b.water <= 0):
		return lang.L("How much flour and water are mixed?")
	case b.origin == splitOff && b.parent == "":
		return lang.L("Which culture is it split from?")
	case b.origin == splitOff && b.split <= 0:
		return lang.L("How much is taken from the other?")
	}
	return ""
}

// write makes the culture and what goes with it part of a change, and gives its ID.
// mark is what it is told apart by. parent is the life it is split from.
func (b birth) write(tx *journal.Tx, now time.Time, mark journal.Mark, parent *histories.CultureHistory) (journal.ID, error) {
	born := b.born
	if b.origin != already {
		born = now
	}
	c := &journal.Culture{
		Name: strings.TrimSpace(b.name), Born: born, BornAbout: b.origin == already && b.about, Flours: parseFlours(b.flours),
		Home: b.home, Usual: celsius(b.usual),
	}
	c.SetMark(mark)
	if b.hydration > 0 {
		c.Hydration = new(formula.Percent(b.hydration))
	}
	if b.origin == splitOff {
		c.Parent = b.parent
	}
	if err := journal.Put(tx, c); err != nil {
		return "", err
	}
	first := &journal.Feeding{Culture: c.ID, At: now, Flour: formula.Grams(b.flour), Water: formula.Grams(b.water), RoomC: celsius(b.usual)}
	switch b.origin {
	case already:
		return c.ID, nil
	case splitOff:
		first.Kept = formula.Grams(b.split)
		if parent != nil {
			before, _ := parent.Jar(now)
			taken := &journal.Feeding{Culture: b.parent}
			takeForm{at: now, grams: b.split, why: journal.Given, note: lang.L("Split off: {{.Name}}", map[string]any{"Name": c.Name})}.write(taken, before)
			if err := journal.Put(tx, taken); err != nil {
				return "", err
			}
		}
	}
	return c.ID, journal.Put(tx, first)
}
