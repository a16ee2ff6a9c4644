package kit_test

import (
	"testing"

	"twinloaf/app/kit"
)

// A toast's time is over and its going waits for the main goroutine when another toast
// comes: the going is the first one's, and the second stays.
func TestWhatWasStoppedIsNotDoneThoughItsTimeHasCome(t *testing.T) {
	queue := make(chan func(), 1)
	f := kit.NewFrame(func(fn func()) { queue <- fn }, kit.Body("page"))
	done := false
	stop := f.After(0, func() { done = true })
	late := <-queue
	stop()
	late()
	if done {
		t.Error("it was done")
	}
	f.After(0, func() { done = true })
	(<-queue)()
	if !done {
		t.Error("what was not stopped was not done")
	}
}
