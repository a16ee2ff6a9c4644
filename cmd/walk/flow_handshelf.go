package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"twinloaf/app/outline"
)

// browse looks for past bakes by their flour, by keys alone, in a winter of bakes.
func (c *counts) browse(w *walk) {
	folder := filepath.Join(w.dir, "winter")
	fillShelf(folder)
	want := countSpelt(folder, leastSpelt)
	p := newProgram(w.screen, w.exe, w.dir, folder)
	browsing := task{name: "past bakes by their flour: found, saved as a view, two laid side by side", do: func(p *program) { p.keyShelf(want) }}
	p.steps(p.startingAt(shelfNow), c.counting(p, browsing), p.quit)
}

// keyShelf asks the shelf for a flour and its share, saves that as a view, opens a bake and
// comes back, lays two side by side, takes the filter off, and looks at the flour's page.
func (p *program) keyShelf(want int) {
	least := strconv.Itoa(leastSpelt)
	found := fmt.Sprintf("%d of %d bakes", want, shelfBakes)
	p.steps(
		p.keys("ctrl+5"), p.seeing(fmt.Sprintf("%d bakes on the shelf", shelfBakes)), p.focus("pictures"),
		p.keys("f"), p.focus("flours"), p.downTo("Spelt"), p.focus("spelt"), p.keys("Return"), p.seeing("Bakes with spelt"),
		p.keys("Tab"), p.focus("share"), p.typing(least), p.seeing("Bakes with spelt, at least "+least), p.seeing(found), p.keys("Escape"),
		p.keys("k"), p.seeing("Save this view"), p.focus("name-of-view"), p.typing("Spelt"), p.keys("Return"), p.seeing("forget this view"),
		p.keys("g"), p.focus("found"), p.keys("Right", "Return"), p.seeing("What went in"), p.picture("opened"),
		p.keys("alt+Left"), p.seeing(found), p.focus("back-on-the-shelf"),
		p.keys("g", "Home", "space", "Right", "space"), p.seeing("Compare 2"), p.focus("two-chosen"),
		p.keys("c"), p.seeing("differ between these two"), p.focus("side-by-side"), p.keys("End"), p.picture("focus-end-of-page"), p.keys("Home"),
		p.keys("alt+Left"), p.seeing(found), p.keys("0"), p.seeing("all bakes"),
		p.keys("f"), p.downTo("Spelt"), p.keys("Return"), p.seeing("about this flour"), p.tabTo("about this flour"), p.focus("about-the-flour"),
		p.keys("Return"), p.seeing("Its effect"), p.keys("Tab"), p.focus("flour"),
	)
}

// focused gives the text that stands where the keyboard is.
func focused(things []outline.Thing) string {
	i := slices.IndexFunc(things, func(t outline.Thing) bool { return t.Focused })
	if i < 0 {
		return ""
	}
	at, words := things[i], []string(nil)
	for _, t := range things {
		if t.Kind == "text" && t.X >= at.X && t.Y >= at.Y && t.X+t.W <= at.X+at.W+1 && t.Y+t.H <= at.Y+at.H+1 {
			words = append(words, t.Text)
		}
	}
	return strings.Join(words, " ")
}

// downTo presses Down until the keyboard is at something that begins with a text; tabTo
// presses Tab.
func (p *program) downTo(text string) gesture { return p.keyTo("Down", text) }
func (p *program) tabTo(text string) gesture  { return p.keyTo("Tab", text) }

func (p *program) keyTo(key, text string) gesture {
	return func() {
		for range 12 {
			things := p.things()
			if strings.HasPrefix(focused(things), text) {
				return
			}
			p.keys(key)()
		}
		panic(fmt.Errorf("%s does not get to %q", key, text))
	}
}

// keyLists goes through the lists with the arrows.
func (p *program) keyLists() {
	p.steps(
		p.keys("ctrl+2"), p.seeing("Gorse"), p.focus("cultures"), p.keys("Down"), p.focus("next-culture"),
		p.keys("ctrl+3"), p.focus("bakes"), p.keys("ctrl+5"), p.seeing("on the shelf"), p.focus("shelf"),
		p.keys("space", "Right", "space"), p.seeing("2 selected"), p.picture("selected"), p.keys("c"), p.seeing("differ"),
		p.keys("ctrl+plus"), p.seeing("Text size 110 %"), p.picture("larger"), p.keys("ctrl+0"), p.seeing("Text size 100 %"),
	)
}
