package tastings

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/blind/fair"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// fairHeading says of two loaves that are baked whether they are a fair pair: how far apart
// their temperatures are where nothing else differs, or how much was accepted.
func fairHeading(unfair []journal.Unfair, alike []fair.Difference, u measure.Units) string {
	open, accepted, warmth := 0, true, true
	var widest fair.Difference
	apart := func(d fair.Difference) float64 { return math.Abs(d.Figure.First.Number - d.Figure.Second.Number) }
	see := func(d fair.Difference) bool {
		_, _, _, number := d.Figures()
		if number = number && d.Figure.Unit == "°C"; number && (widest.Figure.Unit == "" || apart(d) > apart(widest)) {
			widest = d
		}
		return number
	}
	for _, d := range alike {
		see(d)
	}
	for _, d := range unfair {
		if !d.Settled() {
			open++
		}
		accepted, warmth = accepted && d.Accepted, see(d.Difference) && warmth
	}
	n := len(unfair)
	switch _, _, by, told := widest.Figures(); {
	case open > 0:
		return lang.N("Is it a fair pair? {{.N}} differences wait for your word", open, map[string]any{"N": open})
	case !accepted:
		return lang.N("Not quite alike: {{.N}} differences are noted", n, map[string]any{"N": n})
	case told && warmth:
		return lang.L("A fair pair: temperatures within {{.Apart}}", map[string]any{"Apart": u.Say(by)})
	case n > 0:
		return lang.N("A fair pair, {{.N}} differences accepted", n, map[string]any{"N": n})
	}
	return lang.L("A fair pair, as far as is recorded")
}

// alikeFew is how many things that are alike are named before the rest is asked for.
const alikeFew = 3

// alikeRow names in one line what is the same of both loaves, warmth and weights first; a link
// unfolds the rest.
func alikeRow(alike []fair.Difference, u measure.Units) fyne.CanvasObject {
	if len(alike) == 0 {
		return nil
	}
	order := []string{"°C", "g", "min"}
	place := func(d fair.Difference) int {
		if i := slices.Index(order, d.Figure.Unit); i >= 0 {
			return i
		}
		return len(order)
	}
	alike = slices.Clone(alike)
	slices.SortStableFunc(alike, func(a, b fair.Difference) int { return cmp.Compare(place(a), place(b)) })
	words := make([]string, len(alike))
	for i, d := range alike {
		said := d.Figure.Name
		if i == 0 {
			said = say.Begin(said)
		}
		name := u.Say(said)
		words[i] = name + " " + d.Figure.First.Text
		if first, second, _, ok := d.Figures(); ok {
			words[i] = name + " " + u.Say(first)
			if u.Say(first) != u.Say(second) {
				words[i] = lang.L("{{.Figure}} {{.A}} and {{.B}}", map[string]any{"Figure": name, "A": u.Say(first), "B": u.Say(second)})
			}
		}
	}
	few := min(alikeFew, len(words))
	text := kit.Faint(strings.Join(words[:few], " · "))
	column := kit.Stack(1, kit.Section(lang.L("Alike")), text)
	if rest := len(words) - few; rest > 0 {
		var more *kit.Link
		more = kit.NewLink(lang.L("{{.N}} more", map[string]any{"N": rest}), func() {
			text.SetText(strings.Join(words, " · "))
			more.Hide()
			column.Refresh()
		})
		column.Add(kit.Row(0, more))
	}
	return column
}

// behind says by how much one of two days ran behind the other, where every step that both have
// tells it of the same one; else nothing.
func behind(names [2]string, a, b *journal.Bake, u measure.Units) string {
	var by []time.Duration
	for _, pair := range journal.MatchSteps(a.Steps, b.Steps) {
		if one, other := pair[0], pair[1]; one != nil && other != nil && !one.At.IsZero() && !other.At.IsZero() {
			by = append(by, other.At.Sub(one.At).Round(time.Minute))
		}
	}
	if len(by) < 2 {
		return ""
	}
	least, most, late := slices.Min(by), slices.Max(by), names[1]
	if most < 0 {
		least, most, late = -most, -least, names[0]
	}
	with := map[string]any{"Name": late, "From": u.Span(least), "To": u.Span(most)}
	switch {
	case least <= 0:
		return ""
	case least == most:
		return lang.L("{{.Name}} ran {{.From}} behind at every step", with)
	}
	return lang.L("{{.Name}} ran {{.From}} to {{.To}} behind", with)
}

// fairness lists what differs, and in a line what is alike.
func (p *trialPage) fairness() fyne.CanvasObject {
	var names []string
	for _, b := range p.bakes {
		names = append(names, p.armOf(b.ID).Value)
	}
	list := fairness(p.env, journal.RefOf(p.trial), names, func() ([]journal.Unfair, error) { return p.unfair, nil })
	if row := alikeRow(p.alike, p.env.Units()); row != nil {
		return kit.Stack(5, list, row)
	}
	return list
}
