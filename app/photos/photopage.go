package photos

import (
	"context"
	"errors"
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/photo"
)

// photoPage shows one photo as large as the window allows.
type photoPage struct {
	pages.Base
	env  *pages.Env
	id   journal.ID
	page *kit.Page
	view *kit.PhotoView
	stop func() // ends the loading
	on   string // hash of what is shown or being loaded

	role    *kit.Segments
	caption *kit.TextField
	taken   *kit.WhenField
	facts   *kit.Text
	fitness *kit.Text  // of a crumb photo: how far it is fit for measuring
	rated   journal.ID // the photo that is being rated, or was
	crumb   *kit.Button
}

func newPhotoPage(env *pages.Env, id journal.ID) (*photoPage, error) {
	if _, err := journal.Get[journal.Photo](env.Journal, id); err != nil {
		return nil, err
	}
	p := &photoPage{env: env, id: id, view: kit.NewPhotoView(env.Main), facts: kit.Small(""), fitness: kit.Small("")}
	words := make([]string, 0, 5)
	for _, r := range pages.PhotoRoles() {
		words = append(words, pages.PhotoRoleWord(r))
	}
	p.role = kit.NewSegments(lang.L("It shows"), words, -1, func(i int) {
		env.Do(lang.L("what a photo shows"), func(tx *journal.Tx) error {
			return journal.Change(tx, p.id, func(ph *journal.Photo) { ph.Role = pages.PhotoRoles()[i] })
		})
	})
	p.caption = kit.NewTextField("", lang.L("a caption"))
	p.caption.OnChanged = func(text string) {
		p.edit(lang.L("caption of a photo"), func(ph *journal.Photo) { ph.Caption = text })
	}
	p.taken = kit.NewWhenField(kit.WhenOptions{Hint: lang.L("when it was taken"), Units: env.Units(), Now: env.Now,
		OnChanged: func(t time.Time) {
			p.edit(lang.L("when a photo was taken"), func(ph *journal.Photo) { ph.Taken = t })
		}})
	p.crumb = kit.QuietButton(lang.L("Measure the crumb"), func() { env.Go(pages.At(pages.Crumb, p.id)) }).WithKey("M")
	foot := kit.Stack(1, kit.Gap(1), kit.WeightedColumns(look.Space(90), []float32{1, 1}, p.role, kit.RowGrow(7, 0, p.caption, p.taken)), p.facts, p.fitness, kit.Gap(2))
	p.page = kit.NewPage(kit.PageOptions{Fixed: true, Body: container.New(photoFirst{}, p.view, container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, rim, rim), foot)))})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Photo"), Read: p.refresh,
		Of: []journal.Kind{journal.KindPhoto, journal.KindBake, journal.KindSettings}}
	return p, nil
}

func (p *photoPage) edit(label string, set func(*journal.Photo)) {
	p.env.Fail(journal.Edit(p.env.Journal, p.id, label, set))
}

func (p *photoPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "Left", Doc: lang.L("Previous photo"), Do: func() { p.step(-1) }},
		{Name: "Right", Doc: lang.L("Next photo"), Do: func() { p.step(1) }},
		{Name: "+", Doc: lang.L("Larger; the wheel does it too, dragging moves"), Do: func() { p.view.TypedRune('+') }},
		{Name: "=", Do: func() { p.view.TypedRune('+') }, Hidden: true},
		{Name: "-", Doc: lang.L("Smaller"), Do: func() { p.view.TypedRune('-') }},
		{Name: "0", Doc: lang.L("The whole picture"), Do: func() { p.view.TypedRune('0') }},
		{Name: "S", Doc: lang.L("Compare with another photo"), Do: p.beside},
		{Name: "M", Doc: lang.L("Measure the crumb"), Do: p.measure},
		{Name: "E", Doc: lang.L("To the caption"), Do: p.caption.Focus},
		{Name: "O", Doc: lang.L("To what it belongs to"), Do: p.toOwner},
		{Name: "X", Doc: lang.L("Save the photo…"), Do: p.save},
		{Name: "B", Doc: lang.L("Move to the bin"), Do: p.bin},
		{Name: "Esc", Doc: lang.L("Back"), Do: p.env.Back},
	}
}

// Left lets the picture go.
func (p *photoPage) Left() {
	p.Base.Left()
	p.release()
}

func (p *photoPage) release() {
	kit.End(&p.stop)
	p.on = ""
	p.view.Clear()
}

// refresh shows the photo as the journal has it.
func (p *photoPage) refresh() {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if errors.Is(err, journal.ErrNotFound) {
		p.release()
		p.page.SetHeading(lang.L("This photo is no longer in the journal"))
		return
	}
	if p.env.Failed(err) {
		return
	}
	if p.on != ph.Hash {
		p.release()
		p.on = ph.Hash
		p.stop = showLarge(p.env, p.view, ph)
	}
	p.head(ph)
	p.role.SetChosen(slices.Index(pages.PhotoRoles(), ph.Role))
	p.caption.SetText(ph.Caption)
	if at, ok := p.taken.Time(); !ok || !at.Equal(ph.When()) {
		p.taken.SetTime(ph.When())
	}
	p.facts.SetText(about(ph, p.env.Units()))
	p.rate(ph)
}

// rate says how far a crumb photo is fit for measuring, and measures it for that once.
func (p *photoPage) rate(ph *journal.Photo) {
	if ph.Role != journal.RoleCrumb {
		p.fitness.SetText("")
		p.rated = ""
		return
	}
	if s, ok, err := journal.CrumbMeasures(p.env.Journal, ph); err == nil && ok {
		p.fitness.SetText(pages.FitnessWords(s, p.env.Units()))
		return
	}
	if p.rated == ph.ID {
		return
	}
	p.rated = ph.ID
	p.fitness.SetText("")
	pages.RateCrumb(p.env, ph.ID, func(s crumb.Summary, ok bool) {
		if ok && p.id == ph.ID && p.rated == ph.ID {
			p.fitness.SetText(pages.FitnessWords(s, p.env.Units()))
		}
	})
}

// head says whose photo it is and which of how many.
func (p *photoPage) head(ph *journal.Photo) {
	owner, _, err := ownerOf(p.env.Journal, ph.Owner)
	if err != nil {
		owner = lang.L("A photo of something that is gone")
	}
	p.page.SetEyebrow(owner)
	all, i, err := siblings(p.env.Journal, ph)
	switch {
	case ph.InBin():
		p.page.SetHeading(lang.L("This photo is in the bin"))
		p.page.SetActions(nil, kit.PrimaryButton(lang.L("Restore"), p.restore))
		return
	case err != nil || i < 0 || len(all) == 1:
		p.page.SetHeading(p.env.Units().When(ph.When(), p.env.Now()))
	default:
		p.page.SetHeading(lang.L("{{.N}} of {{.All}}, {{.When}}", map[string]any{
			"N": i + 1, "All": len(all), "When": p.env.Units().When(ph.When(), p.env.Now())}))
	}
	buttons := []fyne.CanvasObject{
		kit.NewButton(lang.L("Compare"), p.beside).WithKey("S"),
		kit.QuietButton(lang.L("Save the photo…"), p.save).WithKey("X"),
	}
	if len(all) > 1 {
		buttons = append(buttons,
			kit.QuietButton(lang.L("Before"), func() { p.step(-1) }).WithKey("←"),
			kit.QuietButton(lang.L("After"), func() { p.step(1) }).WithKey("→"))
	}
	if ph.Role == journal.RoleCrumb {
		buttons = append(buttons, p.crumb)
	}
	p.page.SetActions(nil, buttons...)
}

// step goes to the next photo of the same record; past the last comes the first.
func (p *photoPage) step(by int) {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	all, i, err := siblings(p.env.Journal, ph)
	if err != nil || i < 0 || len(all) < 2 {
		p.env.Fail(err)
		return
	}
	p.id = all[(i+by+len(all))%len(all)].ID
	p.refresh()
}

func (p *photoPage) measure() {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	switch {
	case err != nil:
		p.env.Fail(err)
	case ph.Role != journal.RoleCrumb:
		p.env.Say(lang.L("Say first that it shows the crumb."), false)
	default:
		p.env.Go(pages.At(pages.Crumb, p.id))
	}
}

func (p *photoPage) toOwner() {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	_, place, err := ownerOf(p.env.Journal, ph.Owner)
	if p.env.Failed(err) {
		return
	}
	p.env.Go(place)
}

func (p *photoPage) bin() {
	if p.env.Do(lang.L("moving a photo to the bin"), func(tx *journal.Tx) error {
		return journal.MoveToBin[journal.Photo](tx, p.id)
	}) {
		p.env.Say(lang.L("The photo is in the bin."), true)
	}
}

func (p *photoPage) restore() {
	p.env.Do(lang.L("restoring a photo"), func(tx *journal.Tx) error { return journal.Restore[journal.Photo](tx, p.id) })
}

// beside asks which photo to see beside this one.
func (p *photoPage) beside() {
	pickBeside(p.env, p.id, func(second journal.ID) {
		p.env.Go(pages.Route{Name: pages.Photo, ID: p.id, More: string(second)})
	})
}

// rim is the room at the sides for the ring around what has the keyboard.
const rim = 8

// photoFirst gives the photo most of the height; what is written below it scrolls where that
// leaves too little room.
type photoFirst struct{}

func (photoFirst) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(60), look.Space(60))
}

func (photoFirst) Layout(things []fyne.CanvasObject, size fyne.Size) {
	below := things[1].(*container.Scroll)
	foot := min(kit.FitHeight(below.Content, size.Width+2*rim), size.Height*0.36)
	kit.Put(things[0], fyne.NewPos(0, 0), fyne.NewSize(size.Width, size.Height-foot))
	kit.Put(below, fyne.NewPos(-rim, size.Height-foot), fyne.NewSize(size.Width+2*rim, foot))
}

// showLarge shows a photo in a view: its thumbnail as soon as that is there, and
// then the whole. It gives a function that stops the loading.
func showLarge(env *pages.Env, view *kit.PhotoView, p *journal.Photo) (cancel func()) {
	full := image.Pt(p.Width, p.Height)
	large := false
	stopSmall := pages.Fetch(env, func(ctx context.Context) (image.Image, error) { return env.Journal.Thumb(ctx, p.Hash, photo.Medium) }, func(small image.Image, err error) {
		if err == nil && !large {
			view.SetPreview(small, full)
		}
	})
	stopWhole := pages.Fetch(env, func(ctx context.Context) (*image.RGBA, error) { return env.Journal.FullSize(ctx, p.Hash, 0) }, func(whole *image.RGBA, err error) {
		if env.Failed(err) {
			return
		}
		large = true
		view.SetPicture(whole)
	})
	return func() {
		stopSmall()
		stopWhole()
	}
}
