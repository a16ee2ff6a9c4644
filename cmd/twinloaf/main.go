// Twinloaf is a bread journal for the desktop: it keeps the record of natural
// leavens and of the bread baked with them, does the arithmetic, and runs
// blind tastings.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	fyneapp "fyne.io/fyne/v2/app"

	"twinloaf/app"
	"twinloaf/assets/demo"
	"twinloaf/assets/words"
	_ "twinloaf/cmd/twinloaf/anylocale" // before the toolkit is set up
	"twinloaf/journal"
)

// inspectCommand has the program look at a file for its parent: see
// [journal.InspectIn].
const inspectCommand = "inspect-journal"

func main() {
	if len(os.Args) == 3 && os.Args[1] == inspectCommand {
		debug.SetGCPercent(400) // it ends before there is much to collect
		if err := journal.InspectAndSay(context.Background(), os.Args[2], os.Stdout); err != nil {
			os.Exit(1)
		}
		return
	}
	if len(os.Args) == 3 && os.Args[1] == checkCommand {
		ctx, stop := untilStopped(context.Background())
		err := checkHere(ctx, os.Args[2], journal.Options{Inspect: inspector()}, os.Stdout, newProgressLine(os.Stderr))
		stop()
		end(err)
		return
	}
	var o options
	o.flags(flag.CommandLine)
	flag.Parse()
	if flag.NArg() > 0 {
		end(fmt.Errorf("%q is not understood; -h tells what is", flag.Arg(0)))
	}
	end(run(o))
}

// end ends the program with what went wrong, if anything.
func end(err error) {
	if err == nil {
		return
	}
	if !errors.Is(err, errFound) {
		fmt.Fprintln(os.Stderr, "twinloaf:", err)
	}
	os.Exit(1)
}

type options struct {
	dir, clock  string
	demo, check bool
}

// flags has them read from a command.
func (o *options) flags(f *flag.FlagSet) {
	f.StringVar(&o.dir, "journal", "", "keep the journal in this `folder` instead of the usual one")
	f.BoolVar(&o.demo, "demo", false, "open a throwaway journal with an invented cook's bread in it")
	f.BoolVar(&o.check, "check", false, "read the whole journal, mend what can be mended, say what was found, and end (Ctrl+C stops it); the status is 0 only if nothing was wrong")
	f.StringVar(&o.clock, "clock", "", "take the time from this `file` (RFC 3339), for trying things out")
}

func run(o options) error {
	ctx := context.Background()
	opt := journal.Options{Inspect: inspector()}
	if o.clock != "" {
		opt.Clock = fileClock(o.clock)
	}
	if o.check {
		return check(ctx, o)
	}
	boundMalloc()
	collectLater()
	k := newKeeper()
	ctx, done := k.untilTold(ctx)
	defer done()
	displayGone(k.end)
	a := fyneapp.NewWithID("app.twinloaf")
	s := newSleeper()
	answerOutlines(s.do)
	if err := words.Load(); err != nil {
		return fmt.Errorf("loading the words of the window: %w", err)
	}
	open := func(ctx context.Context) (*journal.Journal, error) {
		return openJournal(ctx, o, opt)
	}
	if o.demo {
		open = func(ctx context.Context) (*journal.Journal, error) { return openDemo(ctx, opt, k.hold) }
	}
	return errors.Join(app.Start(ctx, a, s.do, k.keep(open)), k.close())
}

// inspector looks at a journal in a child process of this program.
func inspector() func(context.Context, string) error {
	exe, err := os.Executable()
	if err != nil {
		return nil // the journal is looked at in this process instead
	}
	return journal.InspectIn(exe, inspectCommand)
}

func openJournal(ctx context.Context, o options, opt journal.Options) (*journal.Journal, error) {
	sweepDemos(os.TempDir())
	dir, err := folder(o)
	if err != nil {
		return nil, err
	}
	return journal.Open(ctx, dir, opt)
}

// openDemo makes a fresh demo journal in a temporary folder, which goes when the journal
// is closed, or else at the next start: hold keeps what tells that this program lives.
func openDemo(ctx context.Context, opt journal.Options, hold func(*os.File)) (*journal.Journal, error) {
	sweepDemos(os.TempDir())
	dir, held, err := makeDemoFolder(os.TempDir())
	if err != nil {
		return nil, err
	}
	hold(held)
	now := time.Now()
	if opt.Clock != nil {
		now = opt.Clock()
	}
	if err := demo.Build(ctx, dir, now, demo.Options{}); err != nil {
		return nil, errors.Join(fmt.Errorf("making the demo journal: %w", err), os.RemoveAll(dir))
	}
	opt.Throwaway = true
	j, err := journal.Open(ctx, dir, opt)
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	return j, nil
}

// folder is where the journal is: as asked, or where the system keeps what
// belongs to a person.
func folder(o options) (string, error) {
	if o.dir != "" {
		return o.dir, nil
	}
	if dir := os.Getenv("XDG_DATA_HOME"); dir != "" {
		return filepath.Join(dir, "twinloaf"), nil
	}
	return userData()
}

// fileClock reads the time from a file each time it is asked; the computer's
// own time stands in while the file cannot be read.
func fileClock(path string) func() time.Time {
	return func() time.Time {
		b, err := os.ReadFile(path)
		if err != nil {
			return time.Now()
		}
		t, err := time.Parse(time.RFC3339, strings.TrimSpace(string(b)))
		if err != nil {
			return time.Now()
		}
		return t.In(time.Local)
	}
}
