package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"twinloaf/journal"
)

// longestStop is how long a check that was told to stop is waited for.
const longestStop = 10 * time.Second

// untilStopped ends with Ctrl+C, or when the system asks the program to end.
func untilStopped(ctx context.Context) (context.Context, context.CancelFunc) {
	return signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
}

// progressLine tells on one line of a terminal how far a check is; elsewhere it says nothing,
// so that what is kept of the output is what was found.
type progressLine struct {
	w     io.Writer // nil where nobody looks
	last  time.Time
	shown bool
}

func newProgressLine(f *os.File) *progressLine {
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return &progressLine{}
	}
	return &progressLine{w: f}
}

// told shows how far it is, a few times a second.
func (p *progressLine) told(records, pictures, of int) {
	if p.w == nil || time.Since(p.last) < 200*time.Millisecond {
		return
	}
	p.last, p.shown = time.Now(), true
	if of > 0 {
		fmt.Fprintf(p.w, "\r\x1b[K%d records read, %d of %d photos looked at (Ctrl+C stops)", records, pictures, of)
		return
	}
	fmt.Fprintf(p.w, "\r\x1b[K%d records read (Ctrl+C stops)", records)
}

// clear takes the line away.
func (p *progressLine) clear() {
	if p.shown {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}

// saidStopped writes what a check that was stopped leaves behind.
func saidStopped(w io.Writer, report journal.Report, mended bool) error {
	words := "stopped before everything was read"
	switch {
	case report.Repaired:
		words += fmt.Sprintf("; %d entries of the indexes were wrong, and the indexes were made anew", report.Indexes)
	case !mended:
		words += "; nothing was changed"
	}
	_, err := fmt.Fprintln(w, words)
	return errors.Join(errFound, err)
}
