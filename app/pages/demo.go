package pages

import (
	"fmt"
	"os"
	"os/exec"

	"fyne.io/fyne/v2/lang"
)

// OpenDemo opens the demonstration journal in a window of its own: the program is
// started once more. That journal goes when its window is closed.
func (e *Env) OpenDemo() {
	start := e.StartProgram
	if start == nil {
		start = startProgram
	}
	if err := start("-demo"); err != nil {
		e.Fail(fmt.Errorf("opening the demonstration: %w", err))
		return
	}
	e.Say(lang.L("The demo opens in a window of its own. Nothing in it touches your journal."), false)
}

// startProgram starts this program once more, beside this one.
func startProgram(args ...string) error {
	exe, err := os.Executable()
	if err != nil {
		return err
	}
	cmd := exec.Command(exe, args...)
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		return err
	}
	return cmd.Process.Release()
}
