package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"syscall"
	"time"

	"twinloaf/journal"
)

// endWhileTyping tells the program to end the moment that what was typed is in
// sight: by each signal that a log-out, a terminal or a shutdown sends, and by
// taking the display away. Each time all that was typed is in the journal, and the
// program has ended well. The demonstration leaves no folder behind, and killed none
// longer than until the next start.
func endWhileTyping(w *walk) {
	p, folder := w.program()
	p.setClock(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local))
	names := []string{"Loaf of the log-out", "Loaf of the closed terminal", "Loaf of the stopped command"}
	for i, sig := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGINT} {
		doing(fmt.Sprintf("%v while typing", sig), func() {
			p.start()
			p.typeName(names[i])
			check(p.cmd.Process.Signal(sig))
			p.ended()
			holdsBakes(folder, names[:i+1])
		})
	}
	endDemo(w)
	names = append(names, "Loaf of the lost display")
	p.start()
	p.typeName(names[3])
	w.close() // the last step: there is no display any more
	p.ended()
	holdsBakes(folder, names)
}

// typeName writes down a new bake and types its name, and returns as soon as the whole
// of it can be read in the window.
func (p *program) typeName(name string) {
	p.steps(
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("n"), p.seeing("What went in"),
		p.typing(name), p.seeing(name),
	)
}

// holdsBakes looks that a journal holds the bakes of these names, and no others.
func holdsBakes(folder string, names []string) {
	var kept []string
	for _, b := range records[journal.Bake](folder) {
		kept = append(kept, b.Name)
	}
	slices.Sort(kept)
	want := slices.Sorted(slices.Values(names))
	failIf(!slices.Equal(kept, want), "the journal holds the bakes %q, not %q", kept, want)
}

// endDemo ends the demonstration by a signal and looks for what it has left in the
// folder for temporary files.
func endDemo(w *walk) {
	temp := filepath.Join(w.dir, "temp")
	check(os.Mkdir(temp, 0o755))
	p := newProgram(w.screen, w.exe, w.dir, "", "-demo")
	p.temp = temp
	p.start()
	check(p.cmd.Process.Signal(syscall.SIGTERM))
	p.ended()
	left := demosIn(temp)
	failIf(len(left) > 0, "left behind: %q", left)
	// What a killed one leaves goes at the next start.
	p.start()
	p.kill()
	left = demosIn(temp)
	failIf(len(left) != 1, "killed it leaves %q", left)
	p.start()
	p.quit()
	left = demosIn(temp)
	failIf(len(left) > 0, "left behind after the next start: %q", left)
}

// demosIn lists the folders of demonstrations in a folder for temporary files.
func demosIn(temp string) []string {
	found, _ := filepath.Glob(filepath.Join(temp, "twinloaf-demo-*"))
	return found
}
