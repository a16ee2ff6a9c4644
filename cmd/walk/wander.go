package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"twinloaf/app/outline"
)

// wander uses the demo, or an empty journal, at random for so long, by mouse and keys, and prints each minute how
// much memory the program holds: what leaks climbs, and what is bounded levels off. The seed
// makes the same gestures again, as far as the window answers alike.
func wander(exe, shots string, long time.Duration, seed uint64, empty bool) {
	work := must(os.MkdirTemp("", "twinloaf-wander-"))
	defer os.RemoveAll(work)
	check(os.MkdirAll(shots, 0o755))
	s := startScreen(context.Background(), 1280, 800, shots)
	defer s.stop()
	p := demoOrEmpty(s, exe, work, empty)
	p.home = filepath.Join(work, "home")
	p.steps(func() { check(os.MkdirAll(p.home, 0o755)) }, p.startingAt(tourBegins))

	if empty { // with a bake in it D opens no demo
		p.steps(p.pressing("Write down a bake"), func() { p.typeText("First") })
	}
	rng := rand.New(rand.NewPCG(seed, 0))
	fmt.Println("| minute | gestures | resident, MB | of it not of a file, MB |\n|---|---|---|---|")
	var held []int // MB at each minute, without what is of a file
	began := time.Now()
	for gestures := 0; time.Since(began) < long; gestures++ {
		if err := attempt(func() { p.fidget(rng) }); err != nil {
			_ = attempt(p.picture("wandered-off"))
			panic(fmt.Errorf("after %d gestures: %w", gestures, err))
		}
		if minute := int(time.Since(began).Minutes()); minute > len(held) {
			all, own := residentMB(p.cmd.Process.Pid)
			held = append(held, own)
			fmt.Printf("| %d | %d | %d | %d |\n", minute, gestures+1, all, own)
			// The baker's day goes on with it.
			p.setClock(tourBegins.Add(time.Since(began)))
		}
	}
	if third := len(held) / 3; third > 0 {
		fmt.Printf("most in each third: %d, %d, %d MB\n",
			slices.Max(held[:third]), slices.Max(held[third:2*third]), slices.Max(held[2*third:]))
	}
}

// opensDemo opens a window of its own, over the one that is used.
const opensDemo = "Open the demo"

// fidget makes one gesture at random. What ends the program is not among them, nor what
// opens another.
func (p *program) fidget(rng *rand.Rand) {
	keys := []string{
		"ctrl+1", "ctrl+2", "ctrl+3", "ctrl+4", "ctrl+5", "ctrl+k", "ctrl+z", "alt+Left", "Tab", "Tab", "Return",
		"Down", "Up", "Left", "Right", "Next", "Prior", "Home", "End", "space", "e", "Escape", "Escape",
	}
	switch n := rng.IntN(100); {
	case n < 45:
		things := slices.DeleteFunc(p.things(), func(t outline.Thing) bool {
			return t.Clipped || t.Text == opensDemo || t.W <= 0 || t.W > 500 || t.H > 400 || t.X < 0 || t.Y < 0 ||
				t.X+t.W/2 > p.size.Width || t.Y+t.H/2 > p.size.Height
		})
		if len(things) == 0 {
			return
		}
		t := things[rng.IntN(len(things))]
		p.clickOn(t)
	case n < 65:
		notches := 1 + rng.IntN(10)
		if rng.IntN(2) == 0 {
			notches = -notches
		}
		p.wheel(p.size.Width*(0.3+0.6*rng.Float32()), p.size.Height*0.5, notches)
	case n < 70:
		words := []string{"rye", "12.5", "Tue 8:30", "a note with more than one word", "strong white 400", "salt 2 %", "80"}
		p.typeText(words[rng.IntN(len(words))])
	case n < 75: // what a page does by a letter
		p.key(string(rune('a' + rng.IntN(26))))
	case n < 82:
		p.key("Escape", fmt.Sprintf("ctrl+%d", 1+rng.IntN(5)))
	default:
		p.key(keys[rng.IntN(len(keys))])
	}
}

var statusLine = regexp.MustCompile(`(?m)^(VmRSS|RssAnon):\s+(\d+) kB$`)

// residentMB asks the system how much memory a process holds, and how much of it is not a file's.
func residentMB(pid int) (all, own int) {
	b := must(os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "status")))
	for _, m := range statusLine.FindAllStringSubmatch(string(b), -1) {
		kB := must(strconv.Atoi(m[2]))
		if strings.HasSuffix(m[1], "Anon") {
			own = kB / 1000
		} else {
			all = kB / 1000
		}
	}
	return all, own
}
