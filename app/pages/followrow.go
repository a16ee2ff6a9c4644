package pages

import (
	"context"
	"time"

	"twinloaf/app/kit"
)

// pointerRests is how long the pointer stays on a row before that row is followed: less on
// the way across a list is no wish to see what lies there.
const pointerRests = 150 * time.Millisecond

// FollowRow calls show with the row that the keyboard is at whenever that is another one, and
// with the one that the pointer rests on.
func FollowRow(env *Env, list *kit.RowList, show func(i int)) {
	stop := func() {}
	list.OnMove = func(i int) {
		stop()
		show(i)
	}
	list.OnPoint = func(i int) {
		stop()
		if i < 0 {
			return
		}
		stop = env.Run(func(ctx context.Context) {
			select {
			case <-ctx.Done():
			case <-time.After(pointerRests):
			}
		}, func() { show(i) })
	}
}
