package main

import (
	"fmt"
	"runtime"
)

// A walk ends at the first thing that goes wrong, as a test does: what cannot be done, or is not as
// it should be, panics with an error that says so, and attempt gives that error.

// attempt does something, and gives what went wrong. What is wrong with the walk itself goes on.
func attempt(do func()) (err error) {
	defer func() {
		said := recover()
		if _, wrong := said.(runtime.Error); wrong {
			panic(said)
		}
		if err, _ = said.(error); err == nil && said != nil {
			panic(said)
		}
	}()
	do()
	return nil
}

// doing does something whose error says what was being done.
func doing(what string, do func()) {
	if err := attempt(do); err != nil {
		panic(fmt.Errorf("%s: %w", what, err))
	}
}

// check ends the walk with an error, if there is one.
func check(err error) {
	if err != nil {
		panic(err)
	}
}

// failIf ends the walk with what is wrong, if it is.
func failIf(wrong bool, what string, args ...any) {
	if wrong {
		panic(fmt.Errorf(what, args...))
	}
}

// must gives what came without an error.
func must[T any](v T, err error) T {
	check(err)
	return v
}
