package room_test

import (
	"context"
	"testing"

	"twinloaf/app/room"
)

func begun(t *testing.T) *room.Env {
	t.Helper()
	env := &room.Env{}
	env.Begin(func(fn func()) { fn() })
	t.Cleanup(env.Close)
	return env
}

func TestRunCallsDone(t *testing.T) {
	env := begun(t)
	worked, done := false, false
	env.Run(func(context.Context) { worked = true }, func() { done = true })
	env.Wait()
	if !worked || !done {
		t.Errorf("worked %v, done %v", worked, done)
	}
}

func TestRunThatIsGivenUpTellsNobody(t *testing.T) {
	env := begun(t)
	release, done := make(chan struct{}), false
	stop := env.Run(func(ctx context.Context) {
		<-release
		<-ctx.Done()
	}, func() { done = true })
	stop()
	stop() // twice is harmless
	close(release)
	env.Wait()
	if done {
		t.Error("the result of work that was given up was shown")
	}
}
