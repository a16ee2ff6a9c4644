// Walk drives the real window of Twinloaf on a display of its own, as a person
// would: with keys and clicks on what is in sight. It walks the flows that must
// always work and says how many passed. It is for Linux, with Xvfb, openbox
// and xdotool at hand; the program it is given is built with the tag walk.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/pprof"
	"strings"
	"time"

	"github.com/jezek/xgb"
)

// A flow is one walk through the window, in a work folder of its own.
type flow struct {
	name string
	run  func(w *walk)
}

// A walk is what a flow is given.
type walk struct {
	*screen
	exe  string // the program
	dir  string // a folder of its own
	data string // the repository's testdata
}

// program prepares one on the walk's own journal, and gives that journal's folder.
func (w *walk) program() (p *program, folder string) {
	folder = filepath.Join(w.dir, "journal")
	return newProgram(w.screen, w.exe, w.dir, folder), folder
}

func main() {
	exe := flag.String("exe", "", "the program, built with -tags walk")
	shots := flag.String("shots", filepath.Join(os.TempDir(), "twinloaf-pictures"), "the folder that pictures go to")
	data := flag.String("testdata", "testdata", "the folder of test data")
	pictures := flag.String("screens", "", "make the README's pictures in this folder instead")
	only := flag.String("only", "", "walk only the flows, or look only at the stops of a tour, whose name holds this")
	var tour tourOptions
	flag.StringVar(&tour.dir, "tour", "", "take a picture of every kind of page of the demo in this folder instead")
	flag.StringVar(&tour.look, "look", "light", "the look of the tour's window: light or dark")
	flag.StringVar(&tour.size, "size", "1280x800", "its size in points")
	flag.IntVar(&tour.scale, "scale", 1, "how many pixels a point has in it")
	flag.IntVar(&tour.text, "text", 100, "how large its text is, in percent, as the settings offer it")
	flag.StringVar(&tour.in, "in", "", "the language of the tour's window, by its tag (de); empty: English")
	flag.BoolVar(&tour.empty, "empty", false, "tour an empty journal, or use one at random, instead of the demo")
	compare := flag.String("compare", "", "tell in which pictures the tour in this folder differs from the one in the folder after the flags")
	long := flag.Duration("wander", 0, "use the program at random for so long instead, and tell each minute what memory it holds")
	seed := flag.Uint64("seed", 1, "what the gestures of -wander are drawn from")
	flag.Parse()
	xgb.Logger.SetOutput(io.Discard) // it would miss a key to a display that has no lock
	err := attempt(func() {
		switch {
		case *long > 0:
			wander(*exe, *shots, *long, *seed, tour.empty)
		case *compare != "":
			compareTours(*compare, flag.Arg(0))
		case tour.dir != "":
			tour.only, tour.data = *only, *data
			lookAround(*exe, tour)
		case *pictures != "":
			screens(*exe, *pictures)
		default:
			walkFlows(*only, *exe, *shots, *data)
		}
	})
	if err != nil {
		fmt.Fprintln(os.Stderr, "walk:", err)
		os.Exit(1)
	}
}

// walkFlows walks the flows whose name holds only, and says how many passed.
func walkFlows(only, exe, shots, data string) {
	passed, failed := 0, 0
	for _, f := range flows() {
		if !strings.Contains(f.name, only) {
			continue
		}
		began := time.Now()
		walking := func() { one(f, exe, shots, data) }
		err := attempt(walking)
		if errors.Is(err, context.DeadlineExceeded) {
			fmt.Printf("HUNG %s, and is walked once more: %v\n", f.name, err)
			began = time.Now()
			err = attempt(walking)
		}
		took := time.Since(began).Round(time.Second)
		if err != nil {
			failed++
			fmt.Printf("FAIL %s (%v): %v\n", f.name, took, err)
			continue
		}
		passed++
		fmt.Printf("ok   %s (%v)\n", f.name, took)
	}
	fmt.Printf("pictures of each step are in %s\n", shots)
	fmt.Printf("%d passed, %d failed\n", passed, failed)
	failIf(failed > 0 || passed == 0, "not every flow passed")
}

// longest is how long a flow may take. Nothing is judged by it: it only ends one in which
// a command of the walk's own hangs, with a word of where. What the program does not do
// has failed long before that.
const longest = 15 * time.Minute

// one walks one flow on a fresh display.
func one(f flow, exe, shots, data string) {
	ctx, stop := context.WithTimeout(context.Background(), longest)
	defer stop()
	defer context.AfterFunc(ctx, func() {
		fmt.Fprintf(os.Stderr, "%q has taken %v:\n", f.name, longest)
		_ = pprof.Lookup("goroutine").WriteTo(os.Stderr, 2)
	})()
	dir := must(os.MkdirTemp("", "twinloaf-walk-"))
	defer os.RemoveAll(dir)
	shots = filepath.Join(shots, strings.ReplaceAll(f.name, " ", "-"))
	check(os.MkdirAll(shots, 0o755))
	s := startScreen(ctx, 1280, 800, shots)
	defer s.stop()
	check(errors.Join(attempt(func() { f.run(&walk{screen: s, exe: exe, dir: dir, data: data}) }), ctx.Err()))
}
