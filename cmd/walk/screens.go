package main

import (
	"context"
	"os"
	"path/filepath"
	"time"
)

// screens makes the README's pictures from the demo journal, at a fixed time, in
// the folder dir.
func screens(exe, dir string) {
	check(os.MkdirAll(dir, 0o755))
	work := must(os.MkdirTemp("", "twinloaf-screens-"))
	defer os.RemoveAll(work)
	s := startScreen(context.Background(), 1280, 800, work)
	defer s.stop()
	p := newProgram(s, exe, work, "", "-demo")
	now := time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)
	keep := func(name string) gesture { return func() { p.keep(filepath.Join(dir, name+".png")) } }
	p.steps(
		p.startingAt(now), p.seeing("On the bench"),
		p.pressing("Settings"), p.pressing("light"), p.seeing("As you like it"),
		p.keys("ctrl+1"), p.seeing("On the bench"), p.settling(), keep("today"),
		p.keys("o"), p.seeing("Seeded loaf"), p.settling(), keep("bake-day"),
		p.keys("ctrl+2"), p.pressing("Gorse"), p.settling(), keep("culture"),
		p.keys("ctrl+3"), p.pressing("Ferry loaf, Gorse"), p.settling(), keep("bake"),
		p.keys("m"), p.settling(), p.settling(), keep("crumb"),
		p.keys("ctrl+4"), p.pressing("Harbour or Gorse?"), p.settling(), keep("verdict"),
		p.keys("ctrl+5"), p.settling(), keep("shelf"),
		p.keys("ctrl+6"), p.settling(), keep("findings"),
	)
	p.kill()
}

// settling waits until the window has stopped changing.
func (p *program) settling() gesture {
	return func() {
		time.Sleep(4 * time.Second) // thumbnails and fits arrive one after another
	}
}

// keep writes a picture of the window to path.
func (p *program) keep(path string) {
	img := p.shot("screen")
	writePNG(path, img)
}
