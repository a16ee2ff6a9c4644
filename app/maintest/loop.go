// Package maintest stands in for the main goroutine, for tests.
package maintest

import (
	"bytes"
	"runtime"
	"sync"
)

// A Loop is a main goroutine: the test's own. What the test hands to it is done at
// once; what other goroutines hand to it waits until the test hands it something, such
// as nothing at all, which is how the Wait of a widget or of an Env ends. Nothing ever
// runs within something else.
type Loop struct {
	mu      sync.Mutex
	owner   string
	waiting []func()
	busy    bool
	handed  int // by other goroutines
}

// New gives a Loop that belongs to the goroutine that calls it.
func New() *Loop {
	l := new(Loop)
	l.Own()
	return l
}

// Own gives the Loop to the goroutine that calls: that of a test within the test.
func (l *Loop) Own() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.owner = self()
}

// Do has fn done by the test's goroutine. A [kit.Main] is made of it.
func (l *Loop) Do(fn func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.waiting = append(l.waiting, fn)
	if own := self() == l.owner; l.busy || !own {
		if !own {
			l.handed++
		}
		return
	}
	l.busy = true
	defer func() { l.busy = false }() // even where a test gave up in the midst
	for len(l.waiting) > 0 {
		next := l.waiting[0]
		l.waiting = l.waiting[1:]
		l.mu.Unlock()
		func() {
			defer l.mu.Lock()
			next()
		}()
	}
}

// Settle calls each wait, again and again until other goroutines handed nothing over
// meanwhile.
func (l *Loop) Settle(waits ...func()) {
	for before := -1; before != l.count(); {
		before = l.count()
		for _, wait := range waits {
			wait()
		}
	}
}

func (l *Loop) count() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.handed
}

// self names the goroutine that asks, by the head of its stack: "goroutine 18 [".
func self() string {
	head := make([]byte, 40)
	head = head[:runtime.Stack(head, false)]
	name, _, _ := bytes.Cut(head, []byte(" ["))
	return string(name)
}
