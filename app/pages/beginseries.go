package pages

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
)

// leastSeries is how many pictures make a row.
const leastSeries = 3

// BeginSeries shows what some files would be as a row of pictures of a jar, and on a yes
// begins it and goes to its page.
func (e *Env) BeginSeries(of journal.SeriesJar, files []journal.Picture) {
	FetchOver(e, lang.L("Looking at the pictures"), func(ctx context.Context, _ *kit.Progress) (journal.SeriesPlan, error) {
		return e.Journal.PlanSeries(ctx, files)
	}, func(plan journal.SeriesPlan, err error) {
		switch n := len(plan.Order.At); {
		case errors.Is(err, context.Canceled):
		case err != nil:
			e.Fail(err)
		case n < leastSeries:
			kit.Message(e.Window, lang.L("That is no row of pictures"),
				lang.L("A row has at least {{.N}} pictures of one jar, taken one after the other by a camera that stands still. For a single photo take a reading.", map[string]any{"N": leastSeries}))
		default:
			e.askSeries(of, plan)
		}
	})
}

// askSeries asks whether the plan is to be carried out.
func (e *Env) askSeries(of journal.SeriesJar, plan journal.SeriesPlan) {
	var sheet *kit.Dialog
	u, o, here := e.Units(), plan.Order, e.Now().Location()
	words := kit.Stack(3)
	add := func(s string) { words.Add(kit.Body(s)) }
	n := len(o.At)
	add(lang.L("{{.N}} pictures from {{.From}} to {{.To}}, one every {{.Every}}.", map[string]any{"N": n, "From": u.Moment(o.At[0].In(here), e.Now()),
		"To": u.Moment(o.At[n-1].In(here), e.Now()), "Every": u.Span(o.Every.Round(time.Minute))}))
	if k := len(o.Gaps); k > 0 {
		add(lang.N("In {{.N}} places the camera missed some.", k, map[string]any{"N": k}))
	}
	if k := len(o.ByFile); k > 0 {
		add(lang.N("{{.N}} do not say when they were taken: the times of their files stand in.", k, map[string]any{"N": k}))
	}
	if k := len(o.Doubles); k > 0 {
		add(lang.N("{{.N}} were taken at the same moment as others and stay out.", k, map[string]any{"N": k}))
	}
	if k := len(plan.Refused); k > 0 {
		add(lang.N("{{.N}} files are no pictures and stay out.", k, map[string]any{"N": k}))
	}
	whole := false
	space := kit.Small("")
	say := func() {
		bytes := int64(n) * journal.FrameBytes
		kept := plan.Bytes / int64(n) * 3
		if whole {
			kept = plan.Bytes
		}
		space.SetText(lang.L("About {{.Size}} on the disk: {{.Small}} of small pictures, {{.Large}} of originals. The files themselves stay where they are.", map[string]any{
			"Size": SizeWords(bytes+kept, u), "Small": SizeWords(bytes, u), "Large": SizeWords(kept, u)}))
	}
	say()
	words.Add(kit.NewSegments(lang.L("Originals"), []string{lang.L("first, highest, last"), lang.L("all")}, 0, func(i int) { whole = i == 1; say() }))
	words.Add(space)
	words.Add(kit.Small(lang.L("Others can be kept later, from the page of the row, as long as their files are there.")))
	begin := func() {
		sheet.Close()
		id, err := e.Journal.BeginSeries(plan, whole, of)
		if e.Failed(err) {
			return
		}
		e.Go(At(Series, id))
	}
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{
		Title: lang.L("A row of pictures"), Content: words, Width: 560, OnEnter: begin,
		Buttons: []fyne.CanvasObject{
			kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc")),
			kit.PrimaryButton(lang.L("Follow the rise"), begin).WithKey(lang.L("Enter"))},
	})
}

// likelyRow is how many pictures that come at once are asked about.
const likelyRow = 12

// RowOrPhotos gives pictures to photos, or, where so many come at once that they may be a row of
// the dough, to what the baker says.
func (e *Env) RowOrPhotos(pictures []journal.Picture, row, photos func([]journal.Picture)) {
	if len(pictures) < likelyRow {
		photos(pictures)
		return
	}
	var sheet *kit.Dialog
	after := func(do func([]journal.Picture)) func() {
		return func() { sheet.Close(); do(pictures) }
	}
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{
		Title: lang.N("What are these {{.N}} pictures?", len(pictures), map[string]any{"N": len(pictures)}), Width: 560, OnEnter: after(row),
		Content: kit.Body(lang.L("A row of pictures of the dough in its box becomes the curve of its rise. Photos are kept with the bake, each whole.")),
		Buttons: []fyne.CanvasObject{
			kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc")),
			kit.NewButton(lang.L("Photos of the bake"), after(photos)),
			kit.PrimaryButton(lang.L("A row of the dough"), after(row)).WithKey(lang.L("Enter"))},
	})
}

// SeriesRows are the links to rows of pictures, each a sentence; without any, the invitation to
// make one.
func (e *Env) SeriesRows(all []*journal.Series, invite string) []fyne.CanvasObject {
	u, now := e.Units(), e.Now()
	var out []fyne.CanvasObject
	for _, s := range all {
		words := lang.L("“{{.Name}}”, from {{.When}}.", map[string]any{"Name": s.Name, "When": u.Moment(s.From.Add(-s.Ahead).In(now.Location()), now)})
		if s.Reading() {
			words += " " + lang.L("Not all was read yet; it goes on when you open it.")
		}
		out = append(out, kit.NewLinkSpan(kit.Span{Text: words}, func() { e.Go(At(Series, s.ID)) }))
	}
	if len(all) == 0 {
		out = append(out, kit.NewText(kit.Span{Color: look.ColorFaint, Text: invite}))
	}
	return out
}
