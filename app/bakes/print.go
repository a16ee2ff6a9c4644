package bakes

import (
	"cmp"
	"io"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/app/tables"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/paper"
)

// bakePages is a bake on its way to paper.
type bakePages struct {
	env    *pages.Env
	units  measure.Units
	bake   *journal.Bake
	photos []*journal.Photo
	now    time.Time
	style  paper.Style
}

func (p bakePages) write(w io.Writer) error {
	b := p.bake
	d := paper.New(past.Name(b.Name), p.style)
	d.Small(bakeEyebrow(b, p.units, p.now))
	d.Title(past.Name(b.Name))
	for _, line := range p.origin() {
		d.Words(line)
	}
	if lead := p.lead(); lead != nil {
		d.Gap(2)
		p.env.PrintPhotos(d, []*journal.Photo{lead}, p.caption)
	}
	p.dough(d)
	if err := p.day(d); err != nil {
		return err
	}
	p.outcome(d)
	if err := p.crumb(d); err != nil {
		return err
	}
	if b.Notes != "" {
		d.Section(lang.L("Notes"))
		d.Words(b.Notes)
	}
	if len(p.photos) > 1 {
		d.Need(pages.PrintedRow)
		d.Section(lang.L("Photos"))
		p.env.PrintPhotos(d, p.others(), p.caption)
	}
	return d.Write(w)
}

// origin says which culture raised it and what it goes back to.
func (p bakePages) origin() []string {
	var out []string
	j, b := p.env.Journal, p.bake
	if c, err := journal.Get[journal.Culture](j, b.Culture); b.Culture != "" && err == nil {
		out = append(out, lang.L("leavened with {{.What}}", map[string]any{"What": c.Name}))
	}
	if f, err := journal.Get[journal.Formula](j, b.Formula); b.Formula != "" && err == nil {
		out = append(out, lang.L("from formula {{.Name}}, version {{.N}}", map[string]any{"Name": f.Name, "N": f.Number}))
	}
	return out
}

// lead is the photo that stands at the top: of the crust if there is one.
func (p bakePages) lead() *journal.Photo {
	for _, ph := range p.photos {
		if ph.Role == journal.RoleCrust {
			return ph
		}
	}
	if len(p.photos) > 0 {
		return p.photos[0]
	}
	return nil
}

func (p bakePages) others() []*journal.Photo {
	lead := p.lead()
	return slices.DeleteFunc(slices.Clone(p.photos), func(ph *journal.Photo) bool { return ph == lead })
}

func (p bakePages) caption(ph *journal.Photo) string {
	parts := []string{}
	if ph.Role != journal.RoleOther {
		parts = append(parts, pages.PhotoRoleWord(ph.Role))
	}
	parts = append(parts, p.units.Moment(ph.When(), p.now))
	if ph.Caption != "" {
		parts = append(parts, ph.Caption)
	}
	return strings.Join(parts, " · ")
}

// dough prints what went in, the levains first, and what follows from it.
func (p bakePages) dough(d *paper.Document) {
	m := dough.SideOf(p.bake).Mix
	f := m.Formula()
	weights := []float64{3, 1, 1}
	head := []string{"", lang.L("Weight"), lang.L("baker's %")}
	rows := func(t formula.Table) (out [][]string) {
		grams, share := dough.Weights(f, p.units), dough.Shares(t, p.units)
		for _, r := range append(t.Rows, t.Total) {
			out = append(out, []string{r.Name, grams.Write(float64(r.Grams)), share.Write(float64(r.Percent))})
		}
		out[len(out)-1][0] = lang.L("Total")
		return out
	}
	named := func(name string) string {
		return cmp.Or(name, lang.L("Levain"))
	}
	for _, l := range f.Levains {
		d.Section(named(l.Name))
		d.Table(weights, head, rows(l.BuildTable(formula.WithCulture)), 1, 2)
		if kept := dough.KeptOver(l, dough.Weights(f, p.units)); kept != "" {
			d.Gap(1.5)
			d.Small(kept)
		}
	}
	final := f.FinalDough(formula.WithCulture)
	if len(final.Rows) == 0 {
		return
	}
	for i := range final.Rows {
		if final.Rows[i].Levain {
			final.Rows[i].Name = named(final.Rows[i].Name)
		}
	}
	d.Section(lang.L("Final dough"))
	d.Table(weights, head, rows(final), 1, 2)
	var figures []string
	for _, fig := range dough.MetricsOf(m, p.units) {
		if fig.Of != formula.FigureDough && fig.Of != formula.FigureFlour {
			figures = append(figures, strings.ReplaceAll(fig.Name+" "+fig.Value+" "+fig.Unit, " ", "\u00a0"))
		}
	}
	d.Gap(1.5)
	d.Small(strings.Join(figures, "   "))
	r, err := m.Allergens(p.env.Journal)
	if err != nil {
		d.Small(p.units.ErrorText(err))
		return
	}
	for _, words := range dough.AllergenWords(m, r) {
		d.Small(words)
	}
}

// day prints when each step was begun and what was seen of it.
func (p bakePages) day(d *paper.Document) error {
	steps := inOrder(p.bake.Steps)
	if len(steps) == 0 {
		return nil
	}
	d.Section(lang.L("The day"))
	if f, ok := p.chart(steps); ok {
		if err := pages.DrawChart(d, f, p.units, 720, 40+34*len(f.Lanes)); err != nil {
			return err
		}
	}
	var rows [][]string
	for _, s := range steps {
		when := ""
		if at := begun(s); !at.IsZero() {
			when = p.units.Moment(at.In(p.now.Location()), p.now)
		}
		var seen []string
		if fact := stepFact(s, p.units, p.now); fact != "" {
			seen = append(seen, fact)
		}
		if s.Dough != nil {
			seen = append(seen, lang.L("dough {{.Temp}}", map[string]any{"Temp": p.units.Celsius(*s.Dough)}))
		}
		if s.Rise != nil {
			seen = append(seen, lang.L("rise {{.Rise}}", map[string]any{"Rise": p.units.Times().Write(*s.Rise)}))
		}
		if s.Note != "" {
			seen = append(seen, s.Note)
		}
		rows = append(rows, []string{when, stepName(s), strings.Join(seen, " · ")})
	}
	d.Table([]float64{1.1, 1.2, 2.2}, nil, rows)
	if f, ok := p.temperatures(steps); ok {
		d.Gap(2)
		return pages.DrawChart(d, f, p.units, 720, 240)
	}
	return nil
}

// chart shows the steps that have a beginning and an end, along the time.
func (p bakePages) chart(steps []journal.Step) (charts.Lanes, bool) {
	out := charts.Lanes{X: charts.Axis{Zone: p.now.Location()}}
	for _, s := range steps {
		if s.Length() <= 0 {
			continue
		}
		lane := charts.Lane{Name: stepName(s), Blocks: []charts.Block{{From: charts.Seconds(s.At), To: charts.Seconds(s.End), Label: p.units.Span(s.Length()), Hue: charts.Accent}}}
		for _, at := range s.Done {
			lane.Ticks = append(lane.Ticks, charts.Tick{At: charts.Seconds(at)})
		}
		out.Lanes = append(out.Lanes, lane)
	}
	return out, len(out.Lanes) > 1
}

// outcome prints what was measured and tasted of the bread.
func (p bakePages) outcome(d *paper.Document) {
	o, u := p.bake.Outcome, p.units
	var rows [][]string
	add := func(name, value string) {
		if value != "" {
			rows = append(rows, []string{name, value})
		}
	}
	figure := func(m measure.Measure, v *float64) string {
		if v == nil {
			return ""
		}
		return m.Write(*v)
	}
	add(lang.L("Dough weight, before baking"), figure(u.Weight(), kit.Number(o.DoughWeight)))
	add(lang.L("Bread weight, cooled"), figure(u.Weight(), kit.Number(o.LoafWeight)))
	add(lang.L("Bake loss"), figure(u.Percent(1), kit.Number(o.BakeLoss())))
	add(lang.L("Height"), figure(u.Length(), o.HeightMM))
	add(lang.L("Width"), figure(u.Length(), o.WidthMM))
	add(lang.L("Volume"), figure(u.Volume(), o.VolumeML))
	add(lang.L("Core temperature"), figure(u.Temperature(), kit.Number(o.Inside)))
	for _, a := range attributesOf(o.Scores) {
		for _, s := range o.Scores {
			if s.Attribute == a.key && s.Score > 0 {
				words := lang.L("{{.N}} of {{.Of}}", map[string]any{"N": s.Score, "Of": 9})
				if s.Note != "" {
					words += " · " + s.Note
				}
				add(a.name, words)
			}
		}
	}
	if len(rows) == 0 && o.Notes == "" {
		return
	}
	d.Section(lang.L("How it came out"))
	d.Table([]float64{1, 2}, nil, rows)
	if o.Notes != "" {
		d.Gap(1.5)
		d.Words(o.Notes)
	}
}

// save asks as what the bake is to be saved.
func (p *bakePage) save() {
	b, exists, err := p.rec.get()
	if err != nil || !exists {
		p.env.Fail(err)
		if err == nil {
			p.env.Say(lang.L("Write something down first."), false)
		}
		return
	}
	photos, err := journal.Photos(p.env.Journal, b.ID)
	if p.env.Failed(err) {
		return
	}
	out := bakePages{env: p.env, units: p.units, bake: b, photos: photos, now: p.env.Now(), style: p.env.Paper()}
	name := func(ending string) string { return pages.FileName(b.Name, lang.L("bake"), ending) }
	p.env.SaveOneOf([]pages.Saving{
		{Title: lang.L("As pages to print (PDF)"), Name: name(".pdf"), Write: out.write, Show: true},
		{Title: lang.L("Its dough and steps, as a recipe for other programs (JSON-LD)"), Name: name(".jsonld"), Write: func(w io.Writer) error {
			return dough.WriteRecipe(w, b.Name, b.Notes, dough.SideOf(b), p.units)
		}},
	}, lang.L("Photos on the pages no longer tell where they were taken, or with what."))
}

// save asks which table of the bakes that are listed is wanted.
func (p *listPage) save() {
	ids := make([]journal.ID, len(p.shown.past))
	for i, c := range p.shown.past {
		ids[i] = c.ID
	}
	tables.AskBakes(p.env, tables.ByID(p.env.Journal, ids))
}
