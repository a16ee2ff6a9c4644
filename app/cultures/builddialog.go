package cultures

import (
	"errors"
	"io"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// buildDialog plans a given weight of culture ripe at a given hour.
type buildDialog struct {
	env    *pages.Env
	life   *histories.CultureHistory
	ask    ferment.BuildAsk
	hours  []time.Duration // of the day at which feeding is possible; none: any
	sheet  *kit.Dialog
	answer *fyne.Container
	plan   *ferment.Build
	stop   func()

	amount, temp *kit.QuantityField
	ripe         *kit.WhenField
}

// PlanBuild opens the dialog over whatever page is shown, with a weight and an hour filled in;
// an hour that has gone by is left for the usual.
func PlanBuild(env *pages.Env, id journal.ID, amount formula.Grams, ripe time.Time) {
	l := feedable(env, id)
	if l == nil {
		return
	}
	if !ripe.After(env.Now()) {
		ripe = usuallyRipe(env.Now())
	}
	planBuildOf(env, l, ferment.Grams(amount), ripe)
}

// usuallyRipe is tomorrow at nine.
func usuallyRipe(now time.Time) time.Time {
	return time.Date(now.Year(), now.Month(), now.Day()+1, 9, 0, 0, 0, now.Location())
}

// planBuild opens the dialog with what is usual filled in.
func planBuild(env *pages.Env, l *histories.CultureHistory) *buildDialog {
	return planBuildOf(env, l, 180, usuallyRipe(env.Now()))
}

func planBuildOf(env *pages.Env, l *histories.CultureHistory, amount ferment.Grams, ripe time.Time) *buildDialog {
	now := env.Now()
	s := &buildDialog{env: env, life: l, answer: kit.Stack(2), stop: func() {}}
	jar, _ := l.Jar(now)
	s.ask = ferment.BuildAsk{
		Amount: amount, KeepBack: 30, Hydration: l.Hydration(), Temp: 22, Culture: jar.Mix, Now: now, RipeAt: ripe,
	}
	if c, ok := l.Current(now); ok && c.Feeding.Room.Known && c.Feeding.Place != ferment.Refrigerator {
		s.ask.Temp = c.Feeding.Room.C
	}
	if set, err := env.Journal.Settings(); err == nil {
		from, to := set.Sleep()
		s.ask.Sleep = []ferment.Sleep{{From: from, To: to}}
		if set.Kitchen != nil {
			s.ask.Temp = *set.Kitchen
		}
	}
	s.show()
	return s
}

func (s *buildDialog) show() {
	u := s.env.Units()
	figure := func(label string, m measure.Measure, v float64, set func(float64)) *kit.QuantityField {
		f := kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m, Keep: func(v *float64) {
			if v != nil {
				set(*v)
				s.work()
			}
		}})
		f.SetValue(v)
		return f
	}
	s.amount = figure(lang.L("Amount needed"), u.Weight(), float64(s.ask.Amount), func(v float64) { s.ask.Amount = ferment.Grams(v) })
	keep := figure(lang.L("keep back"), u.Weight(), float64(s.ask.KeepBack), func(v float64) { s.ask.KeepBack = ferment.Grams(v) })
	hydration := figure(lang.L("Hydration"), u.Percent(0), 100*s.ask.Hydration, func(v float64) { s.ask.Hydration = v / 100 })
	s.temp = figure(lang.L("Kept at"), u.Temperature(), float64(s.ask.Temp), func(v float64) { s.ask.Temp = ferment.Celsius(v) })
	inJar := figure(lang.L("In the jar now"), u.Weight(), float64(s.ask.Culture.Total()), func(v float64) {
		s.ask.Culture = ferment.MixOf(ferment.Grams(v), jarHydration(s.life, s.ask.Now))
	})
	s.ripe = kit.NewWhenField(kit.WhenOptions{Label: lang.L("Ripe by"), Units: u, Now: s.env.Now, OnChanged: func(t time.Time) {
		s.ask.RipeAt = t
		s.work()
	}})
	s.ripe.SetTime(s.ask.RipeAt)
	hours := kit.NewTextField(lang.L("I can feed at"), lang.L("any hour that I am awake"))
	hours.OnChanged = func(text string) {
		times, err := parseHours(text, u)
		if err != nil {
			hours.SetProblem(lang.L("Hours of the day, such as 8:00, 21:00."))
			return
		}
		hours.SetProblem("")
		s.hours = times
		s.work()
	}
	s.sheet = kit.ShowDialog(s.env.Window, kit.DialogOptions{
		Title: lang.L("Plan a levain build"), Passing: true, OnEnter: s.work, Width: 760, Height: 560, Scroll: true,
		Content: kit.Stack(5,
			kit.Columns(look.Space(24), s.amount, keep, inJar, hydration), kit.WeightedColumns(look.Space(24), []float32{1.3, 1, 1.7}, s.ripe, s.temp, hours), kit.Rule(), s.answer),
		Aside: kit.Small(lang.L("No feeding falls in your sleeping hours (see Settings).")),
		Buttons: []fyne.CanvasObject{
			kit.NewButton(lang.L("Close"), func() { s.sheet.Close() }).WithKey(lang.L("Esc")),
			kit.PrimaryButton(lang.L("Save as a calendar"), s.export),
		},
		OnClosed: func() { s.stop() },
	})
	s.work()
}

// jarHydration is the hydration of what is in the jar.
func jarHydration(l *histories.CultureHistory, now time.Time) float64 {
	if jar, ok := l.Jar(now); ok && jar.Mix.Flour > 0 {
		return jar.Mix.Hydration()
	}
	return l.Hydration()
}

// parseHours reads hours of the day, parted by commas.
func parseHours(text string, u measure.Units) ([]time.Duration, error) {
	var out []time.Duration
	midnight := time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC)
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ';' }) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		if v, err := u.ParseNumber(part); err == nil && v >= 0 && v < 24 && v == float64(int(v)) {
			out = append(out, time.Duration(v)*time.Hour)
			continue
		}
		t, err := u.ParseWhen(part, midnight)
		if err != nil {
			return nil, err
		}
		out = append(out, time.Duration(t.Hour())*time.Hour+time.Duration(t.Minute())*time.Minute)
	}
	return out, nil
}

// feedTimes are the moments from now until another at which the clock shows one of the hours.
// The clock is asked for each day: a day may have 23 hours.
func feedTimes(hours []time.Duration, now, until time.Time) []time.Time {
	var out []time.Time
	if len(hours) == 0 {
		return nil
	}
	for day := 0; day <= 16; day++ {
		for _, h := range hours {
			at := time.Date(now.Year(), now.Month(), now.Day()+day, int(h.Hours()), int(h.Minutes())%60, 0, 0, now.Location())
			if !at.Before(now) && at.Before(until) {
				out = append(out, at)
			}
		}
	}
	sortByTime(out, func(t time.Time) time.Time { return t })
	if len(out) == 0 {
		out = []time.Time{now.AddDate(0, 0, -1)} // none is possible, which is not the same as any
	}
	return out
}

// work plans away from the main goroutine.
func (s *buildDialog) work() {
	if s.sheet != nil && !s.sheet.Open() {
		return
	}
	s.stop()
	s.plan = nil
	ask := s.ask
	// Later hours count as well: another hour may be offered than the one that is asked for.
	ask.FeedAt = feedTimes(s.hours, ask.Now, ask.RipeAt.Add(ferment.Farthest))
	var plan ferment.Build
	var err error
	s.stop = s.env.Think(func() {
		plan, err = ferment.PlanBuild(s.life.Planner(ask.Now), ask)
	}, func() {
		if err == nil {
			s.plan = &plan
		}
		s.say(plan, err)
	})
}

// say shows a plan, or why there is none and what nearly the same can be had.
func (s *buildDialog) say(plan ferment.Build, err error) {
	if s.sheet == nil || !s.sheet.Open() {
		return
	}
	u, now := s.env.Units(), s.ask.Now
	s.answer.Objects = nil
	var no *ferment.InfeasibleError
	switch {
	case err == nil:
		steps := kit.Hanging()
		for _, line := range planWords(plan, now, u) {
			steps.Add(kit.NewLine(kit.Span{Text: line.when, Bold: true}))
			steps.Add(kit.Body(line.words))
		}
		s.answer.Add(steps)
		s.answer.Add(kit.Small(u.Say(plan.Rests())))
	case errors.As(err, &no):
		s.answer.Add(kit.NewText(kit.Span{Text: u.ErrorText(err), Color: look.ColorEmber}))
		for _, n := range no.Nearest {
			s.answer.Add(kit.NewLink(nearestWords(n, now, u), func() { s.takeNearest(n) }))
		}
	default:
		s.answer.Add(kit.NewText(kit.Span{Text: u.ErrorText(err), Color: look.ColorEmber}))
	}
	s.sheet.Refresh()
}

// takeNearest asks for what can be had instead.
func (s *buildDialog) takeNearest(n ferment.Nearest) {
	s.ask.RipeAt, s.ask.Temp, s.ask.Amount = n.RipeAt, n.Temp, n.Amount
	s.ripe.SetTime(n.RipeAt)
	s.temp.SetValue(float64(n.Temp))
	s.amount.SetValue(float64(n.Amount))
	s.work()
}

// export saves the plan as a calendar file.
func (s *buildDialog) export() {
	if s.plan == nil {
		return
	}
	c := s.life.Culture
	text := s.plan.Calendar(ferment.CalendarOptions{
		Culture: nameOf(c), UID: "build-" + string(c.ID) + s.ask.RipeAt.UTC().Format("-20060102T1504"), Stamp: s.env.Now(), Alarm: 10 * time.Minute,
		Say: s.env.Units().Say,
	})
	s.env.SaveFile(lang.L("Save as a calendar"), lang.L("build")+"-"+s.ask.RipeAt.Format("2006-01-02")+".ics", func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	})
}

// A planLine is one line of a plan: when, and what to do.
type planLine struct{ when, words string }

// planWords say a plan line by line.
func planWords(b ferment.Build, now time.Time, u measure.Units) []planLine {
	words := u.SayAll(b.Words())
	var out []planLine
	for i, s := range b.Steps {
		out = append(out, planLine{u.When(s.At, now), words[i]})
	}
	return append(out, planLine{u.When(b.RipeAt, now), words[len(words)-1]})
}

// nearestWords offer what can be had instead.
func nearestWords(n ferment.Nearest, now time.Time, u measure.Units) string {
	return lang.L("{{.Amount}} can be ripe {{.When}} at {{.Temp}}", map[string]any{
		"Amount": grams(u, n.Amount), "When": clockAt(n.RipeAt, now, u), "Temp": u.Celsius(n.Temp)})
}
