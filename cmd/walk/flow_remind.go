package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"github.com/godbus/dbus/v5"

	"twinloaf/app/remind/bell"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// toldAndRung has a step fall due on a session bus of the walk's own, where a recorder stands
// in for the desktop that shows messages, and one in the place of the computer's player of
// sounds: the message and the bell must arrive there, once, and without the bell when the
// settings ask for silence.
func toldAndRung(w *walk) {
	p, folder := w.program()
	begin := time.Date(2026, 3, 4, 8, 0, 0, 0, time.Local)
	doughUnderWay(folder, begin)
	bus := startBus(w.ctx)
	defer bus.stop()
	heard := recordSounds(w.dir)
	p.more = []string{"DBUS_SESSION_BUS_ADDRESS=" + bus.address, "PATH=" + heard.folder + ":" + os.Getenv("PATH")}
	p.steps(
		p.startingAt(begin.Add(-time.Minute)), func() { p.setClock(begin.Add(time.Second)) },
		func() { bus.tells("Mix: Ferry loaf") }, func() { heard.rung(1) },
		p.keys("ctrl+1"), p.seeing("to Mix"), p.seeing("Start"), p.picture("mix-is-due"), p.keys("d"), p.missing("to Mix"),
		p.pressing("Settings"), p.seeing("message only"), p.pressing("message only"), p.picture("silent"),
		func() { p.setClock(begin.Add(76 * time.Minute)) },
		func() { bus.tells("Fold 1 of 6: Ferry loaf") },
		p.quit,
	)
	if n := len(bus.told); n > 0 {
		panic(fmt.Errorf("%d messages more than are due: %q", n, <-bus.told))
	}
	heard.rung(1) // it was silent the second time
}

// doughUnderWay writes a journal with one dough of which nothing has been done.
func doughUnderWay(folder string, begin time.Time) {
	j := must(journal.Open(context.Background(), folder, journal.Options{Clock: func() time.Time { return begin }}))
	defer func() { check(j.Close()) }()
	steps := must(j.TemplateSteps(plan.CountryLoaf()))
	b := &journal.Bake{Name: "Ferry loaf", State: journal.Running, Steps: steps}
	b.SetPlan(plan.Plan{Start: begin, Steps: journal.PlanSteps(steps)})
	check(j.Do("a dough", func(tx *journal.Tx) error { return journal.Put(tx, b) }))
}

// A bus is a session bus with a recorder on it that stands in for the desktop.
type bus struct {
	address string
	daemon  *exec.Cmd
	conn    *dbus.Conn
	told    chan string // the title of each message
}

// startBus starts a bus of its own and a recorder that answers for the desktop's messages.
func startBus(ctx context.Context) (b *bus) {
	b = &bus{daemon: exec.CommandContext(ctx, "dbus-daemon", "--session", "--nofork", "--print-address"), told: make(chan string, 16)}
	out := must(b.daemon.StdoutPipe())
	if err := b.daemon.Start(); err != nil {
		panic(fmt.Errorf("starting a session bus: %w", err))
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		panic(fmt.Errorf("asking the session bus for its address: %w", err))
	}
	b.address = strings.TrimSpace(line)
	b.conn = must(dbus.Connect(b.address))
	check(b.conn.Export(desktop{b}, "/org/freedesktop/Notifications", "org.freedesktop.Notifications"))
	failIf(must(b.conn.RequestName("org.freedesktop.Notifications", dbus.NameFlagDoNotQueue)) != dbus.RequestNameReplyPrimaryOwner, "the name is another's already")
	return b
}

func (b *bus) stop() {
	if b.conn != nil {
		_ = b.conn.Close()
	}
	if b.daemon.Process != nil {
		_ = b.daemon.Process.Kill()
		_ = b.daemon.Wait()
	}
}

// tells waits for the next message and wants it to have a title.
func (b *bus) tells(title string) {
	select {
	case got := <-b.told:
		failIf(got != title, "the message is %q, not %q", got, title)
	case <-time.After(patience):
		panic(fmt.Errorf("no message says %q", title))
	}
}

// desktop answers as the Desktop Notifications Specification has it.
type desktop struct{ *bus }

// Notify is called by who has something to tell.
func (d desktop) Notify(_ string, _ uint32, _, title, _ string, _ []string, _ map[string]dbus.Variant, _ int32) (uint32, *dbus.Error) {
	d.told <- title
	return 1, nil
}

// sounds are what was played.
type sounds struct{ folder string }

// recordSounds puts a recorder in the place of the first player that the bell looks for.
func recordSounds(dir string) sounds {
	s := sounds{filepath.Join(dir, "players")}
	check(os.MkdirAll(s.folder, 0o755))
	script := "#!/bin/sh\ncp \"$1\" \"" + s.folder + "/heard-$$.wav\"\n"
	check(os.WriteFile(filepath.Join(s.folder, "pw-play"), []byte(script), 0o755))
	return s
}

// rung waits until the bell was heard so often, and wants each time to be the bell's sound.
func (s sounds) rung(times int) {
	for deadline := time.Now().Add(patience); ; pause() {
		files := must(filepath.Glob(filepath.Join(s.folder, "heard-*.wav")))
		if len(files) < times && time.Now().Before(deadline) {
			continue
		}
		failIf(len(files) != times, "the bell was heard %d times, not %d", len(files), times)
		for _, f := range files {
			sound := must(os.ReadFile(f))
			failIf(!bytes.Equal(sound, bell.Wave()), "what was heard is no bell: %d bytes", len(sound))
		}
		return
	}
}
