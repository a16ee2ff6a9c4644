package main

// demoStops are the pages of the demo journal. The way to each begins anywhere, or
// goes on from the one before.
func (t *tour) demoStops() []stop {
	to, on := fromAnywhere, goingOn
	return []stop{
		{"today", to(t.keys("ctrl+1"), t.seeing("On the bench")), 4},
		{"find", to(t.keys("ctrl+k"), t.seeing("Find anything"), t.typing("ferry")), 0},
		{"keys", to(t.keys("F1"), t.seeing("Every key")), 2},

		{"cultures", to(t.keys("ctrl+2")), 2},
		{"culture-new", to(t.keys("n")), 2},
		{"culture", to(t.finding("Harbour, culture")), 5},
		{"culture-feed", to(t.keys("f")), 2},
		{"culture-reading", to(t.finding("Gorse, culture"), t.seeing("Gorse, "), t.keys("r"), t.seeing("The level")), 2},
		{"culture-take", on(t.keys("t")), 0},
		{"culture-move", on(t.keys("m")), 0},
		{"culture-build", on(t.keys("p")), 2},
		{"culture-history", to(t.finding("Gorse, culture"), t.seeing("Gorse, "), t.keys("e"), t.seeing("Full history")), 2},
		{"culture-log", to(t.finding("Gorse, culture"), t.seeing("Gorse, "), t.keys("l"), t.pressing("Downloads"), t.seeing("cellar.csv"),
			t.pressing("cellar.csv"), t.pressing("Look at it")), 0},
		{"first-weeks", to(t.finding("Gorse, culture"), t.pressing("First weeks")), 4},
		{"feeding", to(t.finding("Gorse, culture"), t.seeing("Gorse, "), t.keys("c"), t.seeing("Back to Gorse")), 3},
		{"row-of-pictures", to(t.finding("Gorse, culture"), t.seeing("Gorse, "), t.keys("c"), t.seeing("Back to Gorse"), t.droppingRow(),
			t.seeing("pictures from"), t.keys("Return"), t.seeing("Do the lines lie right?"), t.missing("Stop"), t.keys("l"), t.seeing("Lines of the jar"), t.missing("Stop")), 2},

		{"bakes", to(t.keys("ctrl+3")), 2},
		{"bake", to(t.finding("Ferry loaf, Gorse")), 6},
		{"bake-photos-picker", on(t.keys("p"), t.pressing("Pictures"), t.pressing("by name"), t.seeing("cmyk.jpg")), 0},
		{"bake-day-over", on(t.keys("d")), 3},
		{"photo", to(t.finding("Ferry loaf, Gorse"), t.pressingThe(0, "kit.PhotoTile")), 0},
		{"photo-beside-which", on(t.keys("s"), t.seeing("Compare with which photo?")), 0},
		{"photo-pair", on(t.keys("s"), t.seeing("Compare with which photo?"), t.keys("Right", "Return"), t.seeing("Side by side")), 0},
		{"crumb", to(t.finding("Ferry loaf, Gorse"), t.keys("m")), 3},
		{"crumb-means", on(t.keys("w")), 2},
		{"crumb-compare-which", on(t.keys("s"), t.seeing("Compare with which photo?")), 0},
		{"crumb-compare", on(t.keys("s"), t.seeing("Compare with which photo?"), t.keys("Right", "Return"), t.seeing("Two crumbs")), 3},
		{"crumb-list", to(t.keys("ctrl+3"), t.keys("c")), 2},

		{"bake-day", to(t.keys("ctrl+1"), t.seeing("On the bench"), t.keys("o")), 3},
		{"bake-day-note", on(t.keys("n")), 0},
		{"bake-day-reading", on(t.keys("r")), 0},
		{"formulas", to(t.keys("ctrl+3", "f")), 2},
		{"formula", to(t.finding("Ferry loaf, formula, version 2")), 4},
		{"formula-tin", to(t.finding("Ferry loaf, formula, version 2"), t.pressing("From a tin…"), t.seeing("Dough for a tin")), 0},
		{"formula-next-version", on(t.keys("v")), 2},
		{"plan", to(t.finding("Ferry loaf, formula, version 2"), t.keys("g")), 4},
		{"bake-new", to(t.keys("ctrl+1", "n")), 4},

		{"tastings", to(t.keys("ctrl+4")), 2},
		{"tasting-planned", to(t.finding("A night or a day?")), 4},
		{"verdict", to(t.finding("Harbour or Gorse?")), 6},
		{"trial", to(t.finding("Harbour against Gorse, trial"), t.seeing("Move to the bin")), 4},
		{"trial-new", to(t.keys("ctrl+4", "n")), 3},
		{"trial-new-chosen", to(t.keys("ctrl+4", "n"), t.seeing("A new trial"), t.pressingThe(0, "kit.PhotoTile"), t.pressing("a culture"), t.typing("Harbour"), t.keys("Tab"), t.typing("Gorse"), t.keys("Tab"), t.missing("Say what each of them has")), 3},
		{"tasting-new", to(t.keys("ctrl+4", "t")), 3},

		{"shelf", to(t.keys("ctrl+5")), 2},
		{"shelf-filters", on(t.pressing("Dark rye")), 2},
		{"shelf-none", on(t.keys("slash"), t.typing("zzzz"), t.keys("Tab")), 0},
		{"year", to(t.keys("ctrl+5", "0", "y")), 3},
		{"flour", to(t.finding("rye, flour")), 4},
		{"compare", to(t.keys("ctrl+5", "0", "g", "Home", "space", "Right", "space", "c")), 4},
		{"compare-which", to(t.finding("Ferry loaf, Gorse"), t.keys("c"), t.seeing("Click or Enter compares the two")), 0},
		{"findings", to(t.keys("ctrl+6")), 4},
		{"findings-factors", to(t.keys("ctrl+1", "ctrl+6"), t.seeing("Outcome"), t.settling(), t.keys("f", "space")), 0},

		{"settings", to(t.pressing("Settings")), 2},
		{"safekeeping", to(t.finding("Safekeeping: backups"), t.seeing("Keeping the journal safe")), 2},
		{"take-away", to(t.finding("Safekeeping: backups"), t.seeing("Keeping the journal safe"), t.keys("t"), t.seeing("photos keep the place")), 0},
		{"take-a-bake-away", to(t.finding("Ferry loaf, Gorse"), t.keys("w"), t.seeing("are taken out of the photos")), 0},
		{"help", to(t.pressing("Help")), 9},
		{"about", to(t.finding("About"), t.seeing("Built with")), 2},
		{"about-licence", on(t.pressing("fyne.io/fyne/v2")), 0},
		{"bin-empty", to(t.finding("The bin")), 0},
		{"bin", to(t.finding("Ferry loaf, Gorse"), t.keys("b"), t.finding("The bin")), 2},

		// Last, since it seals: ink on paper from here on.
		{"plate-look-away", to(t.finding("A night or a day?"), t.seeing("Open the bake"), t.pressing("Plate it"), t.seeing("Tasters, look away")), 0},
		{"plate-card", on(t.pressing("Nobody is looking"), t.seeing("For the helper alone")), 2},
		{"sealed", on(t.pressing("Seal"), t.seeing("Seal the tasting?"), t.keys("Return"), t.seeing("This is the fingerprint")), 0},
		{"score", on(t.pressing("Begin tasting"), t.missing("Begin tasting")), 2},
		{"score-allergens", on(t.keys("Return"), t.missing("Or somebody else first:")), 0},
		{"score-round", on(t.keys("Return"), t.missing("Before the first bite")), 2},
	}
}

// emptyStops are the pages that a new journal has.
func (t *tour) emptyStops() []stop {
	to, on := fromAnywhere, goingOn
	return []stop{
		{"today", to(t.keys("ctrl+1")), 0},
		{"cultures", to(t.keys("ctrl+2")), 0},
		{"bakes", to(t.keys("ctrl+3")), 0},
		{"crumb-list", on(t.keys("c")), 0},
		{"formulas", to(t.keys("ctrl+3", "f")), 0},
		{"tastings", to(t.keys("ctrl+4")), 0},
		{"trial-new", on(t.keys("n")), 2},
		{"tasting-new", to(t.keys("ctrl+4", "t")), 2},
		{"shelf", to(t.keys("ctrl+5")), 0},
		{"year", on(t.keys("y")), 0},
		{"findings", to(t.keys("ctrl+6")), 0},
		{"bin", to(t.finding("The bin")), 0},
		{"find", to(t.keys("ctrl+k"), t.typing("ferry")), 0},
		{"culture-new", to(t.keys("ctrl+2", "n"), t.seeing("what you call it")), 2},
		{"bake", to(t.keys("ctrl+3", "n")), 4},
		{"formula", to(t.keys("ctrl+3", "f", "n")), 3},
		{"plan", on(t.keys("Escape", "g"), t.seeing("Start the day")), 3},
	}
}
