package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/outline"
)

// A program is Twinloaf running in its real window.
type program struct {
	*screen
	exe     string
	args    []string
	cmd     *exec.Cmd
	outline string
	log     strings.Builder
	home    string   // the home folder it sees, if another
	temp    string   // the folder for temporary files that it sees, if another
	more    []string // of the environment that it sees
	in      *tongue  // the language that its window speaks, if another
	window  string   // its number on the display
	// size is how large its window is made, in points, and scale how many pixels a
	// point has.
	size  fyne.Size
	scale int
	// text is how large everything in it is, in percent, by its settings.
	text int
	// clock is the file that the program takes the time from.
	clock string
}

// patience is how long the window may take to show what is waited for. Nothing
// is judged by it: it only ends a run that waits in vain.
const patience = 2 * time.Minute

// opening is how long the window may take to come: the demo is made anew each time.
const opening = 5 * time.Minute

// newProgram prepares a program on a journal folder with a clock of its own. It ends with the
// screen at the latest.
func newProgram(s *screen, exe, work, journal string, args ...string) *program {
	p := &program{
		screen: s, exe: exe, outline: filepath.Join(work, "outline.json"), clock: filepath.Join(work, "clock"),
		size: fyne.NewSize(1280, 800), scale: 1, text: 100,
	}
	p.args = append([]string{"-clock", p.clock}, args...)
	if journal != "" {
		p.args = append(p.args, "-journal", journal)
	}
	s.started = append(s.started, p)
	return p
}

// demoOrEmpty is a run of the program on the demo's journal, or on an empty one.
func demoOrEmpty(s *screen, exe, work string, empty bool) *program {
	if empty {
		return newProgram(s, exe, work, filepath.Join(work, "journal"))
	}
	return newProgram(s, exe, work, "", "-demo")
}

// setClock sets the time that the program goes by.
func (p *program) setClock(t time.Time) {
	part := p.clock + ".part"
	check(os.WriteFile(part, []byte(t.Format(time.RFC3339)), 0o600))
	check(os.Rename(part, p.clock))
}

// startingAt starts the program at a time.
func (p *program) startingAt(t time.Time) gesture {
	return func() {
		p.setClock(t)
		p.start()
	}
}

// start starts the program and waits until its window shows something.
func (p *program) start() {
	p.cmd = p.command(p.exe, p.args...)
	p.cmd.Env = p.env("TWINLOAF_OUTLINE="+p.outline, "FYNE_SCALE="+strconv.Itoa(p.scale))
	if p.home != "" {
		p.cmd.Env = append(p.cmd.Env, "HOME="+p.home)
	}
	if p.temp != "" {
		p.cmd.Env = append(p.cmd.Env, "TMPDIR="+p.temp)
	}
	p.cmd.Env = append(p.cmd.Env, p.more...)
	p.cmd.Stdout, p.cmd.Stderr = &p.log, &p.log
	if err := p.cmd.Start(); err != nil {
		panic(fmt.Errorf("starting the program: %w", err))
	}
	// Only once its window is there has the program its signal handler in place.
	p.placeWindow()
}

// placeWindow waits for the window and lays it where it is wanted, in its size and with the
// keyboard. It asks again and again: the window of a program that was killed may still be
// found for a moment, and a window manager that is late gives a new one another size yet.
func (p *program) placeWindow() {
	width, height := p.pixels(p.size.Width), p.pixels(p.size.Height)
	kept := 0
	for deadline := time.Now().Add(patience); ; pause() {
		p.findWindow()
		err := attempt(func() {
			p.xdotool("windowmove", p.window, "0", "0", "windowsize", p.window, width, height, "windowfocus", p.window)
			geometry, focus := p.ask("getwindowgeometry", "--shell", p.window), p.ask("getwindowfocus", "-f")
			if focus != p.window || !strings.Contains(geometry, "WIDTH="+width+"\nHEIGHT="+height) {
				kept = 0
			} else {
				kept++
			}
		})
		if kept == 3 {
			return
		}
		if time.Now().After(deadline) {
			panic(errors.Join(errors.New("the window does not take its size and the keyboard"), err))
		}
	}
}

// findWindow waits for the journal's own window: its title goes on before the
// program's name, unlike that of the small window before it.
func (p *program) findWindow() {
	deadline := time.Now().Add(opening)
	for {
		// A search fails while there is none, and when a window goes under it.
		found := ""
		_ = attempt(func() { found = p.ask("search", "--onlyvisible", "--name", " Twinloaf$") })
		if found != "" {
			p.window, _, _ = strings.Cut(found, "\n")
			return
		}
		failIf(time.Now().After(deadline), "the window did not come: %s", p.log.String())
		pause()
	}
}

// pixels gives a length in the window as xdotool wants it.
func (p *program) pixels(points float32) string {
	return strconv.Itoa(int(points) * p.scale * p.text / 100)
}

// click clicks on a place in the window, in points.
func (p *program) click(x, y float32) {
	defer pause()
	p.clicked++
	p.xdotool("mousemove", "--window", p.window, p.pixels(x), p.pixels(y), "click", "1")
}

// clickOn clicks on the middle of a thing.
func (p *program) clickOn(t outline.Thing) { p.click(t.X+t.W/2, t.Y+t.H/2) }

// texts are all that the window shows.
func (p *program) texts() []string { return outline.Texts(p.things()) }

// drag draws with the mouse from place to place, in points, the button held down.
func (p *program) drag(path [][2]int) {
	defer pause()
	var args []string
	for i, at := range path {
		args = append(args, "mousemove", "--window", p.window, p.pixels(float32(at[0])), p.pixels(float32(at[1])), "sleep", "0.03")
		if i == 0 {
			args = append(args, "mousedown", "1", "sleep", "0.05")
		}
	}
	p.xdotool(append(args, "mouseup", "1")...)
}

// wheel turns the mouse's wheel, downward for positive notches.
func (p *program) wheel(x, y float32, notches int) {
	button := "5"
	if notches < 0 {
		button, notches = "4", -notches
	}
	defer pause()
	p.xdotool("mousemove", "--window", p.window, p.pixels(x), p.pixels(y), "click",
		"--repeat", strconv.Itoa(notches), "--delay", "30", button)
}

// shot takes a picture of the window and keeps it under a name.
func (p *program) shot(name string) image.Image { return p.take(name, p.window) }

// kill ends the program as a power cut would.
func (p *program) kill() {
	if p.cmd == nil || p.cmd.Process == nil {
		return
	}
	err := p.cmd.Process.Signal(syscall.SIGKILL)
	_ = p.cmd.Wait() // it was killed: that is its error
	p.cmd = nil
	check(err)
}

// quit closes the window by its key and waits for the program to end.
func (p *program) quit() {
	p.key("ctrl+q")
	p.ended()
}

// ended waits for the program to end by itself, and wants it to have ended well.
func (p *program) ended() {
	done := make(chan error, 1)
	go func() { done <- p.cmd.Wait() }()
	select {
	case err := <-done:
		p.cmd = nil
		if err != nil {
			panic(fmt.Errorf("the program ended badly: %w: %s", err, p.log.String()))
		}
	case <-time.After(patience):
		_ = attempt(p.picture("did-not-end"))
		_ = p.cmd.Process.Signal(syscall.SIGQUIT) // it then says what it is at
		<-done
		panic(fmt.Errorf("the program did not end: %s", p.log.String()))
	}
}

// things asks the program what its window shows.
func (p *program) things() []outline.Thing {
	_ = os.Remove(p.outline)
	deadline := time.Now().Add(patience)
	for time.Now().Before(deadline) {
		if err := p.cmd.Process.Signal(syscall.SIGUSR1); err != nil {
			panic(fmt.Errorf("the program is gone: %w: %s", err, p.log.String()))
		}
		time.Sleep(60 * time.Millisecond)
		b, err := os.ReadFile(p.outline)
		if err != nil {
			continue
		}
		var out []outline.Thing
		check(json.Unmarshal(b, &out))
		return out
	}
	panic(fmt.Errorf("the program does not say what it shows: %s", p.log.String()))
}

// wait asks until what is shown is as wanted.
func (p *program) wait(what string, wanted func([]outline.Thing) bool) []outline.Thing {
	deadline := time.Now().Add(patience)
	for {
		things := p.things()
		if wanted(things) {
			return things
		}
		if time.Now().After(deadline) {
			p.shot("waited-in-vain")
			panic(fmt.Errorf("waited in vain for %s; shown: %q", what, outline.Texts(things)))
		}
		time.Sleep(100 * time.Millisecond)
	}
}

// see waits until a text is in sight.
func (p *program) see(text string) {
	text = p.in.say(text)
	p.wait(fmt.Sprintf("%q", text), func(things []outline.Thing) bool { return outline.Shows(things, text) })
}

// nth waits for the nth thing, from nought, of those that are alike.
func (p *program) nth(n int, what string, alike func(outline.Thing) bool) outline.Thing {
	var found []outline.Thing
	p.wait(fmt.Sprintf("%s %d", what, n), func(things []outline.Thing) bool {
		found = slices.DeleteFunc(slices.Clone(things), func(t outline.Thing) bool { return !alike(t) })
		return len(found) > n
	})
	return found[n]
}

// gone waits until a text is no longer in sight.
func (p *program) gone(text string) {
	text = p.in.say(text)
	p.wait(fmt.Sprintf("%q to go", text), func(things []outline.Thing) bool {
		_, ok := outline.Find(things, text)
		return !ok
	})
}

// press clicks on a text, scrolling the page until it is in sight.
func (p *program) press(text string) {
	p.clickOn(p.reach(text))
}

// edge is how near to the window's upper and lower edge nothing is pressed: of what lies
// there half may be cut off.
const edge = 12

// reach scrolls the page down, and then up, until a text is in sight and stays where it
// is: on a busy computer what was typed last may yet move the page under the pointer.
func (p *program) reach(text string) outline.Thing {
	text = p.in.say(text)
	deadline := time.Now().Add(patience)
	var before outline.Thing
	for turn := 0; ; {
		things := p.things()
		if t, ok := outline.Find(things, text); ok && t.Y+t.H/2 < p.size.Height-edge && t.Y+t.H/2 > edge {
			if t == before {
				return t
			}
			if before = t; time.Now().Before(deadline) {
				continue
			}
		}
		if time.Now().After(deadline) {
			p.shot("not-found")
			panic(fmt.Errorf("%q is nowhere to be seen; shown: %q", text, outline.Texts(things)))
		}
		notches := 4
		if turn%24 >= 12 {
			notches = -4
		}
		turn++
		p.wheel(p.size.Width*0.6, p.size.Height*0.53, notches)
	}
}
