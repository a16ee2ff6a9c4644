package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"
	"strings"
)

// What a child that inspects prints first, so that its parent can tell what it
// found from how it ended.
const (
	saysSound      = "sound"
	saysInUse      = "in use"
	saysNotJournal = "not a journal"
	saysNewer      = "newer"
	saysDamaged    = "damaged"
)

// InspectAndSay inspects path and writes the finding to w, for [InspectIn].
func InspectAndSay(ctx context.Context, path string, layout Layout, w io.Writer) error {
	err := Inspect(ctx, path, layout)
	says := saysDamaged
	switch {
	case err == nil:
		_, werr := fmt.Fprintln(w, saysSound)
		return werr
	case errors.Is(err, ErrInUse):
		says = saysInUse
	case errors.Is(err, ErrNotJournal):
		says = saysNotJournal
	case errors.Is(err, ErrNewer):
		says = saysNewer
	}
	_, werr := fmt.Fprintf(w, "%s\n%s\n", says, err)
	return werr
}

// InspectIn has a child process, the program exe with the arguments args and
// the path behind them, call [InspectAndSay]: what takes that process down
// leaves this one standing.
func InspectIn(exe string, args ...string) func(ctx context.Context, path string) error {
	return func(ctx context.Context, path string) error {
		if err := looksLikeStore(path); err != nil {
			return err
		}
		out, err := exec.CommandContext(ctx, exe, append(args, path)...).Output()
		if ctx.Err() != nil {
			return fmt.Errorf("looking at the journal %s: %w", path, ctx.Err())
		}
		finding, why, _ := strings.Cut(string(out), "\n")
		why = strings.TrimSpace(why)
		switch finding {
		case saysSound:
			return nil
		case saysInUse:
			return fmt.Errorf("opening the journal %s: %w", path, ErrInUse)
		case saysNotJournal:
			return fmt.Errorf("opening the journal %s: %w", path, ErrNotJournal)
		case saysNewer:
			return fmt.Errorf("opening the journal %s: %w", path, ErrNewer)
		case saysDamaged:
			why = strings.TrimPrefix(why, "opening the journal "+path+": ")
			return damaged(path, strings.TrimSuffix(why, ": "+ErrDamaged.Error()))
		}
		if _, ok := errors.AsType[*exec.ExitError](err); ok || err == nil {
			return damaged(path, "looking at it ended the program that looked")
		}
		return fmt.Errorf("looking at the journal %s: %w", filepath.Base(path), err)
	}
}
