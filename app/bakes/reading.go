package bakes

import (
	"cmp"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// heroPart is how high the large picture is for its width: what went in is still in sight in
// a window of 1280 by 800.
const heroPart = 0.62

var (
	heroSize  = fyne.NewSize(608, 406)
	smallSize = fyne.NewSize(112, 84)
)

// worthReading says whether a bake has anything to be read first: it is over, and there
// is a photo or a word on how it came out.
func worthReading(b *journal.Bake, photos []*journal.Photo) bool {
	if b.InBin() || !b.State.Over() {
		return false
	}
	o := b.Outcome
	return len(photos) > 0 || len(o.Scores) > 0 || o.Notes != "" || o.BakeLoss() != nil
}

// reading is a bake read like a page: its crumb large, what was said of it, its figures
// and scores, the day as one strip, and what went in. It is made anew whenever the bake
// changes, and holds nothing that can be typed in.
type reading struct {
	env    *pages.Env
	units  measure.Units
	bake   *journal.Bake
	photos []*journal.Photo
	holds  formula.AllergenReport
}

// object lays the page out.
func (r reading) object(p *bakePage) fyne.CanvasObject {
	column := kit.Stack(6)
	add := func(parts ...fyne.CanvasObject) {
		for _, o := range parts {
			if o != nil {
				column.Add(o)
			}
		}
	}
	add(p.head.follows, r.top(), p.photos.busy)
	if day := r.day(); day != nil {
		add(kit.Rule(), day)
	}
	add(kit.Rule(), twoParts(r.wentIn(), r.beside()))
	more := kit.Stack(6)
	if steps := r.steps(); steps != nil {
		more.Add(kit.Stack(5, steps, p.bulk.text, p.rows.box))
	}
	if r.bake.Notes != "" {
		more.Add(kit.Stack(2, kit.Section(lang.L("Notes")), kit.Body(r.bake.Notes)))
	}
	body := fyne.CanvasObject(column)
	if len(more.Objects) > 0 {
		body = kit.Beside(column, more)
	}
	return kit.Stack(5, body, kit.Rule(), p.foot())
}

// top holds the picture, and beside it what was said and measured.
func (r reading) top() fyne.CanvasObject {
	said := kit.Stack(5)
	if small := r.smallPhotos(); small != nil {
		said.Add(small)
	}
	if words := strings.TrimSpace(r.bake.Outcome.Notes); words != "" {
		said.Add(kit.NewText(kit.Span{Text: words, Size: look.TextLarge, Serif: true}))
	}
	said.Add(r.figures())
	if scores := r.scores(); scores != nil {
		said.Add(kit.Rule())
		said.Add(scores)
	}
	hero := r.hero()
	if hero == nil {
		return said
	}
	return twoParts(hero, said)
}

// twoParts sets two things side by side where every part of the page has its edge.
func twoParts(left, right fyne.CanvasObject) fyne.CanvasObject {
	return kit.WeightedColumns(look.Space(70), []float32{5, 3}, left, right)
}

// tile is a photo that opens when it is pressed.
func (r reading) tile(ph *journal.Photo, size fyne.Size) *kit.PhotoTile {
	t := kit.NewPhotoTile(r.env.Thumbs, size, 0, func() { r.env.Go(pages.At(pages.Photo, ph.ID)) })
	t.Set(kit.PhotoItem{Key: ph.Hash})
	return t
}

func (r reading) hero() fyne.CanvasObject {
	ph := pages.MainPhoto(r.photos)
	if ph == nil {
		return nil
	}
	photo := kit.Grown(heroPart, look.Space(60), look.Space(160), r.tile(ph, heroSize).Filling())
	caption := kit.NewElided(kit.Span{Text: ph.Caption, Color: look.ColorFaint})
	if ph.Role != journal.RoleCrumb {
		return kit.Stack(2, photo, caption)
	}
	measured := kit.NewLink(r.openness(ph), func() { r.env.Go(pages.At(pages.Crumb, ph.ID)) })
	return kit.Stack(2, photo, kit.RowGrow(4, 1, measured, caption))
}

// openness says what the measuring of a crumb found, or offers it.
func (r reading) openness(ph *journal.Photo) string {
	s, ok, err := journal.CrumbMeasures(r.env.Journal, ph)
	r.env.Fail(err)
	open := s.Measured(crumb.Porosity)
	if !ok || open.Trust == crumb.Withheld {
		return lang.L("Measure the crumb")
	}
	share := map[string]any{"Share": pages.OpenShare(open, r.units)}
	if open.Trust == crumb.Doubtful {
		return lang.L("perhaps {{.Share}} % open, measured", share)
	}
	return lang.L("{{.Share}} % open, measured", share)
}

func (r reading) smallPhotos() fyne.CanvasObject {
	row := kit.Flow(3)
	first := pages.MainPhoto(r.photos)
	for _, ph := range r.photos {
		if ph.ID != first.ID {
			row.Add(kit.Stack(0, r.tile(ph, smallSize), kit.Small(pages.PhotoRoleWord(ph.Role))))
		}
	}
	if len(row.Objects) == 0 {
		return nil
	}
	return row
}

// figures are the six that say most of this bake, of those that are known.
func (r reading) figures() fyne.CanvasObject {
	u, o := r.units, r.bake.Outcome
	var known []fyne.CanvasObject
	put := func(label, value, unit, derived string) {
		if value == "" || value == "–" || len(known) == 6 {
			return
		}
		f := kit.NewReadout(label, true)
		f.Set(value, unit, "", derived)
		known = append(known, f)
	}
	measured := func(label string, m measure.Measure, v *float64) {
		if v != nil {
			put(label, m.Format(*v), m.Unit, "")
		}
	}
	mix := map[formula.Metric]dough.Metric{}
	for _, f := range dough.MetricsOf(dough.SideOf(r.bake).Mix, u) {
		mix[f.Of] = f
	}
	of := func(f formula.Metric) { put(mix[f].Name, mix[f].Value, mix[f].Unit, mix[f].Derived) }
	of(formula.FigureHydration)
	of(formula.FigurePrefermented)
	loss := lossView(o, u)
	put(lang.L("Bake loss"), loss.value, loss.unit, loss.derived)
	measured(lang.L("Height"), u.Length(), o.HeightMM)
	measured(lang.L("Core temperature"), u.Temperature(), kit.Number(o.Inside))
	measured(lang.L("Width"), u.Length(), o.WidthMM)
	volume := volumeView(o, u)
	put(lang.L("Specific volume"), volume.value, volume.unit, volume.derived)
	of(formula.FigureWholegrain)
	of(formula.FigureSalt)
	of(formula.FigureDough)
	rows := kit.Stack(4)
	for len(known) > 0 {
		n := min(3, len(known))
		three := known[:n:n]
		for len(three) < 3 {
			three = append(three, kit.Gap(1))
		}
		rows.Add(kit.Columns(look.Space(18), three...))
		known = known[n:]
	}
	return rows
}

func (r reading) scores() fyne.CanvasObject {
	given := map[string]int{}
	for _, s := range r.bake.Outcome.Scores {
		given[s.Attribute] = s.Score
	}
	left, right := kit.Stack(0), kit.Stack(0)
	n := 0
	for _, a := range attributesOf(r.bake.Outcome.Scores) {
		if given[a.key] == 0 {
			continue
		}
		side := left
		if n++; n%2 == 0 {
			side = right
		}
		name := a.name
		if a.key == "openness" { // its whole name has no room
			name = lang.L("Openness")
		}
		side.Add(kit.ScoreBar(name, given[a.key]))
	}
	if n == 0 {
		return nil
	}
	return kit.Columns(look.Space(38), left, right)
}

// day is the strip of what happened, and how long all of it took.
func (r reading) day() fyne.CanvasObject {
	lane := pages.LaneOf("", r.bake)
	if len(lane.Blocks) == 0 {
		return nil
	}
	var to time.Time
	for _, b := range lane.Blocks {
		if b.To.After(to) {
			to = b.To
		}
	}
	u := r.units
	return kit.Stack(2, kit.RowGrow(2, 0, kit.Section(lang.L("The day")), kit.Faint(u.Span(to.Sub(lane.Blocks[0].From)))),
		kit.NewDayLanes([]kit.Lane{lane}, u, r.env.Now()))
}

func (r reading) wentIn() fyne.CanvasObject {
	u, f := r.units, dough.SideOf(r.bake).Mix.Formula()
	table := f.FinalDough(formula.WithCulture)
	weight, share := dough.Weights(f, u), dough.Shares(table, u)
	row := func(t formula.Row, name string) []string {
		return []string{name, weight.Format(float64(t.Grams)), weight.Unit, share.Format(float64(t.Percent)), "%"}
	}
	rows := make([][]string, 0, len(table.Rows)+1)
	for _, t := range table.Rows {
		name := t.Name
		if t.Levain && name == "" {
			name = lang.L("Levain")
		}
		rows = append(rows, row(t, name))
	}
	rows = append(rows, row(table.Total, lang.L("Total")))
	column := kit.Stack(3, kit.Section(lang.L("What went in")), kit.Table([]kit.TableColumn{
		{}, {Head: lang.L("weight"), Right: true}, {Unit: true}, {Head: lang.L("baker's %"), Right: true}, {Unit: true},
	}, rows, func(i int) bool { return i == len(rows)-1 }))
	for _, l := range f.Levains {
		var parts []string
		for _, in := range l.Lines {
			parts = append(parts, lang.L("{{.Weight}} {{.What}}", map[string]any{"Weight": weight.Write(float64(in.Grams)), "What": in.Name}))
		}
		name := cmp.Or(l.Name, lang.L("Levain"))
		column.Add(kit.Faint(lang.L("{{.Name}}: {{.Parts}}", map[string]any{"Name": name, "Parts": strings.Join(parts, ", ")})))
		if kept := dough.KeptOver(l, weight); kept != "" {
			column.Add(kit.Faint(kept))
		}
	}
	return column
}

// beside holds the flours, as a bar, and the allergens.
func (r reading) beside() fyne.CanvasObject {
	column := kit.Stack(5)
	if shares := dough.FlourShares(dough.SideOf(r.bake).Mix.Formula(), r.units); len(shares) > 0 {
		column.Add(kit.Stack(2, kit.Section(dough.FloursHeading(dough.SideOf(r.bake).Mix.Formula())), kit.ShareList(shares)))
	}
	note := dough.NewAllergenNote()
	note.Show(dough.SideOf(r.bake).Mix, r.holds)
	column.Add(note.Object)
	return column
}

// steps are what was noted on the way.
func (r reading) steps() fyne.CanvasObject {
	u, now := r.units, r.env.Now()
	var rows []kit.ScheduleRow
	last := ""
	for _, s := range inOrder(r.bake.Steps) {
		row := kit.ScheduleRow{Title: stepName(s), Note: stepSaid(s, u, now)}
		at := begun(s)
		switch {
		case s.Skipped:
			row.State, row.By = kit.StepSkipped, lang.L("left out")
		case !s.At.IsZero():
			row.Clock = u.Clock(s.At.In(now.Location()))
		}
		if s.Length() > 0 && !s.Skipped {
			row.Length = u.Span(s.Length())
		}
		if !s.PlannedAt.IsZero() {
			row.Planned = pages.PlannedClock(s.PlannedAt, at, now, u)
		}
		if w := pages.Weekday(at, now, u); !at.IsZero() && w != last {
			row.Day, last = w, w
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		return nil
	}
	table := kit.NewSchedule(look.TextBody, kit.ScheduleHeads{Clock: lang.L("begun"), Length: lang.L("duration"), Planned: lang.L("planned")})
	table.SetRows(rows)
	return kit.Stack(3, kit.Section(lang.L("Timeline")), table)
}

// stepSaid is what was measured and noted in a step, and when the dough was turned.
func stepSaid(s journal.Step, u measure.Units, now time.Time) string {
	var out []string
	if s.Dough != nil {
		out = append(out, lang.L("dough {{.Temp}}", map[string]any{"Temp": u.Celsius(*s.Dough)}))
	}
	if s.Rise != nil {
		out = append(out, lang.L("rise {{.Rise}}", map[string]any{"Rise": u.Times().Write(*s.Rise)}))
	}
	if turns := turnsSaid(s, u, now); turns != "" {
		out = append(out, turns)
	}
	if s.Note != "" {
		out = append(out, s.Note)
	}
	return strings.Join(out, " · ")
}
