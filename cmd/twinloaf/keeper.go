package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"sync"
	"syscall"
	"time"

	"twinloaf/app"
	"twinloaf/journal"
)

// grace is how long the window has to go by itself once the program is told to
// end: a log-out waits longer than this before it kills.
const grace = 4 * time.Second

// A keeper sees to it that what was typed is in the journal however the program
// ends: by its window, by a signal, or because the display is gone.
type keeper struct {
	mu sync.Mutex // guards j, and lets one close it at a time
	j  *journal.Journal
	// exit ends the process.
	exit func(status int)
	// held are files that stay open until the process ends.
	held []*os.File
}

func newKeeper() *keeper { return &keeper{exit: os.Exit} }

// keep is open, and keeps the journal that it opens for the end.
func (k *keeper) keep(open app.Open) app.Open {
	return func(ctx context.Context) (*journal.Journal, error) {
		j, err := open(ctx)
		k.mu.Lock()
		k.j = j
		k.mu.Unlock()
		return j, err
	}
}

// hold keeps a file open until the process ends.
func (k *keeper) hold(f *os.File) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.held = append(k.held, f)
}

// untilTold gives a context that ends when the system asks the program to end, as
// at a log-out. What was typed is written at that moment, before anything else; a
// window that has not gone after a while is not waited for.
func (k *keeper) untilTold(ctx context.Context) (context.Context, func()) {
	ctx, stop := context.WithCancel(ctx)
	told := make(chan os.Signal, 1)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	go func() {
		select {
		case <-told:
		case <-ctx.Done():
			return
		}
		k.flush()
		time.AfterFunc(grace, k.end)
		stop()
	}()
	return ctx, func() { signal.Stop(told); stop() }
}

// flush writes what was typed. What fails is told when the journal is closed.
func (k *keeper) flush() {
	k.mu.Lock()
	j := k.j
	k.mu.Unlock()
	if j != nil {
		_ = j.Flush()
	}
}

// close closes the journal, if one was opened. What was typed and cannot be saved is
// written as a text beside the person's own files: there is nobody left to ask. Closing
// twice is harmless.
func (k *keeper) close() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.j == nil {
		return nil
	}
	err := k.j.Close()
	if err == nil {
		return nil
	}
	return errors.Join(withRescue(err, k.j.Unsaved(), time.Now()), k.j.Discard())
}

// withRescue writes what could not be saved, if anything, and says where beside why.
func withRescue(why error, unsaved []journal.Unsaved, now time.Time) error {
	if len(unsaved) == 0 {
		return why
	}
	path, err := rescue(unsaved, now)
	if err != nil {
		return errors.Join(why, err)
	}
	return fmt.Errorf("%w; what was typed is in %s", why, path)
}

// rescue writes what could not be saved to the first folder that takes it: the home
// folder, or the one for temporary files.
func rescue(unsaved []journal.Unsaved, now time.Time) (path string, err error) {
	name := "twinloaf-unsaved-" + now.Format("2006-01-02-150405") + ".txt"
	dirs := []string{os.TempDir()}
	if home, err := os.UserHomeDir(); err == nil {
		dirs = append([]string{home}, dirs...)
	}
	for _, dir := range dirs {
		path = filepath.Join(dir, name)
		f, failed := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
		if failed == nil {
			if failed = errors.Join(app.WriteUnsaved(f, unsaved), f.Sync(), f.Close()); failed == nil {
				return path, nil
			}
			failed = errors.Join(failed, os.Remove(path))
		}
		err = errors.Join(err, failed)
	}
	return "", fmt.Errorf("writing what was typed to a file of its own: %w", err)
}

// end closes the journal and ends the process, whatever its window is doing.
func (k *keeper) end() {
	if err := k.close(); err != nil {
		fmt.Fprintln(os.Stderr, "twinloaf:", err)
		k.exit(1)
		return
	}
	k.exit(0)
}
