package ferment

import "twinloaf/journal/say"

// A Lead is how a culture is, in words: what its page opens with.
type Lead struct {
	State  say.Line // in two or three words
	Why    say.Line // what that rests on
	Next   say.Line // what is usual next, or what to do
	Danger bool     // it is to be thrown away: nothing else counts
}

// JarNow is what a lead depends on beside the guide and readiness.
type JarNow struct {
	Place Place
	// Past says that the feeding it is in is past its ripe window, by the forecast or by
	// what was seen.
	Past bool
}

// Lead says how a culture is. Nothing is said that the readings do not show.
func (g Guide) Lead(r Readiness, th Thresholds, now JarNow) Lead {
	switch {
	case g.Stage == StageDanger:
		return Lead{State: say.Of("Throw it away"), Why: ThrowAway(), Danger: true}
	case g.Stage == StageFoul:
		return g.foulLead()
	case now.Place == Refrigerator:
		return Lead{State: say.Of("Resting in the refrigerator"), Why: say.Of("There it needs feeding about once a week, and one or two feedings at room temperature before a bake (common practice)."), Next: g.lullWasUsual()}
	case g.Stage == StageHot:
		return Lead{State: say.Of("Too warm"), Why: say.Of("It stands at about {{.Temp}}; the yeasts of many cultures stop at {{.Stop}} (published, approximate).", say.With{"Temp": say.Celsius(g.Warmth.C, 0), "Stop": say.Celsius(35, 0)}),
			Next: say.Of("Move it to a cooler place, {{.From}} to {{.To}}, and feed it.", usualWarmth())}
	case g.Stage == StageUnread:
		return g.unreadLead()
	case r.Ready && (now.Past || g.Hungry):
		return Lead{State: say.Of("Strong, but hungry"), Why: say.N("It has risen to {{.Rise}}× in time after the last feeding that was read long enough, but what is in the jar is past its best.",
			"It has risen to {{.Rise}}× in time on {{.N}} feedings in a row, of those read long enough, but what is in the jar is past its best.", th.InARow, row(r, th)), Next: say.Of("Feed it, and bake with it when it has risen again.")}
	case r.Ready:
		return Lead{State: say.Of("Ready to bake with"), Why: rose(r, th), Next: g.lullWasUsual()}
	case g.Day == 0 || g.Day > firstWeeksDay:
		return g.grownLead(r)
	}
	return g.youngLead(r, th)
}

func (g Guide) foulLead() Lead {
	if g.Foul >= 3 {
		return Lead{State: say.Of("Begin again"), Why: say.Of("It smelled foul on {{.N}} days past its first five. Acid ought to have put an end to that by now.", say.With{"N": g.Foul}),
			Next: say.Of("Throw it away and begin anew with fresh flour and a clean jar. Do not taste it (common practice).")}
	}
	return Lead{State: say.Of("It smells foul"), Why: say.Of("Up to about day {{.Day}} a foul smell is usual; now it is not.", say.With{"Day": foulDay}),
		Next: say.Of("Feed it twice more. If the smell does not go, throw it away and begin again. Do not taste it.")}
}

func (g Guide) unreadLead() Lead {
	if len(g.Days) == 0 {
		return Lead{State: say.Of("Not read yet"), Why: say.Of("Mark the level after each feeding and read the height a few hours later."), Next: say.Of("Many cultures stir on day 2 or 3, some only after a week.")}
	}
	return Lead{State: say.Of("Not read lately"), Why: say.Of("Its height was last read {{.N}} days ago, and nothing can be said of how it is now.", say.With{"N": g.Unread}),
		Next: say.Of("Look for mould, pink or orange first. Then read the height a few hours after a feeding.")}
}

func (g Guide) youngLead(r Readiness, th Thresholds) Lead {
	if g.best() >= wakingRise && (g.Stage == StageQuiet || g.Stage == StageStill) {
		return Lead{State: say.Of("Rising unevenly"), Why: say.Of("It has risen to {{.Best}}× before, but only to {{.Last}}× on day {{.LastDay}}. Go on feeding.", g.figures()), Next: g.remedies()}
	}
	switch g.Stage {
	case StageBurst:
		return Lead{State: say.Of("The early burst"), Why: say.Of("It rose to {{.Burst}}× on day {{.Day}}. So early, the gas usually comes from bacteria that the acid will stop; it is not ready to bake with.", g.figures()), Next: say.Of("A lull of a few days usually follows.")}
	case StageLull:
		return Lead{State: say.Of("The usual lull"), Why: say.Of("After the burst of day {{.Day}} it has hardly risen since day {{.First}}. This pause is usual; go on feeding.", g.figures()),
			Next: say.Of("Usual next: small bubbles, a sour or fruity smell, then a slow rise from feeding to feeding.")}
	case StageLong:
		return Lead{State: say.Of("A long lull"), Why: say.Of("It has hardly risen since day {{.First}}. Most cultures rise again within a week of the lull, two weeks after the start (common practice).", g.figures()), Next: g.remedies()}
	case StageStill:
		return Lead{State: say.Of("It has not started"), Why: say.Of("It is day {{.Age}}, and it rose no further than to {{.Best}}×. Most cultures have stirred by now (common practice).", g.figures()), Next: g.remedies()}
	case StageWaking, StageSteady:
		return g.risingLead(r, th)
	case StageSlow:
		return g.grownLead(r)
	}
	return Lead{State: say.Of("A quiet beginning"), Why: say.Of("Little rise so far, to {{.Last}}× on day {{.LastDay}}. Go on feeding.", g.figures()), Next: g.warmer()}
}

func (g Guide) risingLead(r Readiness, th Thresholds) Lead {
	with := row(r, th)
	l := Lead{State: say.Of("Nearly there"), Next: g.lullWasUsual()}
	switch have := with["Have"].(int); {
	case have >= th.InARow:
		l.Why = say.Join(rose(r, th), say.Of("Still open: {{.What}}.", say.With{"What": r.Open()}))
	case have == 1:
		l.Why = say.Of("It rose to {{.Rise}}× in time after a feeding; it takes {{.Want}} in a row.", with)
	case have > 1:
		l.Why = say.Of("It rose to {{.Rise}}× in time after {{.Have}} feedings in a row, of those read long enough; it takes {{.Want}}.", with)
	default:
		l.State = say.Of("Waking")
		l.Why = say.Of("It rose to {{.Last}}× on day {{.LastDay}}. Usual next: doubling in time, at about the same hour after each feeding.", g.figures())
	}
	return l
}

func (g Guide) grownLead(r Readiness) Lead {
	if slow := g.Stage == StageSlow || g.Stage == StageStill || g.Stage == StageLong || g.Stage == StageLull; slow && len(g.Days) > 0 {
		return Lead{State: say.Of("Slow"), Why: say.Of("It rose only to {{.Last}}× on the last day it was read; at this age that is no longer part of the beginning.", g.figures()), Next: g.remedies()}
	}
	return Lead{State: say.Of("Not quite ready"), Why: say.Of("Still open: {{.What}}.", say.With{"What": r.Open()})}
}

// rose says that as many feedings as are wanted rose in time.
func rose(r Readiness, th Thresholds) say.Line {
	return say.N("It has risen to {{.Rise}}× in time after the last feeding that was read long enough.",
		"It has risen to {{.Rise}}× in time on {{.N}} feedings in a row, of those read long enough.", th.InARow, row(r, th))
}

// row gives the figures of readiness: how many feedings in a row rose in time.
func row(r Readiness, th Thresholds) say.With {
	have := 0
	for _, c := range r.Conditions {
		if c.Code == ConditionRises {
			have = int(c.Have)
		}
	}
	return say.With{"Rise": ratio(th.Rise), "Want": th.InARow, "Have": have}
}

func (g Guide) figures() say.With {
	w := say.With{"Age": g.Day, "Day": g.Lull.BurstDay, "Burst": ratio(g.Lull.BurstRise), "First": g.Lull.First, "Best": ratio(g.best())}
	if n := len(g.Days); n > 0 {
		w["Last"], w["LastDay"] = ratio(g.Days[n-1].Rise), g.Days[n-1].Day
	}
	return w
}

// best is the greatest rise so far.
func (g Guide) best() Rise {
	best := Rise(1)
	for _, d := range g.Days {
		best = max(best, d.Rise)
	}
	return best
}

// ratio is a rise as [say.Locale.Times] writes it, before its sign.
func ratio(r Rise) say.Number { return say.Number{Value: float64(r), Decimals: 2} }

func usualWarmth() say.With { return say.With{"From": say.Celsius(24, 0), "To": say.Celsius(28, 0)} }

// warmer speaks of warmth to a culture that does little, and of a cool place by its
// temperature.
func (g Guide) warmer() say.Line {
	if g.Warmth.Known && g.Warmth.C < tooCool {
		w := usualWarmth()
		w["Temp"] = say.Celsius(g.Warmth.C, 0)
		return say.Of("It stands at about {{.Temp}}, where little stirs in a week: find a place of {{.From}} to {{.To}} (common practice).", w)
	}
	return say.Of("Many cultures stir on day 2 or 3, some only after a week; warmth of {{.From}} to {{.To}} helps (common practice).", usualWarmth())
}

// remedies are what bakers do for one that will not rise.
func (g Guide) remedies() say.Line {
	usual := say.Of("Usual remedies: keeping less to more flour, some wholegrain rye, unchlorinated water (common practice).")
	if g.Warmth.Known && g.Warmth.C < tooCool {
		return say.Join(g.warmer(), usual)
	}
	return say.Join(say.Of("Is it warm enough? {{.From}} to {{.To}} is usual.", usualWarmth()), usual)
}

// lullWasUsual says of a lull that was no longer than most that it is nothing out of the way.
func (g Guide) lullWasUsual() say.Line {
	l := g.Lull
	if !l.Over || l.long() || g.Day == 0 || g.Day > firstWeeksDay {
		return say.Line{}
	}
	with := say.With{"First": l.First, "Last": l.Last}
	if l.First == l.Last {
		return say.Of("The lull on day {{.First}} is usual after an early burst.", with)
	}
	return say.Of("The lull on days {{.First}} to {{.Last}} is usual after an early burst.", with)
}
