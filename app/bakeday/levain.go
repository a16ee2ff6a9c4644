package bakeday

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/plan"
)

// levainSection says on the plan of a bake when its levain is ripe after it was built, by the
// culture's own feedings, and offers to have the plan go by that: the levain's step then
// has those hours for its length and its bounds.
type levainSection struct {
	face *planStage
	text *kit.Text
	use  *kit.Link
	grow *kit.Link // builds the culture up, where its jar holds too little

	life  *histories.CultureHistory // of the bake's culture; nil until it is read
	of    journal.ID
	busy  bool // it is being read
	stale bool // something was written down of a culture since
	ripe  histories.Ripening
	ok    bool
	want  formula.Grams // of the culture
	by    time.Time     // when the first of it is taken
}

func newLevainSection(f *planStage) *levainSection {
	p := &levainSection{face: f, text: kit.Small("")}
	p.use = kit.NewLink("", p.take)
	p.grow = kit.NewLink("", func() { f.env.PlanBuild(p.of, p.want, p.by) })
	p.grow.Hide()
	return p
}

// levainOf is the first levain of a bake that is built from a culture.
func levainOf(b *journal.Bake) (journal.LevainBuild, bool) {
	i := slices.IndexFunc(b.Levains, func(l journal.LevainBuild) bool {
		return slices.ContainsFunc(l.Lines, func(in journal.Ingredient) bool { return in.Role == formula.Culture && in.Grams > 0 })
	})
	if i < 0 {
		return journal.LevainBuild{}, false
	}
	return b.Levains[i], true
}

// read reads the culture's life, away from the main goroutine, where it is another than
// was read last, or that has gone on.
func (p *levainSection) read(b *journal.Bake) {
	if b.Culture == p.of && !p.stale {
		return
	}
	if b.Culture != p.of {
		p.life = nil
	}
	p.of, p.stale = b.Culture, false
	env, id := p.face.env, b.Culture
	if p.busy = id != ""; !p.busy {
		return
	}
	pages.Fetch(env, func(ctx context.Context) (*histories.CultureHistory, error) {
		life, err := histories.Of(env.Journal.Until(ctx), id)
		if err == nil {
			life.Forecaster(env.Now()) // it takes its time
		}
		return life, err
	}, func(life *histories.CultureHistory, err error) {
		if !errors.Is(err, journal.ErrNotFound) {
			env.Fail(err)
		}
		if p.of == id {
			p.life, p.busy = life, false
			p.face.reread()
		}
	})
}

// usualKitchen is how warm a kitchen is of which nothing is known, in °C (our own guess).
const usualKitchen formula.Celsius = 22

// warmth is how warm the levain will stand: as measured for this bake, or else as the
// kitchen usually is.
func (p *levainSection) warmth(b *journal.Bake) formula.Celsius {
	if b.Water.Room != nil {
		return *b.Water.Room
	}
	if s, err := p.face.env.Journal.Settings(); err == nil && s.Kitchen != nil {
		return *s.Kitchen
	}
	return usualKitchen
}

// show says when the levain is ripe; nothing where none is built from a known culture.
func (p *levainSection) show(b *journal.Bake) {
	p.read(b)
	p.showBarred()
	build, has := levainOf(b)
	p.ok = false
	words, link := "", ""
	if has && p.life != nil {
		r, err := p.life.Ripening(build, p.warmth(b), p.face.env.Now())
		switch {
		case err == nil:
			p.ripe, p.ok = r, true
			words = p.words(r)
			step, in := levainStep(b.Steps)
			switch {
			case !in:
				link = lang.L("Put the build into the day")
			case !goesBy(step, r):
				link = lang.L("Let the plan go by that")
			}
		case errors.Is(err, ferment.ErrAsleep):
			words = lang.L("At {{.Temp}} the levain is as good as asleep: give it a warmer place.", map[string]any{"Temp": p.face.units.Celsius(p.warmth(b))})
		}
	}
	if has && b.Culture == "" {
		words = lang.L("No culture is chosen: how long the levain takes is a guess.")
	}
	short, grow := p.short(b)
	words = strings.TrimSpace(strings.TrimSpace(short+" "+p.early(b)) + " " + words)
	p.grow.Say(grow)
	p.text.Say(words)
	p.use.Say(link)
}

// showBarred says when nothing is to be made of the culture.
func (p *levainSection) showBarred() {
	var why error
	if p.life != nil {
		why = p.life.Barred(p.face.env.Now())
	}
	showBarred(p.face.caution, why, p.face.units)
}

// short says that the culture's jar holds less, by the record, than the bake takes from it.
func (p *levainSection) short(b *journal.Bake) (words, link string) {
	if p.life == nil {
		return "", ""
	}
	want := formula.Grams(0)
	p.by = time.Time{}
	for _, kind := range []plan.Kind{plan.Levain, plan.Mix} {
		draws, err := histories.Wants(p.face.env.Journal, b, kind)
		if p.face.env.Failed(err) {
			return "", ""
		}
		for _, d := range draws {
			if d.Culture.ID == p.of {
				want += d.Out
				if at := plannedAt(b, kind); d.Out > 0 && p.by.IsZero() {
					p.by = at
				}
			}
		}
	}
	p.want = want
	jar, known := p.life.Jar(p.face.env.Now())
	have := jar.Mix.Total()
	if !known || want <= have {
		return "", ""
	}
	g := func(w formula.Grams) string { return p.face.units.Weight().Write(math.Round(float64(w))) }
	data := map[string]any{"Culture": p.life.Culture.Name, "Have": g(have), "Want": g(want)}
	return lang.L("The jar of {{.Culture}} holds {{.Have}} by the record, and {{.Want}} are needed: build it up first.", data), lang.L("Plan the build of {{.Culture}}", data)
}

// early says that the culture, as it was last fed, is not ripe yet when the plan takes of it.
func (p *levainSection) early(b *journal.Bake) string {
	if p.life == nil || p.by.IsZero() || b.State != journal.Planned {
		return ""
	}
	now, u := p.face.env.Now(), p.face.units
	f, err := p.life.Forecast(now)
	if err != nil || !p.by.Before(f.RipeFrom.Mid.Truncate(time.Minute)) {
		return ""
	}
	return lang.L("As it was last fed, {{.Culture}} should be ripe from {{.From}} to {{.To}}, approximate, and the plan takes of it before that: begin later.",
		map[string]any{"Culture": p.life.Culture.Name, "From": u.When(f.RipeFrom.Mid, now), "To": u.When(f.RipeTo.Mid, now)})
}

func (p *levainSection) words(r histories.Ripening) string {
	u := p.face.units
	span := func(h float64) string { return u.Duration().Format(float64(toMinutes(h))) }
	data := map[string]any{"From": span(r.RipeFrom), "To": span(r.RipeTo), "Peak": span(r.Peak),
		"Temp": u.Celsius(r.Temp), "Culture": p.life.Culture.Name, "N": r.Feedings}
	if r.Feedings == 0 {
		return lang.L("At {{.Temp}} the levain is ripe {{.From}} to {{.To}} after it is built, best at {{.Peak}}: a guess, for no feeding of {{.Culture}} has been read.", data)
	}
	return lang.L("At {{.Temp}} the levain is ripe {{.From}} to {{.To}} after it is built, best at {{.Peak}}, by the feedings of {{.Culture}} ({{.N}}).", data)
}

// plannedAt is when the first step of a kind is planned.
func plannedAt(b *journal.Bake, kind plan.Kind) time.Time {
	for _, s := range b.Steps {
		if plan.Kind(s.Kind) == kind {
			return s.PlannedAt
		}
	}
	return time.Time{}
}

// toMinutes gives hours to five minutes.
func toMinutes(h float64) plan.Minutes { return plan.Minutes(5 * math.Round(h*12)) }

// levainStep finds the step of the levain's build.
func levainStep(steps []journal.Step) (journal.Step, bool) {
	i := slices.IndexFunc(steps, func(s journal.Step) bool { return plan.Kind(s.Kind) == plan.Levain })
	if i < 0 {
		return journal.Step{}, false
	}
	return steps[i], true
}

// take has the plan go by the hours at which the levain is ripe.
func (p *levainSection) take() {
	if !p.ok {
		return
	}
	f := p.face
	length, least, most := toMinutes(p.ripe.Peak).Duration(), toMinutes(p.ripe.RipeFrom).Duration(), toMinutes(p.ripe.RipeTo).Duration()
	added, err := f.env.Journal.TemplateSteps([]plan.Step{plan.LevainBuild()})
	if f.env.Failed(err) {
		return
	}
	bakeHolder{f}.DoSteps(lang.L("the levain's hours"), func(steps *[]journal.Step) {
		i := slices.IndexFunc(*steps, func(s journal.Step) bool { return plan.Kind(s.Kind) == plan.Levain })
		if i < 0 {
			*steps, i = slices.Concat(added, *steps), 0
		}
		s := &(*steps)[i]
		s.Planned, s.Min, s.Max = length, least, most
	})
}

// goesBy says that a step has those hours already.
func goesBy(s journal.Step, r histories.Ripening) bool {
	return asWished(s) == toMinutes(r.Peak).Duration() && s.Min == toMinutes(r.RipeFrom).Duration() && s.Max == toMinutes(r.RipeTo).Duration()
}

// asWished is the length that a step was wished for.
func asWished(s journal.Step) time.Duration {
	if s.Wished > 0 {
		return s.Wished
	}
	return s.Planned
}
