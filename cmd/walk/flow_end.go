package main

import (
	"errors"
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
func endWhileTyping(w *walk) error {
	p, folder := w.program()
	if err := p.setClock(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)); err != nil {
		return err
	}
	names := []string{"Loaf of the log-out", "Loaf of the closed terminal", "Loaf of the stopped command"}
	for i, sig := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGINT} {
		err := errors.Join(p.start(), p.typeName(names[i]))
		if err != nil {
			return fmt.Errorf("%v: %w", sig, err)
		}
		err = errors.Join(p.cmd.Process.Signal(sig), p.ended(), holdsBakes(folder, names[:i+1]))
		if err != nil {
			return fmt.Errorf("%v while typing: %w", sig, err)
		}
	}
	if err := endDemo(w); err != nil {
		return fmt.Errorf("ending the demonstration: %w", err)
	}
	names = append(names, "Loaf of the lost display")
	if err := errors.Join(p.start(), p.typeName(names[3])); err != nil {
		return err
	}
	w.close() // the last step: there is no display any more
	if err := errors.Join(p.ended(), holdsBakes(folder, names)); err != nil {
		return fmt.Errorf("taking the display away while typing: %w", err)
	}
	return nil
}

// typeName writes down a new bake and types its name, and returns as soon as the whole
// of it can be read in the window.
func (p *program) typeName(name string) error {
	return p.steps(
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("n"), p.seeing("What went in"),
		p.typing(name), p.seeing(name),
	)
}

// holdsBakes looks that a journal holds the bakes of these names, and no others.
func holdsBakes(folder string, names []string) error {
	bakes, err := records[journal.Bake](folder)
	if err != nil {
		return err
	}
	var kept []string
	for _, b := range bakes {
		kept = append(kept, b.Name)
	}
	slices.Sort(kept)
	if want := slices.Sorted(slices.Values(names)); !slices.Equal(kept, want) {
		return fmt.Errorf("the journal holds the bakes %q, not %q", kept, want)
	}
	return nil
}

// endDemo ends the demonstration by a signal and looks for what it has left in the
// folder for temporary files.
func endDemo(w *walk) error {
	temp := filepath.Join(w.dir, "temp")
	if err := os.Mkdir(temp, 0o755); err != nil {
		return err
	}
	p := newProgram(w.screen, w.exe, w.dir, "", "-demo")
	p.temp = temp
	if err := p.start(); err != nil {
		return err
	}
	if err := errors.Join(p.cmd.Process.Signal(syscall.SIGTERM), p.ended()); err != nil {
		return err
	}
	if left := demosIn(temp); len(left) > 0 {
		return fmt.Errorf("left behind: %q", left)
	}
	// What a killed one leaves goes at the next start.
	if err := errors.Join(p.start(), p.kill()); err != nil {
		return err
	}
	if left := demosIn(temp); len(left) != 1 {
		return fmt.Errorf("killed it leaves %q", left)
	}
	if err := errors.Join(p.start(), p.quit()); err != nil {
		return err
	}
	if left := demosIn(temp); len(left) > 0 {
		return fmt.Errorf("left behind after the next start: %q", left)
	}
	return nil
}

// demosIn lists the folders of demonstrations in a folder for temporary files.
func demosIn(temp string) []string {
	found, _ := filepath.Glob(filepath.Join(temp, "twinloaf-demo-*"))
	return found
}
