package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/outline"
)

// tourOptions say how the pages are looked at.
type tourOptions struct {
	dir   string // what the pictures go to
	look  string // "light" or "dark"
	size  string // of the window, in points: "1280x800"
	scale int    // pixels a point
	text  int    // how large its text is, in percent
	in    string // the language of the window, by its tag; empty: English
	empty bool   // on an empty journal instead of the demo
	only  string // only the stops whose name holds this, or one of several parted by commas
	data  string // the repository's testdata
}

// A tour goes from page to page and takes pictures.
type tour struct {
	*program
	dir  string
	data string
}

// A stop is a page, or what is laid over it, and the way there.
type stop struct {
	name string
	way  way
	// pages is how many screens of it are looked at, at most; zero is one.
	pages int
}

// A way leads to a stop, from anywhere or only from the stop before.
type way struct {
	gestures []gesture
	goesOn   bool
}

func fromAnywhere(all ...gesture) way { return way{gestures: all} }

func goingOn(all ...gesture) way { return way{gestures: all, goesOn: true} }

// lookAround takes a picture of every kind of page, for a person to look at. It goes
// on after a stop that it does not reach, and names it in its error.
func lookAround(exe string, o tourOptions) {
	work := must(os.MkdirTemp("", "twinloaf-tour-"))
	defer os.RemoveAll(work)
	var w, h float32
	if _, err := fmt.Sscanf(o.size, "%fx%f", &w, &h); err != nil {
		panic(fmt.Errorf("the size %q: %w", o.size, err))
	}
	check(os.MkdirAll(o.dir, 0o755))
	s := startScreen(context.Background(), int(w)*o.scale, int(h)*o.scale, o.dir)
	defer s.stop()
	t := startTour(demoOrEmpty(s, exe, work, o.empty), work, fyne.NewSize(w, h), o)
	stops := t.demoStops()
	if o.empty {
		stops = t.emptyStops()
	}
	var missed []error
	last := -1 // the stop that was looked at last
	for i, s := range stops {
		if !slices.ContainsFunc(strings.Split(o.only, ","), func(part string) bool { return strings.Contains(s.name, part) }) {
			continue
		}
		begin := i
		for begin-1 > last && stops[begin].way.goesOn {
			begin--
		}
		last = i
		err := attempt(func() {
			t.pass(stops[begin:i])
			t.visit(s)
		})
		if err != nil {
			missed = append(missed, fmt.Errorf("%s: %w", s.name, err))
		}
	}
	fmt.Printf("%d pictures are in %s\n", t.taken, o.dir)
	check(errors.Join(missed...))
}

// tourBegins is the moment at which the demo is looked at.
var tourBegins = time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)

// startTour opens the journal in a window of the look, size and scale asked for.
func startTour(p *program, work string, size fyne.Size, o tourOptions) *tour {
	p.home, p.size, p.scale = filepath.Join(work, "home"), size, o.scale
	furnish(p.home, o.data)
	p.steps(
		p.startingAt(tourBegins),
		p.pressing("Settings"), p.pressing(o.look), p.seeing("As you like it"),
	)
	if o.in != "" {
		p.in = readTongue(o.data, o.in)
		p.steps(p.pressing(p.in.name), p.seeing("As you like it"))
	}
	if o.text != 100 { // last, since its heading may be out of sight then
		p.steps(p.pressing(fmt.Sprintf("%d\u00a0%%", o.text)))
		p.text, p.size = o.text, fyne.NewSize(size.Width*100/float32(o.text), size.Height*100/float32(o.text))
	}
	p.steps(p.keys("ctrl+1"), p.missing("As you like it")) // no stop begins at the page that it leads to
	return &tour{program: p, dir: o.dir, data: o.data}
}

// furnish makes a home folder with pictures to choose from, and the log of a cellar: made up,
// the two days before the tour begins.
func furnish(home, data string) {
	log := []byte("time,temperature °C\n")
	for h := range 48 {
		at := tourBegins.Truncate(time.Hour).Add(time.Duration(h-48) * time.Hour)
		log = fmt.Appendf(log, "%s,%.1f\n", at.Format(time.RFC3339), 18+1.5*math.Sin(float64(at.Hour()-9)*math.Pi/12))
	}
	downloads := filepath.Join(home, "Downloads")
	check(os.CopyFS(filepath.Join(home, "Pictures"), os.DirFS(filepath.Join(data, "photo"))))
	check(os.MkdirAll(downloads, 0o755))
	check(os.WriteFile(filepath.Join(downloads, "cellar.csv"), log, 0o600))
}

// pass goes by stops that are not looked at, since the next goes on from there.
func (t *tour) pass(stops []stop) {
	for _, s := range stops {
		doing(s.name, func() { t.reach(s) })
	}
}

// reach goes to a stop. What the stop before has laid over the page is closed first.
func (t *tour) reach(s stop) {
	t.clear()
	t.steps(s.way.gestures...)
}

// visit goes to a stop and takes its pictures, a screen at a time.
func (t *tour) visit(s stop) {
	t.reach(s)
	var last []byte
	for page := 1; page <= max(1, s.pages); page++ {
		name := s.name
		if page > 1 {
			name = fmt.Sprintf("%s-%d", s.name, page)
			t.wheel(t.size.Width*0.6, t.size.Height*0.53, 14)
		}
		now := t.still()
		if bytes.Equal(now, last) {
			break // there is no more of it
		}
		last = now
		t.shot(name)
	}
}

// clear closes what lies over the page.
func (t *tour) clear() {
	over := func(things []outline.Thing) int {
		n := 0
		for _, thing := range things {
			if thing.Kind == "kit.Dialog" || thing.Kind == "kit.menuPopup" {
				n++
			}
		}
		return n
	}
	for range 6 { // Esc may first leave a field
		if over(t.things()) == 0 {
			return
		}
		t.key("Escape")
		time.Sleep(time.Second) // one Esc too many would leave the page
	}
	panic(errors.New("something stays over the page"))
}

// still waits until the window has stopped changing, and gives what it shows. What
// never stops, such as a countdown, is taken as it is.
func (t *tour) still() []byte {
	var last []byte
	for deadline := time.Now().Add(8 * time.Second); ; {
		time.Sleep(500 * time.Millisecond)
		img := t.look(t.window)
		if bytes.Equal(img.Pix, last) || time.Now().After(deadline) {
			return img.Pix
		}
		last = img.Pix
	}
}

// kinds are the sorts of record that the finder names behind a name.
var kinds = regexp.MustCompile(`, (culture|flour|trial|formula, version \d+)$`)

// finding goes to a page or a record by its name, which is the baker's own but for the
// sort of record behind it.
func (t *tour) finding(name string) gesture {
	return func() {
		words := t.in.exactly(name)
		if at := kinds.FindStringIndex(name); at != nil {
			words = name[:at[0]] + strings.TrimPrefix(t.in.say("X"+name[at[0]:]), "X")
		}
		t.steps(t.keys("ctrl+k"), t.seeing("Find anything"), t.typing(words), t.keys("Return"), t.missing("Find anything"))
	}
}

// pressingThe clicks on the nth widget of a kind that is in sight, from nought.
func (t *tour) pressingThe(nth int, kind string) gesture {
	return func() {
		it := t.nth(nth, kind, func(thing outline.Thing) bool { return thing.Kind == kind && !thing.Clipped })
		t.clickOn(it)
	}
}
