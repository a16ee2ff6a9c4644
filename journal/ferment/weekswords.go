package ferment

import (
	"fmt"
	"slices"
	"time"
)

// standing are the cautions that go with every young culture.
var standing = []string{
	"Raw flour and unbaked culture are not ready to eat (FDA, CDC: E. coli, Salmonella); wash hands and tools.",
	"Never seal the jar tight: gas builds up (common practice, no source).",
	"If it proves in an oven with its light on, mark the oven before someone heats it (common practice).",
	"Local food law and professional advice come first.",
}

// noteworthy are the cautions that the last days' readings call for.
func noteworthy(courses []Course, now time.Time, day int) []string {
	var liquid, solvent, foul bool
	for _, c := range courses {
		for _, r := range c.Readings {
			if r.At.After(now) || now.Sub(r.At) > 48*time.Hour {
				continue
			}
			liquid = liquid || slices.Contains(r.Signs, SignGreyLiquid)
			solvent = solvent || r.Smell == SmellSolvent
			foul = foul || r.Smell == SmellFoul
		}
	}
	var out []string
	if liquid {
		out = append(out, "Grey liquid on top is only hunger: stir it in or pour it off, and feed sooner.")
	}
	if solvent {
		out = append(out, "A smell of solvent is hunger or too much warmth: feed sooner, keep more flour to it, or find a cooler place.")
	}
	if foul && day <= 5 {
		out = append(out, "A foul smell is usual in the first days and goes as the acid rises (common practice, no source).")
	}
	if foul && day > 5 {
		out = append(out, "A foul smell at this age is not usual. If it does not go within two or three feedings, begin again.")
	}
	return out
}

// words say what the stage looks like and what is usual next.
func (g *Guide) words() []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	last := DayRise{}
	if n := len(g.Days); n > 0 {
		last = g.Days[n-1]
	}
	switch g.Stage {
	case StageUnread:
		say("Day %d. No height has been read yet, so nothing can be said of how it goes.", g.Day)
		say("Mark the level after each feeding and read the height a few hours later.")
	case StageQuiet:
		say("Day %d. Little rise so far (to %.2f times on day %d).", g.Day, float64(last.Rise), last.Day)
		say("Many cultures stir on day 2 or 3, some only after a week; warmth of 24 to 28 °C helps (common practice, no source). Go on feeding.")
	case StageBurst:
		say("Day %d. It rose to %.2f times on day %d: this looks like the early burst.", g.Day, float64(g.Lull.BurstRise), g.Lull.BurstDay)
		say("The first gas comes mostly from bacteria that the acid will stop; it is not ready to bake with. A pause of some days usually follows.")
	case StageLull:
		say("Day %d. After the burst of day %d it has hardly risen since day %d: this looks like the lull. This pause is usual; go on feeding.", g.Day, g.Lull.BurstDay, g.Lull.First)
		say("Usual next: small bubbles, a sour or fruity smell, then a slow rise from feeding to feeding.")
	case StageWaking:
		if g.Lull.Found {
			say("Day %d. It is rising again (to %.2f times) after the lull of %s.", g.Day, float64(last.Rise), g.Lull.days())
		} else {
			say("Day %d. It rises (to %.2f times on day %d), and no lull was seen in the readings.", g.Day, float64(last.Rise), last.Day)
		}
		say("Usual next: doubling, and at about the same hour after each feeding. Bake when it does so on three feedings in a row.")
	case StageSteady:
		say("Day %d. It has at least doubled on the last %d days that were read.", g.Day, steadyInARow)
		say("It behaves like a settled culture; see whether it is ready by the conditions you have set.")
	case StageSlow:
		say("Day %d. At this age it rose only to %.2f times on day %d; this is no longer part of the beginning.", g.Day, float64(last.Rise), last.Day)
		say("Usual remedies: a warmer place, keeping less to more flour, some wholemeal rye (common practice, no source).")
	}
	if last.Day > 0 && g.Day-last.Day >= 2 {
		say("The last height was read on day %d; what it did since is not known.", last.Day)
	}
	return out
}

// days names the days of the lull.
func (l Lull) days() string {
	if l.First == l.Last {
		return fmt.Sprintf("day %d", l.First)
	}
	return fmt.Sprintf("days %d to %d", l.First, l.Last)
}
