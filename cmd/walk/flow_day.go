package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// bakeDay makes a formula, plans a day of it, starts it, and follows it by a clock
// that the walk moves. The plug is pulled among the turns: the countdown must be
// right again, and the day go on to its end.
func bakeDay(w *walk) {
	p, folder := w.program()
	begin := time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)
	p.steps(
		p.startingAt(begin),
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("f"),
		p.seeing("New formula"), p.picture("no-formula"), p.keys("n"),
		p.seeing("not baked yet"),
		p.keys("e"), p.keys("ctrl+a"), p.typing("Walk bread"), p.keys("Tab"),
		p.seeing("Walk bread, not baked yet"),
		p.picture("formula"),
		p.pressing("Plan a bake"),
		p.seeing("Walk bread: ready"),
		p.picture("plan"),
		p.pressing("Start the day"),
		p.seeing("10 min later"),
		p.picture("started"),
		func() { p.goThrough(begin, "Fold 3 of 6") },
		p.picture("third-turn"),
		p.kill,
	)
	day := dayIn(folder)
	p.afterTheCut(day)
	p.quit()
	checkDay(folder)
}

// dueWords is how the day says when what is next is due, or what runs is to be over.
var dueWords = regexp.MustCompile(`^(?:at|until) .*?(\d\d:\d\d)$`)

// goThrough does what the day asks for when it is due until it comes to what has a title.
func (p *program) goThrough(now time.Time, end string) {
	last := ""
	for range 60 {
		things := p.wait("what comes after "+last, func(things []outline.Thing) bool {
			_, ok := dueIn(things)
			return (ok || underHand(things) == end) && lookOf(things) != last
		})
		if last = lookOf(things); underHand(things) == end {
			return
		}
		due, _ := dueIn(things)
		at := time.Date(now.Year(), now.Month(), now.Day(), due.Hour(), due.Minute(), 0, 0, time.Local)
		if at.Before(now) {
			at = at.AddDate(0, 0, 1)
		}
		now = at
		if underHand(things) == "Cold proof" {
			p.picture("into-the-cold")()
		}
		p.setClock(now)
		p.whenDue(last)
	}
	panic(fmt.Errorf("%s does not come", end))
}

// whenDue presses the day's key once what it says is due. What needs no hands begins by
// itself then.
func (p *program) whenDue(look string) {
	things := p.wait(look+" to be due", func(things []outline.Thing) bool {
		return lookOf(things) != look || slices.Contains(outline.Texts(things), "0:00")
	})
	if lookOf(things) == look {
		p.key("d")
	}
}

// lookOf is what the day looks out for, and until when.
func lookOf(things []outline.Thing) string {
	for _, t := range things {
		if dueWords.MatchString(t.Text) {
			return underHand(things) + " " + t.Text
		}
	}
	return underHand(things)
}

// underHand is what is to be done next: of all words but the time they are written
// largest.
func underHand(things []outline.Thing) string {
	var largest outline.Thing
	for _, t := range things {
		if t.Kind == "text" && t.H > largest.H && !strings.ContainsAny(t.Text[:1], "+0123456789") {
			largest = t
		}
	}
	return largest.Text
}

func dueIn(things []outline.Thing) (time.Time, bool) {
	for _, t := range things {
		if m := dueWords.FindStringSubmatch(t.Text); m != nil {
			at, err := time.Parse("15:04", m[1])
			return at, err == nil
		}
	}
	return time.Time{}, false
}

// dayIn is the one day that a journal holds.
func dayIn(folder string) (day plan.Plan) {
	b := only[journal.Bake](folder)
	failIf(b.State != journal.Running, "the bake is %q, not under way", b.State)
	day, ok := b.Day()
	failIf(!ok, "the bake has no day")
	return day
}

// afterTheCut finds the third turn still to be made, with the time to it right, and
// does everything that is left when it is due.
func (p *program) afterTheCut(day plan.Plan) {
	left := pending(day)
	failIf(len(left) == 0 || left[0].Turn != 3, "after the cut this is left: %+v", left)
	p.setClock(left[0].Due.Add(-12 * time.Minute))
	p.start()
	p.steps(
		p.seeing("Fold 3 of 6"), p.picture("today-again"),
		p.keys("ctrl+1", "o"),
		p.seeing("12:00"), // to the turn, in minutes and seconds
		p.picture("countdown-again"),
	)
	p.goThrough(left[0].Due.Add(-12*time.Minute), "The bread is ready")
	p.steps(
		p.seeing("The bread is ready"), p.picture("ready"),
		p.keys("d"),
		p.seeing("How it came out"), p.typing("1790"), p.keys("Tab"), // the cursor is there
		p.picture("how-did-it-come-out"),
	)
}

// pending lists what of a day is still to be done.
func pending(day plan.Plan) []plan.Moment {
	return slices.DeleteFunc(day.Timeline(time.Time{}), func(m plan.Moment) bool { return m.State != plan.Pending })
}

// checkDay looks at what the journal keeps of the day.
func checkDay(folder string) {
	b := only[journal.Bake](folder)
	failIf(b.State != journal.Finished || b.Name != "Walk bread", "the bake %q is %q", b.Name, b.State)
	failIf(b.Outcome.DoughWeight == nil, "the dough's weight was not kept")
	for _, s := range b.Steps {
		failIf(s.Kind == journal.StepTurns && len(s.Done) != 6, "%d turns are kept", len(s.Done))
	}
}
