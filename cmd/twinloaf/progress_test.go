package main

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"

	"twinloaf/journal"
)

// stopAt stops a check as soon as it tells how far it is.
type stopAt struct {
	strings.Builder
	stop func()
}

func (s *stopAt) Write(p []byte) (int, error) {
	s.stop()
	return s.Builder.Write(p)
}

func TestACheckTellsHowFarItIsAndCanBeStopped(t *testing.T) {
	dir := checkedJournal(t)
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	line := &stopAt{stop: stop}
	var said strings.Builder
	err := checkHere(ctx, dir, journal.Options{}, &said, &progressLine{w: line})
	if !errors.Is(err, errFound) || said.String() != "stopped before everything was read; nothing was changed\n" {
		t.Errorf("gave %v, said %q", err, said.String())
	}
	if !strings.Contains(line.String(), "records read (Ctrl+C stops)") || !strings.HasSuffix(line.String(), "\r\x1b[K") {
		t.Errorf("the line was %q", line.String())
	}
	said.Reset()
	if err := checkHere(t.Context(), dir, journal.Options{}, &said, &progressLine{}); err != nil {
		t.Errorf("afterwards: %v, %s", err, said.String())
	}
}

func TestNoProgressIsToldIntoAFile(t *testing.T) {
	f, err := os.CreateTemp(t.TempDir(), "")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if newProgressLine(f).w != nil {
		t.Error("a file is told how far it is")
	}
}
