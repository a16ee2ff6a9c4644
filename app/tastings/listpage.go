package tastings

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/measure"
)

// listPage lists every trial and tasting with its state in words.
type listPage struct {
	pages.Base
	env  *pages.Env
	page *kit.Page
	list *kit.OpenRows
	told *standing
}

func newListPage(env *pages.Env) *listPage {
	p := &listPage{env: env, list: kit.NewOpenRows(), told: newStanding(env)}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Trials and tastings")})
	p.Base = pages.Base{Body: p.page, List: p.list, Name: lang.L("Tastings"), Read: p.refresh,
		Of: []journal.Kind{journal.KindTasting, journal.KindTrial, journal.KindBake, journal.KindSettings}}
	return p
}

func (p *listPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "N", Doc: lang.L("Bake a fair pair"), Do: p.newTrial},
		{Name: "T", Doc: lang.L("Plan a tasting"), Do: p.newTasting},
	}
}

func (p *listPage) newTrial()   { p.env.Go(pages.Route{Name: pages.Trial}) }
func (p *listPage) newTasting() { p.env.Go(pages.Route{Name: pages.Tasting}) }

// listRow is one trial or tasting.
type listRow struct {
	at    time.Time
	title string
	state string
	place pages.Route
	// now is up for what waits for the baker.
	now bool
	// open is the tasting whose verdict is still to be worked out.
	open *journal.Tasting
	// within is up for a tasting that is listed under its trial.
	within bool
	// planned is up for a tasting that is still to come.
	planned bool
	// loaves are those that are compared, if nothing that is sealed has them.
	loaves []rowLoaf
}

// rowLoaf is one of the loaves of a row, and what it has that the others have not.
type rowLoaf struct {
	id   journal.ID
	name string
}

// rowPicture is the least size of a picture of one of the loaves.
var rowPicture = fyne.NewSize(116, 87)

func (p *listPage) refresh() {
	rows, err := listRows(p.env.Journal, p.env.Units())
	if p.env.Failed(err) {
		return
	}
	covers, err := coversOf(p.env.Journal)
	if p.env.Failed(err) {
		return
	}
	p.page.SetHeading(listHeading(rows, p.env.Units(), p.env.Now()))
	if len(rows) == 0 {
		p.page.SetActions(nil)
		p.page.SetBody(kit.Empty(kit.GoldenLoaf,
			lang.L("Is the bread from one culture better than from another? Bake two loaves that differ in one thing, and taste them blind."),
			kit.PrimaryButton(lang.L("Bake a fair pair"), p.newTrial).WithKey("N"),
			kit.NewLink(lang.L("Taste two loaves that are baked already"), p.newTasting)))
		return
	}
	p.page.SetActions(nil, kit.PrimaryButton(lang.L("Bake a fair pair"), p.newTrial).WithKey("N"),
		kit.NewButton(lang.L("Plan a tasting"), p.newTasting).WithKey("T"))
	pictured := 0
	for _, r := range rows {
		if r.pictured() {
			pictured++
		}
	}
	var things []fyne.CanvasObject
	var inset func(width float32) float32 // of the tastings of a trial: they stand beneath its name
	for i, r := range rows {
		if i > 0 && !r.within {
			things = append(things, kit.Gap(0.5), kit.Rule(), kit.Gap(0.5))
		}
		pictures := &picturesFirst{page: p.page, n: len(r.loaves), few: pictured <= 2}
		if !r.within {
			inset = func(float32) float32 { return look.Space(6) }
			if r.pictured() {
				inset = pictures.words
			}
		}
		things = append(things, p.row(r, covers, pictures, inset))
	}
	p.list.Set(things...)
	p.told.show(rows)
	p.page.SetBody(kit.Beside(p.list, p.told.box))
}

// row shows one line of the list. The verdict of an unsealed tasting comes
// when it is worked out.
func (p *listPage) row(r listRow, covers map[journal.ID]string, pictures *picturesFirst, inset func(float32) float32) fyne.CanvasObject {
	title := kit.NewElided(kit.Span{Text: r.title, Size: look.TextLarge, Serif: true})
	style := kit.Span{Text: r.state, Color: look.ColorFaint}
	if r.now {
		style.Color = look.ColorInk
	}
	state := kit.NewText(style)
	when := kit.NewLine(kit.Span{Text: p.env.Units().When(r.at, p.env.Now()), Color: look.ColorFaint})
	dots := container.NewStack()
	dots.Hide()
	var line fyne.CanvasObject = kit.Stack(0.5, kit.RowGrow(4, 0, title, when), state, dots)
	if r.pictured() {
		line = container.New(pictures, append(p.pictures(r, covers), line)...)
	}
	if r.open != nil {
		verdictLater(p.env, r.open, state, dots)
	}
	if !r.within {
		inset = nil
	}
	return kit.NewOpenRow(r.place.Name+" "+string(r.place.ID), inset, line, func() { p.env.Go(r.place) })
}

// pictured says that a row shows its loaves: one that stands by itself and has not too many.
func (r listRow) pictured() bool {
	return !r.within && len(r.loaves) > 0 && len(r.loaves) <= mostPictures
}

// pictures shows the loaves of a row, each with what is its own.
func (p *listPage) pictures(r listRow, covers map[journal.ID]string) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, l := range r.loaves {
		cell := kit.NewPhotoCell(p.env.Thumbs, rowPicture, 1).Filling()
		cell.Set(kit.PhotoItem{Key: covers[l.id], Loaf: kit.GoldenLoaf, Title: l.name, Plain: true}, false)
		out = append(out, cell)
	}
	return out
}

// picturesFirst sets the words of a row beside its n pictures, which grow with the list, and where
// few rows have any, with the height of the page as well. It remembers its width, from which its
// height follows.
type picturesFirst struct {
	page  *kit.Page
	n     int
	few   bool
	width float32
}

var (
	rowPictureGap = look.Space(2) // from one picture to the next
	rowWordsGap   = look.Space(6) // from the last of them to the words
)

func (l *picturesFirst) picture(width float32) float32 {
	w := max(rowPicture.Width, min(look.Space(60), width*0.15))
	if l.few { // two such rows leave half of a high page to what else is listed
		// Not the room below the head: a longer heading would move the words of one row and not of the next.
		w = max(w, min(width*0.23, ((l.page.Height()-look.Space(32))*0.28-look.Space(20))*rowPicture.Width/rowPicture.Height))
	}
	return w
}

// stacked says that there is no room for the words beside the pictures: they go below.
func (l *picturesFirst) stacked(width float32) bool {
	return width > 0 && width-l.beside(width) < look.Space(60)
}

// words is where the words begin.
func (l *picturesFirst) words(width float32) float32 {
	if l.stacked(width) {
		return 0
	}
	return l.beside(width)
}

// beside is where they begin beside the pictures.
func (l *picturesFirst) beside(width float32) float32 {
	return float32(l.n)*(l.picture(width)+rowPictureGap) - rowPictureGap + rowWordsGap
}

func (l *picturesFirst) MinSize(things []fyne.CanvasObject) fyne.Size {
	words, cell := things[l.n].MinSize(), things[0].MinSize()
	w := l.picture(l.width)
	high := cell.Height + (w-rowPicture.Width)*rowPicture.Height/rowPicture.Width
	if l.stacked(l.width) {
		return fyne.NewSize(max(l.beside(0)-rowWordsGap, words.Width), high+look.Space(2)+words.Height)
	}
	return fyne.NewSize(max(l.beside(0)-rowWordsGap, words.Width), max(words.Height, high))
}

func (l *picturesFirst) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	w := l.picture(size.Width)
	at := l.words(size.Width)
	high := kit.FitHeight(things[l.n], size.Width-at)
	down, pictures := max(0, (size.Height-high)/2), l.MinSize(things).Height
	if l.stacked(size.Width) {
		pictures -= look.Space(2) + high
		down = pictures + look.Space(2)
	}
	for i, cell := range things[:l.n] {
		kit.Put(cell, fyne.NewPos(float32(i)*(w+rowPictureGap), 0), fyne.NewSize(w, pictures))
	}
	things[l.n].Move(fyne.NewPos(at, down))
}

// mostPictures is how many loaves of a trial are shown in its row.
const mostPictures = 3

// coversOf gives the picture of every bake that has one.
func coversOf(r journal.Source) (map[journal.ID]string, error) {
	summaries, err := r.BakeSummaries()
	if err != nil {
		return nil, err
	}
	covers := map[journal.ID]string{}
	for _, c := range summaries {
		covers[c.ID] = c.Cover
	}
	return covers, nil
}

// listRows lists the trials with their tastings, and the tastings of no trial,
// newest first.
func listRows(r journal.Reader, u measure.Units) ([]listRow, error) {
	trials, err := journal.All[journal.Trial](r)
	if err != nil {
		return nil, err
	}
	tastings, err := journal.All[journal.Tasting](r)
	if err != nil {
		return nil, err
	}
	type group struct {
		at   time.Time
		rows []listRow
	}
	var groups []group
	within := map[journal.ID]int{}
	for _, t := range trials {
		bakes, err := journal.TrialBakes(r, t)
		if err != nil {
			return nil, err
		}
		within[t.ID] = len(groups)
		state := trialState(t, bakes)
		groups = append(groups, group{t.At, []listRow{{at: t.At, title: trialName(t), state: state, place: pages.At(pages.Trial, t.ID), loaves: loavesOf(t, bakes)}}})
	}
	for _, t := range tastings {
		row, err := tastingRow(t, u)
		if err != nil {
			return nil, err
		}
		g, ok := within[t.Trial]
		if !ok || t.Trial == "" {
			groups = append(groups, group{t.At, []listRow{row}})
			continue
		}
		row.within = true
		if row.now { // a sealed tasting shows no loaf
			groups[g].rows[0].loaves = nil
		}
		groups[g].rows = append(groups[g].rows, row)
		if t.At.After(groups[g].at) {
			groups[g].at = t.At
		}
	}
	slices.SortStableFunc(groups, func(a, b group) int { return b.at.Compare(a.at) })
	var out []listRow
	for _, g := range groups {
		out = append(out, g.rows...)
	}
	return out, nil
}

func tastingRow(t *journal.Tasting, u measure.Units) (listRow, error) {
	s, err := t.Setting()
	if err != nil {
		return listRow{}, err
	}
	row := listRow{at: t.At, title: pages.TastingName(t), place: to(t.ID, "")}
	if !t.IsSealed() {
		for _, l := range s.Plan.Loaves {
			row.loaves = append(row.loaves, rowLoaf{journal.ID(l.ID), l.Name})
		}
	}
	switch {
	case t.IsOpen():
		row.at, row.open, row.state = t.Unsealed, t, lang.L("Unsealed")
	case t.IsClosed():
		row.at, row.state = t.Closed, lang.L("Ended without being opened")
	case t.IsSealed():
		progress, err := t.Progress()
		if err != nil {
			return listRow{}, err
		}
		n, over := 0, len(progress.Sheets) > 0
		for _, sheet := range progress.Sheets {
			n += len(sheet.Answers)
			over = over && sheet.Over()
		}
		row.now = true
		row.state = lang.L("Sealed: {{.N}} of {{.Of}} rounds are in", map[string]any{"N": n, "Of": s.Plan.Answers()})
		if over {
			row.state = lang.L("Sealed: every score is in")
		}
	default:
		row.planned, row.state = true, planState(s.Plan, u)
	}
	return row, nil
}

// loavesOf names the loaves of a trial by what each has.
func loavesOf(t *journal.Trial, bakes []*journal.Bake) []rowLoaf {
	out := make([]rowLoaf, len(bakes))
	for i, b := range bakes {
		out[i] = rowLoaf{b.ID, b.Name}
		for _, a := range t.Arms {
			if a.Bake == b.ID {
				out[i].name = a.Value
			}
		}
	}
	return out
}

func planState(p blind.Plan, u measure.Units) string {
	if err := p.Check(); err != nil {
		return lang.L("Being planned: {{.Why}}", map[string]any{"Why": u.ErrorText(err)})
	}
	return lang.L("Planned: {{.Method}}, {{.Tasters}}, {{.Rounds}}", map[string]any{
		"Method": lang.L(p.Method.Title()), "Tasters": tastersOf(p), "Rounds": roundsEach(p.Rounds)})
}

// listHeading says what waits or comes next, or else what the list holds.
func listHeading(rows []listRow, u measure.Units, now time.Time) string {
	var next *listRow
	tasted := 0
	for i, r := range rows {
		switch {
		case r.now:
			return lang.L("“{{.Name}}” waits to be tasted", map[string]any{"Name": r.title})
		case r.open != nil:
			tasted++
		case r.planned && r.at.After(now) && (next == nil || r.at.Before(next.at)):
			next = &rows[i]
		}
	}
	switch {
	case next != nil:
		return lang.L("“{{.Name}}” comes next: {{.When}}", map[string]any{"Name": next.title, "When": u.When(next.at, now)})
	case tasted == 0:
		return lang.L("Nothing tasted blind yet")
	case tasted == 1:
		return lang.L("One tasting unsealed")
	}
	return lang.L("{{.N}} tastings unsealed", map[string]any{"N": tasted})
}
