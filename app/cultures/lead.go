package cultures

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
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
func leadOf(p *portrait, u kit.Units) lead {
	l := stateOf(p, u)
	if l.Danger {
		l.Evidence = evidenceOf(p, u, p.guide.Evidence)
		return l
	}
	l.Cautions = u.SayAll(p.guide.Cautions)
	l.Evidence = evidenceOf(p, u, p.guide.Evidence)
	return l
}

func stateOf(p *portrait, u kit.Units) lead {
	c := p.life.Culture
	data := guideData(p, u)
	switch {
	case p.guide.Stage == ferment.StageDanger:
		return lead{State: lang.L("Throw it away"), Why: u.Say(ferment.ThrowAway()), Danger: true}
	case !c.Ended.IsZero():
		return lead{State: lang.L("Ended"), Why: lang.L("Given up on {{.Day}}; its record stays.", map[string]any{"Day": u.Day(c.Ended.In(p.now.Location()), p.now)})}
	case p.life.Home(p.now) == journal.Refrigerator:
		return lead{State: lang.L("Resting in the refrigerator"), Why: lang.L("There it needs feeding about once a week, and one or two feedings at room temperature before a bake (common practice)."), Next: pauseWords(p)}
	case p.ready.Ready:
		return lead{State: lang.L("Ready to bake with"), Why: lang.L("It rose to {{.Rise}} within {{.Hours}} h on {{.Want}} feedings in a row.", data), Next: pauseWords(p)}
	case p.life.Day(p.now) > 0 && p.life.Day(p.now) <= young:
		return youngState(p, data, u)
	}
	return oldState(p, data, u)
}

// guideData are the figures that the sentences speak of.
func guideData(p *portrait, u kit.Units) map[string]any {
	th := p.life.Thresholds()
	data := map[string]any{
		"Rise": times(u, float64(th.Rise)), "Hours": u.FormatNumber(th.Within.Hours(), 1), "Want": th.InARow,
		"Have": inARow(p.ready), "Burst": p.guide.Lull.BurstDay, "BurstRise": times(u, float64(p.guide.Lull.BurstRise)),
		"First": p.guide.Lull.First, "Last": p.guide.Lull.Last,
	}
	if n := len(p.guide.Days); n > 0 {
		data["LastRise"], data["LastDay"] = times(u, float64(p.guide.Days[n-1].Rise)), p.guide.Days[n-1].Day
	}
	return data
}

// inARow is how many feedings in a row rose in time.
func inARow(r ferment.Readiness) int {
	for _, c := range r.Conditions {
		if c.Code == ferment.ConditionRises {
			return int(c.Have)
		}
	}
	return 0
}

func youngState(p *portrait, data map[string]any, u kit.Units) lead {
	switch p.guide.Stage {
	case ferment.StageUnread:
		return lead{State: lang.L("Not read yet"), Why: lang.L("Mark the level after each feeding and read the height a few hours later."),
			Next: lang.L("Many cultures stir on day 2 or 3, some only after a week.")}
	case ferment.StageBurst:
		return lead{State: lang.L("The early burst"), Why: lang.L("It rose to {{.BurstRise}} on day {{.Burst}}. That gas comes mostly from bacteria that the acid will stop; it is not ready to bake with.", data),
			Next: lang.L("A lull of a few days usually follows.")}
	case ferment.StageLull:
		return lead{State: lang.L("The usual lull"), Why: lang.L("After the burst of day {{.Burst}} it has hardly risen since day {{.First}}. This pause is usual; go on feeding.", data),
			Next: lang.L("Usual next: small bubbles, a sour or fruity smell, then a slow rise from feeding to feeding.")}
	case ferment.StageWaking, ferment.StageSteady:
		return risingState(p, data, u)
	case ferment.StageSlow:
		return oldState(p, data, u)
	}
	return lead{State: lang.L("A quiet beginning"), Why: lang.L("Little rise so far, to {{.LastRise}} on day {{.LastDay}}. Go on feeding.", data),
		Next: u.Say(say.Of("Many cultures stir on day 2 or 3, some only after a week; warmth of {{.From}} to {{.To}} helps (common practice).",
			say.With{"From": say.Celsius(24, 0), "To": say.Celsius(28, 0)}))}
}

// risingState speaks of a young culture that rises after each feeding.
func risingState(p *portrait, data map[string]any, u kit.Units) lead {
	have := inARow(p.ready)
	want := p.life.Thresholds().InARow
	switch {
	case have >= want:
		return lead{State: lang.L("Nearly there"), Why: lang.L("It rose to {{.Rise}} within {{.Hours}} h on {{.Want}} feedings in a row.", data) + " " + stillOpen(p.ready, u), Next: pauseWords(p)}
	case have == 1:
		return lead{State: lang.L("Nearly there"), Why: lang.L("It rose to {{.Rise}} within {{.Hours}} h after a feeding; {{.Want}} in a row are what bakers usually wait for.", data), Next: pauseWords(p)}
	case have > 1:
		return lead{State: lang.L("Nearly there"), Why: lang.L("It rose to {{.Rise}} within {{.Hours}} h after {{.Have}} feedings in a row; {{.Want}} are what bakers usually wait for.", data), Next: pauseWords(p)}
	}
	return lead{State: lang.L("Waking"), Why: lang.L("It rises again, to {{.LastRise}} on day {{.LastDay}}. Usual next: doubling, at about the same hour after each feeding.", data), Next: pauseWords(p)}
}

// oldState speaks of a culture past its first weeks that is not ready.
func oldState(p *portrait, data map[string]any, u kit.Units) lead {
	switch {
	case p.guide.Stage == ferment.StageUnread:
		return lead{State: lang.L("Not read yet"), Why: lang.L("Mark the level after a feeding and measure the height a few hours later; the peak can then be forecast.")}
	case p.guide.Stage == ferment.StageSlow:
		return lead{State: lang.L("Slow"), Why: lang.L("It rose only to {{.LastRise}} on the last day it was read; at this age that is no longer part of the beginning.", data),
			Next: lang.L("Usual remedies: a warmer place, keeping less to more flour, some wholemeal rye (common practice).")}
	}
	return lead{State: lang.L("Not quite ready"), Why: stillOpen(p.ready, u)}
}

// pauseWords say that the pause of the first days meant nothing bad.
func pauseWords(p *portrait) string {
	l := p.guide.Lull
	if !l.Found || p.life.Day(p.now) > young {
		return ""
	}
	data := map[string]any{"First": l.First, "Last": l.Last}
	if l.First == l.Last {
		return lang.L("The lull on day {{.First}} is normal; nothing was wrong.", data)
	}
	return lang.L("The lull on days {{.First}} to {{.Last}} is normal; nothing was wrong.", data)
}

// stillOpen names the conditions that are not met.
func stillOpen(r ferment.Readiness, u kit.Units) string {
	open := u.Say(r.Open())
	if open == "" {
		return ""
	}
	return lang.L("Still open: {{.What}}.", map[string]any{"What": open})
}

// evidenceOf says how many readings a guide rests on, and of which days.
func evidenceOf(p *portrait, u kit.Units, ids []string) string {
	if len(ids) == 0 {
		return ""
	}
	var first, last *journal.Reading
	for _, r := range p.life.Readings {
		if !slices.Contains(ids, string(r.ID)) {
			continue
		}
		if first == nil {
			first = r
		}
		last = r
	}
	if first == nil {
		return ""
	}
	data := map[string]any{
		"N": len(ids), "From": u.When(first.At, p.now), "To": u.When(last.At, p.now),
	}
	if len(ids) == 1 {
		return lang.L("This rests on the reading of {{.From}}.", data)
	}
	return lang.L("This rests on {{.N}} readings, from {{.From}} to {{.To}}.", data)
}
