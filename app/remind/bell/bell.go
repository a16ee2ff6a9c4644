// Package bell rings a soft bell of two notes, by whatever the computer plays
// sounds with. Where it has nothing for that, there is silence and no complaint: the
// message on the screen is still there.
package bell

import (
	"context"
	"os"
	"os/exec"
	"runtime"
	"sync/atomic"
	"time"
)

// A player is a program that plays a sound file, with what comes before and
// after the file's name.
type player struct {
	name string
	args func(file string) []string
}

func plain(file string) []string { return []string{file} }

// players lists what an operating system may have, best first.
func players(system string) []player {
	switch system {
	case "darwin":
		return []player{{"afplay", plain}}
	case "windows":
		return []player{{"powershell", func(file string) []string {
			// The name comes by the environment: it is no part of the command.
			return []string{"-NoProfile", "-NonInteractive", "-Command", "(New-Object Media.SoundPlayer $env:TWINLOAF_BELL).PlaySync()"}
		}}}
	}
	return []player{{"pw-play", plain}, {"paplay", plain}, {"aplay", func(file string) []string { return []string{"-q", file} }}}
}

// longest is how long a player may take: a sound server that hangs keeps nothing.
const longest = 10 * time.Second

var ringing atomic.Bool // one bell at a time

// Ring rings once, in the background.
func Ring() {
	if !ringing.CompareAndSwap(false, true) {
		return
	}
	go func() {
		defer ringing.Store(false)
		for _, p := range players(runtime.GOOS) {
			if path, err := exec.LookPath(p.name); err == nil && play(path, p) == nil {
				return
			}
		}
	}()
}

// play writes the sound to a file of its own and has it played.
func play(path string, p player) (err error) {
	f, err := os.CreateTemp("", "twinloaf-bell-*.wav")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	if _, err := f.Write(Wave()); err != nil {
		f.Close()
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), longest)
	defer cancel()
	cmd := exec.CommandContext(ctx, path, p.args(f.Name())...)
	cmd.Env = append(os.Environ(), "TWINLOAF_BELL="+f.Name())
	return cmd.Run()
}
