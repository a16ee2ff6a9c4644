package remind

import (
	"context"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
)

// asAgain is how long what was worked out of the cultures is gone by.
const asAgain = time.Minute

// Cultures is the source of the feedings that fall due. To know them, past feedings
// are fitted, which takes its time: it is done in the background now and then, and Due
// answers from what was found the last time.
type Cultures struct {
	Env *pages.Env

	due    []hunger
	asking bool
	asked  time.Time
}

// A hunger is a culture and when its next feeding is due.
type hunger struct {
	name, key string
	by        time.Time
	why       ferment.DueReason
}

// Due lists the cultures whose feeding is due, once for each feeding they are in.
func (c *Cultures) Due(now time.Time) ([]Reminder, error) {
	if age := now.Sub(c.asked); !c.asking && (age < 0 || age >= asAgain) {
		c.ask(now)
	}
	var out []Reminder
	for _, h := range c.due {
		if !h.by.After(now) {
			out = append(out, Reminder{
				Key: h.key, At: h.by,
				Title: lang.L("Feed {{.Name}}", map[string]any{"Name": h.name}),
				Text:  c.Env.Units().Say(h.why.Line()),
			})
		}
	}
	return out, nil
}

// ask works out in the background which feedings are due when.
func (c *Cultures) ask(now time.Time) {
	c.asking, c.asked = true, now
	pages.Fetch(c.Env, func(ctx context.Context) ([]hunger, error) {
		return hungers(c.Env.Journal.Until(ctx), &c.Env.Histories, now)
	}, func(found []hunger, err error) {
		c.asking = false
		if c.Env.Failed(err) {
			return
		}
		c.due = found
	})
}

// hungers works out when each living culture wants its next feeding.
func hungers(j journal.Source, kept *histories.Cache, now time.Time) ([]hunger, error) {
	all, err := kept.All(j)
	if err != nil {
		return nil, err
	}
	var out []hunger
	for _, l := range all {
		due, ok := l.Due(now)
		current, fed := l.Current(now)
		if !ok || !fed || due.Reason == ferment.DueNever {
			continue
		}
		out = append(out, hunger{
			name: l.Culture.Name, key: "feed/" + string(l.Culture.ID) + "/" + current.Feeding.ID, by: due.By, why: due.Reason,
		})
	}
	return out, nil
}
