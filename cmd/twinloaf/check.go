package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"

	"twinloaf/app"
	"twinloaf/journal"
)

// checkCommand has the program check a journal for its parent.
const checkCommand = "check-journal"

// errFound means that something was wrong, which has been said.
var errFound = errors.New("something was wrong")

// check has a child of this program check the journal, since a damaged file can end
// the process that reads it. Nothing is made where there is no journal.
func check(ctx context.Context, o options) error {
	dir, err := folder(o)
	if err != nil {
		return err
	}
	path := filepath.Join(dir, journal.FileName)
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no journal in %s", dir)
	} else if err != nil {
		return err
	}
	exe, err := os.Executable()
	if err != nil {
		return checkHere(ctx, dir, journal.Options{}, os.Stdout, newProgressLine(os.Stderr))
	}
	ctx, stop := untilStopped(ctx)
	defer stop()
	child := exec.CommandContext(ctx, exe, checkCommand, dir)
	child.Cancel = func() error { // the child says what it leaves behind
		if err := child.Process.Signal(os.Interrupt); err != nil {
			return child.Process.Kill()
		}
		return nil
	}
	child.WaitDelay = longestStop
	child.Stdout, child.Stderr = os.Stdout, os.Stderr
	err = child.Run()
	if ended, ok := errors.AsType[*exec.ExitError](err); ok {
		if ended.ExitCode() < 0 || ended.ExitCode() > 1 {
			return fmt.Errorf("the journal in %s is damaged so badly that looking at it ended the program that looked", dir)
		}
		return errFound
	}
	return err
}

// checkHere checks the journal in this process, with a line that tells how far it is, and
// writes to w what was found and done.
// It gives errFound when anything was wrong, mended or not.
func checkHere(ctx context.Context, dir string, opt journal.Options, w io.Writer, line *progressLine) (err error) {
	j, err := journal.Open(ctx, dir, opt)
	if err != nil {
		_, werr := fmt.Fprintln(w, app.Refusal(err))
		return errors.Join(errFound, werr)
	}
	defer func() { err = errors.Join(err, j.Close()) }()
	aside := j.Mended()
	if aside != nil {
		fmt.Fprintln(w, "The journal was damaged. What could be read of it was kept:")
		for _, l := range aside.Lines() {
			fmt.Fprintln(w, "  "+l.String())
		}
		fmt.Fprintln(w, "The damaged file is kept in", filepath.Join(dir, journal.AsideFolder))
	}
	report, err := j.CheckAs(ctx, journal.Checking{Repair: true, Progress: line.told})
	line.clear()
	if errors.Is(err, context.Canceled) {
		return saidStopped(w, report, aside != nil)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%d records read\n", report.Records)
	for _, l := range report.Left() {
		fmt.Fprintln(w, l)
	}
	if report.Repaired {
		fmt.Fprintf(w, "%d entries of the indexes were wrong; the indexes were made anew\n", report.Indexes)
	}
	if aside == nil && report.Sound() {
		_, err := fmt.Fprintln(w, "everything is as it should be")
		return err
	}
	return errFound
}
