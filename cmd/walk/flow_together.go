package main

import (
	"context"
	"time"

	"twinloaf/assets/demo"
)

// addUp looks at the sum of two tastings of the demonstration that asked the same
// of the same two loaves, in light and dark, and goes to the other and back.
func addUp(w *walk) {
	p, folder := w.program()
	now := time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)
	check(demo.Build(context.Background(), folder, now, demo.Options{NoPictures: true}))
	p.steps(
		p.startingAt(now),
		p.seeing("On the bench"), p.pressing("Settings"), p.pressing("light"),
		p.keys("ctrl+4"), p.seeing("Once more, a day old"), p.settling(), p.picture("list"),
		p.pressing("Harbour or Gorse?"), p.seeing("12 of 18"), p.picture("verdict"),
		p.together("Tasting 2: Once more, a day old"), p.picture("added-up"),
		p.pressing("Tasting 2: Once more, a day old"), p.seeing("4 of 6"),
		p.together("Tasting 2: Harbour or Gorse?"),
		p.pressing("Settings"), p.pressing("dark"), p.keys("alt+Left"), p.seeing("4 of 6"),
		p.together("Tasting 2: Harbour or Gorse?"), p.picture("added-up-dark"),
	)
	p.quit()
}

// together goes down to the sum, which must say what it is worth.
func (p *program) together(other string) gesture {
	return func() {
		for _, text := range []string{other, "What was added up", "Some tasters answered more than once"} {
			p.reach(text)
		}
		p.wheel(760, 420, 40)
	}
}
