package tastings

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/histories"
)

// planSection shows the plan of a tasting that is not sealed yet, edited in place,
// with what it can and cannot find.
type planSection struct {
	p    *tastingPage
	t    *journal.Tasting
	plan blind.Plan

	form     *fyne.Container
	tasters  *fyne.Container
	found    *fyne.Container
	needed   *kit.Text
	who      *kit.TextField
	shape    string   // of the form: it is built anew when this changes
	sync     []func() // what shows the plan in the fields of the form
	cancel   func()   // of the foresight being worked out
	foreseen blind.Plan
	started  bool
}

func newPlanPart(p *tastingPage) *planSection {
	return &planSection{p: p, form: kit.Stack(6), tasters: kit.Flow(2), found: kit.Stack(3), needed: kit.Body(""), cancel: func() {}}
}

func (v *planSection) left() { v.cancel() }

func (v *planSection) show(t *journal.Tasting, s blind.Setting) {
	page := v.p.page
	plate := kit.PrimaryButton(lang.L("Plate it"), v.plate).WithKey("P")
	page.SetActions(nil, plate, kit.QuietButton(lang.L("Move to the bin"), v.p.bin))
	v.p.keys = []kit.Key{{Name: "P", Doc: lang.L("Plate it"), Do: v.plate}, {Name: "N", Doc: lang.L("To the names of the tasters"), Do: func() {
		if v.who != nil {
			v.who.Focus()
		}
	}}}
	page.SetBody(kit.Stack(5, v.loaves(s.Plan), kit.Columns(look.Space(70), v.form, v.side())))
	v.changed(t, s)
}

// shapeOf names what the form consists of.
func shapeOf(p blind.Plan) string {
	var names []string
	for _, a := range p.Attributes {
		names = append(names, a.Name)
	}
	named := p.Mode == blind.Alone && len(p.Tasters) > 0 // whoever is alone needs no field for another
	return strings.Join([]string{string(p.Method), string(p.Mode), map[bool]string{true: "named"}[named],
		map[bool]string{true: "more"}[p.Attribute != ""], strings.Join(names, "|")}, "/")
}

func (v *planSection) changed(t *journal.Tasting, s blind.Setting) {
	v.t, v.plan = t, s.Plan
	units := v.p.env.Units()
	v.p.page.SetEyebrow(lang.L("Planned tasting · {{.When}}", map[string]any{"When": dayOf(units, t.At, v.p.env.Now())}))
	v.p.page.SetHeading(pages.Asked(v.plan))
	if shape := shapeOf(v.plan); shape != v.shape {
		v.shape = shape
		v.build()
	}
	for _, show := range v.sync {
		show()
	}
	v.showTasters()
	v.needed.SetText(needs(v.plan))
	v.foresee()
}

// change alters the plan.
func (v *planSection) change(label string, fn func(*blind.Plan)) {
	v.p.env.Fail(v.p.env.Journal.PlanTasting(v.t.ID, label, fn))
}

// build makes the form for the method and the question.
func (v *planSection) build() {
	plan := v.plan
	v.form.Objects, v.sync = nil, nil
	q := questionOf(plan)
	v.form.Add(v.name())
	v.form.Add(kit.Stack(2, kit.Section(lang.L("What do you want to know?")),
		kit.NewSegments("", questions(), int(q), func(i int) {
			v.change(lang.L("question"), func(p *blind.Plan) { ask(p, question(i)) })
		})))
	v.form.Add(v.method(q))
	if q == moreOf {
		v.form.Add(v.attribute())
	}
	if q == attributesOf {
		v.form.Add(v.attributes())
	}
	v.form.Add(kit.Rule())
	v.form.Add(v.people())
	v.form.Refresh()
}

func (v *planSection) name() fyne.CanvasObject {
	name := kit.NewTextField(lang.L("Name"), lang.L("what you will call it"))
	name.OnChanged = func(s string) {
		v.p.env.Fail(journal.Edit(v.p.env.Journal, v.t.ID, lang.L("name of the tasting"), func(t *journal.Tasting) { t.Name = strings.TrimSpace(s) }))
	}
	when := kit.NewWhenField(kit.WhenOptions{
		Label: lang.L("When"), Units: v.p.env.Units(), Now: v.p.env.Now,
		OnChanged: func(at time.Time) {
			v.p.env.Fail(journal.Edit(v.p.env.Journal, v.t.ID, lang.L("time of the tasting"), func(t *journal.Tasting) { t.At = at }))
		},
	})
	v.sync = append(v.sync, func() {
		name.SetText(v.t.Name)
		when.SetTime(v.t.At)
	})
	return kit.Columns(look.Space(40), name, when)
}

// method offers the methods that can answer the question.
func (v *planSection) method(q question) fyne.CanvasObject {
	ms := methodsFor(q)
	what := kit.Faint(methodWords(v.plan))
	if len(ms) == 1 {
		return kit.Stack(1, kit.Section(lang.L(v.plan.Method.Title())), what)
	}
	words := make([]string, len(ms))
	for i, m := range ms {
		words[i] = lang.L(m.Title())
	}
	return kit.Stack(2, kit.Section(lang.L("How")), kit.NewSegments("", words, slices.Index(ms, v.plan.Method), func(i int) {
		v.change(lang.L("method"), func(p *blind.Plan) { by(p, ms[i]) })
	}), what)
}

func methodWords(p blind.Plan) string {
	switch p.Method {
	case blind.Triangle:
		return lang.L("Three samples, two of them the same bread: which one differs? One guess in three is right (ISO 4120).")
	case blind.DuoTrio:
		return lang.L("A marked reference and two samples: which is the same bread? One guess in two is right (ISO 10399, which does not recommend it where a taste lingers).")
	case blind.Tetrad:
		return lang.L("Four samples, two of each bread: which belong together? Finds more with as many rounds, and asks for more bites (Ennis and Jesionka 2011).")
	case blind.TwoOutOfFive:
		return lang.L("Five samples, two of one bread and three of the other: which are the two? One guess in ten is right, so few rounds are enough, of many bites; it does not give the size of the difference, d′ (ISO 6658).")
	case blind.ThreeAFC:
		return lang.L("Three samples, one of them the loaf that should have more: which is it? One guess in three is right (3-alternative forced choice).")
	case blind.Scaling:
		return lang.L("Two samples, each scored from 1 to 9 on every line. For liking it is the hedonic scale of Peryam and Pilgrim (1957), for anything else common practice.")
	}
	if p.Attribute == "" {
		return lang.L("Two samples: which is liked better? (Common practice; ISO 5495 is about how strong an attribute is, not about liking.)")
	}
	return lang.L("Two samples: which has more of it? (ISO 5495)")
}

// attribute asks what a paired comparison compares, and what is expected.
func (v *planSection) attribute() fyne.CanvasObject {
	field := kit.NewSuggestField(lang.L("More of what?"), lang.L("sour, open, chewy…"), func(text string) []string {
		return fitting([]string{lang.L("sour"), lang.L("open"), lang.L("chewy"), lang.L("crisp"), lang.L("wheaty"), lang.L("sweet"), lang.L("moist")}, text)
	})
	take := func(s string) {
		if s = strings.TrimSpace(s); s != "" {
			v.change(lang.L("what is compared"), func(p *blind.Plan) { p.Attribute = s })
		}
	}
	field.OnChanged = take
	field.OnTaken = take
	// A 3-AFC sets the loaf that should have more among two of the other.
	names, none := []string{v.plan.Loaves[0].Name, v.plan.Loaves[1].Name}, 1
	words := lang.L("Only that direction counts: it cannot be turned round afterwards.")
	if v.plan.Method == blind.Paired {
		names, none = append([]string{lang.L("neither")}, names...), 0
		words = lang.L("With an expectation only that direction counts: it finds more, and cannot be turned round afterwards.")
	}
	expected := kit.NewChoiceField(lang.L("Expected beforehand to have more"), "", names, func(i int) {
		v.change(lang.L("what is expected"), func(p *blind.Plan) { p.Expected = i + none })
	})
	v.sync = append(v.sync, func() {
		field.SetText(v.plan.Attribute)
		expected.SetChosen(v.plan.Expected - none)
	})
	return kit.Stack(1, kit.Columns(look.Space(40), field, expected), kit.Small(words))
}

func fitting(words []string, text string) []string {
	text = strings.ToLower(strings.TrimSpace(text))
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !strings.Contains(strings.ToLower(w), text) })
}

// attributes offers the lines of a scaling sheet.
func (v *planSection) attributes() fyne.CanvasObject {
	row := kit.Flow(2)
	offered := usualAttributes()
	has := func(name string) bool {
		return slices.ContainsFunc(v.plan.Attributes, func(a blind.Attribute) bool { return a.Name == name })
	}
	for _, a := range offered {
		row.Add(kit.NewChoicePill(a.Name, has(a.Name), func() { v.toggle(a) }))
	}
	for _, a := range v.plan.Attributes {
		if !slices.ContainsFunc(offered, func(o blind.Attribute) bool { return o.Name == a.Name }) {
			row.Add(kit.NewPill(a.Name, func() { v.toggle(a) }))
		}
	}
	own := kit.NewTextField("", lang.L("another line, such as: saltiness"))
	own.OnDone = func(s string) {
		if s = strings.TrimSpace(s); s != "" && !has(s) {
			v.toggle(blind.Attribute{Name: s, Low: lang.L("not at all"), High: lang.L("extremely")})
		}
	}
	return kit.Stack(2, kit.Section(lang.L("Lines to score")), row, own,
		kit.Small(lang.L("Each line more makes it harder to show anything on any of them.")))
}

// toggle takes a line in, or leaves it out.
func (v *planSection) toggle(a blind.Attribute) {
	lines := slices.Clone(v.plan.Attributes)
	if i := slices.IndexFunc(lines, func(b blind.Attribute) bool { return b.Name == a.Name }); i >= 0 {
		if len(lines) == 1 {
			v.p.env.Say(lang.L("One line at least is needed."), false)
			return
		}
		lines = slices.Delete(lines, i, i+1)
	} else {
		lines = append(lines, a)
	}
	v.change(lang.L("lines to score"), func(p *blind.Plan) { p.Attributes = slices.Clone(lines) })
}

// foresee works out, away from the main goroutine, what the plan can find.
func (v *planSection) foresee() {
	if v.started && samePower(v.foreseen, v.plan) {
		return
	}
	v.started, v.foreseen = true, v.plan
	v.cancel()
	plan := v.plan
	if err := plan.Check(); err != nil {
		v.found.Objects = []fyne.CanvasObject{kit.Body(v.p.env.Units().ErrorText(err))}
		v.found.Refresh()
		return
	}
	var f verdict.Foresight
	v.cancel = v.p.env.Think(func() { f = verdict.Foresee(plan) }, func() {
		v.found.Objects = nil
		for i, words := range v.p.env.Units().SayAll(f.Words) {
			if i == 0 {
				v.found.Add(kit.Lead(kit.Span{Text: words}))
				continue
			}
			v.found.Add(kit.Body(words))
		}
		v.found.Refresh()
	})
}

// samePower reports whether two plans can find the same.
func samePower(a, b blind.Plan) bool {
	return a.Method == b.Method && a.Rounds == b.Rounds && slices.Equal(a.Tasters, b.Tasters) && a.Attribute == b.Attribute &&
		a.Expected == b.Expected && slices.Equal(a.Attributes, b.Attributes) && a.Mode == b.Mode && a.Alpha == b.Alpha && a.Loaves[0].Name == b.Loaves[0].Name && a.Loaves[1].Name == b.Loaves[1].Name
}

func (v *planSection) plate() {
	if err := barredLoaves(v.p.env.Journal, v.plan); err != nil {
		kit.Message(v.p.env.Window, lang.L("Nobody is to taste these"), v.p.env.Units().ErrorText(err))
		return
	}
	if err := v.plan.Check(); err != nil {
		kit.Message(v.p.env.Window, lang.L("This cannot be plated yet"), v.p.env.Units().ErrorText(err))
		return
	}
	v.p.env.Go(to(v.t.ID, plating))
}

// barredLoaves gives the reason why the loaves of a plan are not to be eaten, without
// saying which.
func barredLoaves(r journal.Reader, p blind.Plan) error {
	return histories.BarredLoaves(r, journal.ID(p.Loaves[0].ID), journal.ID(p.Loaves[1].ID))
}

// side is what stands beside the plan: what it can find, the loaves, and what
// is in them.
func (v *planSection) side() fyne.CanvasObject {
	column := kit.Stack(3, kit.Section(lang.L("What this plan can find")), v.found, kit.Gap(2),
		kit.Section(lang.L("What you will need")), v.needed, kit.Gap(2))
	t, err := journal.Get[journal.Tasting](v.p.env.Journal, v.p.id)
	if err != nil {
		return column
	}
	s, err := t.Setting()
	if err != nil {
		return column
	}
	column.Add(kit.Section(lang.L("What is in them")))
	if err := barredLoaves(v.p.env.Journal, s.Plan); err != nil {
		column.Add(kit.NewText(kit.Span{Text: v.p.env.Units().ErrorText(err), Bold: true, Color: look.ColorEmber}))
	}
	column.Add(containing(allergensOf(v.p.env.Journal, s.Plan)))
	if unknown := unknownIn(v.p.env.Journal, s.Plan); len(unknown) > 0 {
		column.Add(kit.Strong(lang.L("Nothing certain can be said of {{.What}}: read the label.", map[string]any{"What": listed(unknown)})))
	}
	for _, words := range allergyWords(allergensOf(v.p.env.Journal, s.Plan)) {
		column.Add(kit.Small(words))
	}
	if t.Trial != "" {
		column.Add(kit.NewLink(lang.L("The trial, and whether it is a fair pair"), func() { v.p.env.Go(pages.At(pages.Trial, t.Trial)) }))
	} else {
		column.Add(fairness(v.p.env, journal.RefOf(t), nil, func() ([]journal.Unfair, error) { return journal.TastingFairness(v.p.env.Journal, t) }))
	}
	return column
}
