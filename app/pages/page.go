// Package pages is what every room of the window stands on: what a page is, how
// one page goes to another without knowing it, and what the window lends them
// (the journal, the keys, the messages, work in the background).
//
// Everything here is called on Fyne's main goroutine unless it says otherwise.
package pages

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/journal"
)

// A Page is one screen. It is built when the baker goes there, and shown again
// when they come back to it.
type Page interface {
	// Object is what the page looks like: the same object every time.
	Object() fyne.CanvasObject
	// Title is for the window's title bar; it tells nothing that is sealed.
	Title() string
	// Keys are the page's own keys, in force while it is shown.
	Keys() []kit.Key
	// Start is where the work of the page begins: what has the keyboard when the page was
	// reached by a key, and what the first Tab goes to. Nil: whatever comes first on it.
	Start() fyne.Focusable
	// Reading says whether the page still reads what it will show.
	Reading() bool
	// Shown is called each time the page has come onto the screen, with what
	// it shows perhaps changed since it was last there.
	Shown()
	// Left is called when the page goes from the screen: it stops what ticks
	// and lets go of large pictures.
	Left()
	// Changed is called while the page is shown, after each change of the
	// journal. A page that does not show what was touched returns at once.
	Changed(journal.Changed)
}

// PictureTaker is a page that takes pictures dropped on the window or pasted.
type PictureTaker interface {
	TakePictures(pictures []journal.Picture)
}

// Leaver is a page that must be asked before the window goes elsewhere, such
// as a tasting in the middle of a sample. It calls leave if it may be left.
type Leaver interface {
	MayLeave(leave func())
}

// Behind is a page that lies behind another door than its place does: it gives the name of a
// place behind that one.
type Behind interface{ Behind() string }

// Bare is a page that wants the whole window, without the way to other pages, and
// nothing but ink on it: that of a sealed tasting.
type Bare interface {
	Bare() bool
}

// A Route names a page: which sort, and of which record.
type Route struct {
	Name string
	ID   journal.ID
	// More tells apart pages of one sort and record, in the room's own words.
	More string
}

// The places that other rooms may go to. A room may have more of its own.
const (
	Today    = "today"    // what needs the baker now
	Cultures = "cultures" // every culture
	Culture  = "culture"  // one culture
	Feeding  = "feeding"  // one feeding of a culture and its rise
	Series   = "series"   // a row of pictures and the curve that comes of it
	History  = "history"  // everything recorded of a culture; in More, what to show first
	Bakes    = "bakes"    // past bakes and those under way
	Bake     = "bake"     // one bake
	BakeDay  = "bake day" // one bake under way
	Formulas = "formulas" // every formula
	Formula  = "formula"  // one version of a formula
	Tastings = "tastings" // every trial and tasting
	Trial    = "trial"    // one trial
	Tasting  = "tasting"  // one tasting: plan, plate, score or verdict
	Shelf    = "shelf"    // browse past bakes
	Flour    = "flour"    // one flour, by its ID or, in More, by its key
	// Compare is two to four bakes side by side, their IDs in More, by spaces; of one
	// alone it is asked with which others.
	Compare  = "compare"
	Findings = "findings" // what the bakes show
	Photo    = "photo"    // one photo, large
	Crumb    = "crumb"    // measure the crumb of one photo
	Bin      = "bin"      // what was thrown away and can be brought back
	Settings = "settings"
	// Safekeeping is where the journal is backed up, taken away and brought back.
	Safekeeping = "safekeeping"
	// BringIn shows what an archive, whose path is in More, would bring.
	BringIn = "bring in"
	Help    = "help"
	About   = "about" // the program itself: its version, and what it is made with
)

// ToOutcome, in [Route.More] of a [Bake], opens its page where it is said how the
// bread came out, with the cursor there.
const ToOutcome = "outcome"

// ToBegin, in [Route.More] of [Cultures], asks for a new culture at once.
const ToBegin = "begin"

// At names the page of a record.
func At(name string, id journal.ID) Route { return Route{Name: name, ID: id} }

// An Opener builds the page of a place. An error says why it cannot be shown,
// such as a record that is gone.
type Opener func(env *Env, p Route) (Page, error)
