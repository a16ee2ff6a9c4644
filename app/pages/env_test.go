package pages

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// mainLoop stands in for the main goroutine: it runs what was handed to it when
// the test says so.
type mainLoop struct {
	mu  sync.Mutex
	fns []func()
}

func (l *mainLoop) do(fn func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.fns = append(l.fns, fn)
}

func (l *mainLoop) run() {
	l.mu.Lock()
	fns := l.fns
	l.fns = nil
	l.mu.Unlock()
	for _, fn := range fns {
		fn()
	}
}

func TestRun(t *testing.T) {
	var loop mainLoop
	env := &Env{}
	env.Begin(loop.do)
	worked, done := 0, 0
	env.Run(func(context.Context) { worked++ }, func() { done++ })
	env.Wait()
	if done != 0 {
		t.Fatal("done was called away from the main goroutine")
	}
	loop.run()
	if worked != 1 || done != 1 {
		t.Errorf("worked %d times, done %d times; want 1 and 1", worked, done)
	}
}

func TestRunCancelled(t *testing.T) {
	var loop mainLoop
	env := &Env{}
	env.Begin(loop.do)
	began := make(chan struct{})
	cancel := env.Run(func(ctx context.Context) { close(began); <-ctx.Done() }, func() { t.Error("done was called after the cancelling") })
	<-began
	cancel()
	cancel() // a second time is harmless
	env.Wait()
	loop.run()

	cancel = env.Run(func(context.Context) {}, func() { t.Error("done was called after the cancelling") })
	env.Wait()
	cancel() // the work is over, and its result is on its way
	loop.run()
}

func TestCloseWaitsForNoWorkThatDoesNotEnd(t *testing.T) {
	env := &Env{}
	env.Begin(new(mainLoop).do)
	never := make(chan struct{})
	defer close(never)
	env.Run(func(context.Context) { <-never }, nil)
	closed := make(chan struct{})
	go func() { env.close(time.Millisecond); close(closed) }()
	<-closed // or the test never ends
}

func TestCloseEndsWork(t *testing.T) {
	var loop mainLoop
	env := &Env{}
	env.Begin(loop.do)
	ended := false
	env.Run(func(ctx context.Context) { <-ctx.Done(); ended = true }, func() { t.Error("done was called after the closing") })
	env.Close()
	loop.run()
	if !ended {
		t.Error("Close did not wait for the work")
	}
}

// Closing the window waits for what Run began, so no work may let its context drop:
// what cannot be broken off is given to Think.
func TestNoWorkDropsItsContext(t *testing.T) {
	drops := regexp.MustCompile(`\.Run\(func\((_ )?context\.Context\)`)
	err := filepath.WalkDir("..", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		if drops.Match(text) {
			t.Errorf("%s begins work that cannot be broken off", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Work that only reckons is not waited for at the end, and its result is dropped then.
func TestThink(t *testing.T) {
	var loop mainLoop
	env := &Env{}
	env.Begin(loop.do)
	done := 0
	env.Think(func() {}, func() { done++ })
	env.Think(func() {}, func() { t.Error("done was called though nobody wanted it") })()
	env.Wait()
	loop.run()
	if done != 1 {
		t.Errorf("done %d times", done)
	}
	hold := make(chan struct{})
	env.Think(func() { <-hold }, func() { t.Error("done was called after the end") })
	env.Close()
	close(hold)
	env.thoughts.Wait()
	loop.run()
}
