package cultures

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// A lead is how a culture is, in words: what the page opens with.
type lead struct {
	State  string // in two or three words, for the list as well
	Why    string // what that rests on
	Next   string // what is usual next, or what was
	Danger bool   // the caution of State stands above all else
	// Cautions are those of the last days' readings.
	Cautions []string
	// Evidence says on which readings it rests.
	Evidence string
}

// leadOf says how a culture is. Nothing is said that the readings do not show.
func leadOf(p *portrait, u measure.Units) lead {
	l := stateOf(p, u)
	l.Evidence = evidenceOf(p, u, p.guide.Evidence)
	if !l.Danger {
		l.Cautions = u.SayAll(p.guide.Cautions)
	}
	return l
}

func stateOf(p *portrait, u measure.Units) lead {
	c := p.life.Culture
	if !c.Ended.IsZero() && p.guide.Stage != ferment.StageDanger {
		return lead{State: lang.L("Retired"), Why: lang.L("Given up on {{.Day}}; its record stays.", map[string]any{"Day": u.Day(c.Ended, p.now)})}
	}
	past := p.unknown == nil && p.now.After(p.forecast.RipeTo.High)
	l := p.guide.Lead(p.ready, p.life.Thresholds(), ferment.JarNow{Place: ferment.Place(p.life.Home(p.now)), Past: past})
	say := func(line say.Line) string {
		if line.IsZero() {
			return ""
		}
		return u.Say(line)
	}
	return lead{State: say(l.State), Why: say(l.Why), Next: say(l.Next), Danger: l.Danger}
}

// evidenceOf says how many of its own readings a guide rests on, and of which days.
func evidenceOf(p *portrait, u measure.Units, ids []string) string {
	on := slices.DeleteFunc(slices.Clone(p.life.Readings), func(r *journal.Reading) bool { return !slices.Contains(ids, string(r.ID)) })
	if len(on) == 0 {
		return ""
	}
	data := map[string]any{"N": len(on), "From": u.When(on[0].At, p.now), "To": u.When(on[len(on)-1].At, p.now)}
	if len(on) == 1 {
		return lang.L("This rests on the reading of {{.From}}.", data)
	}
	return lang.L("This rests on {{.N}} readings, from {{.From}} to {{.To}}.", data)
}
