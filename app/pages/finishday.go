package pages

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
)

// FinishDay ends the day of a bake and goes where it is said how the bread came out.
func FinishDay(env *Env, id journal.ID) {
	now := env.Now()
	done := ChangeDay(env, id, lang.L("finishing the day"), func(b *journal.Bake) error {
		finishDay(b, now)
		return nil
	})
	if done {
		env.Go(Route{Name: Bake, ID: id, More: ToOutcome})
	}
}

// finishDay ends the last step that is still open, and the bake's day with it.
func finishDay(b *journal.Bake, now time.Time) {
	day, _ := b.Day()
	if timeline := day.Timeline(now); len(timeline) > 0 {
		if end := timeline[len(timeline)-1].Due; end.Before(now) {
			now = end // the bread was ready then, though nobody said so
		}
	}
	for i := len(b.Steps) - 1; i >= 0; i-- {
		if s := &b.Steps[i]; !s.At.IsZero() {
			if s.End.IsZero() {
				s.End = now
			}
			break
		}
	}
	if b.Ready.IsZero() {
		b.Ready = now
	}
	b.State = journal.Finished
}
