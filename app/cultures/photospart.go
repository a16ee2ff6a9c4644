package cultures

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// photosSection is the strip of the latest photos.
type photosSection struct {
	page  *culturePage
	box   *fyne.Container
	strip *kit.PhotoStrip
	items []jarPhoto
}

// stripLength is how many photos the page shows; the others are behind the history.
const stripLength = 12

func newPhotosSection(p *culturePage) *photosSection {
	f := &photosSection{page: p}
	f.strip = kit.NewPhotoStrip(p.env.Thumbs, thumbSize(), 1, kit.NewButton(lang.L("Add photos"), func() { f.pick() }).WithKey("J"))
	f.strip.OnOpen = func(i int) { p.env.Go(pages.At(pages.Photo, f.items[i].photo.ID)) }
	f.strip.OnDelete = func(i int) {
		id := f.items[i].photo.ID
		if p.env.Do(lang.L("deleting a photo"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Photo](tx, id) }) {
			p.env.Say(lang.L("The photo was deleted."), true)
		}
	}
	f.box = kit.Stack(2, kit.Section(lang.L("Photos of the jar")), f.strip)
	return f
}

func (f *photosSection) object() fyne.CanvasObject { return f.box }

func (f *photosSection) show(p *portrait) {
	f.items = p.photos[max(0, len(p.photos)-stripLength):]
	var items []kit.PhotoItem
	for _, x := range f.items {
		title := f.page.env.Units().Day(x.at.In(p.now.Location()), p.now)
		if day := p.life.Day(p.now); day > 0 && day <= young {
			title = lang.L("day {{.N}}", map[string]any{"N": p.life.Day(x.at)})
		}
		items = append(items, kit.PhotoItem{Key: x.photo.Hash, Sub: title})
	}
	f.strip.SetItems(items)
}

func (f *photosSection) pick() { f.page.env.PickPictures(f.take) }

// take stores photos with the culture, away from the main goroutine.
func (f *photosSection) take(pictures []journal.Picture) {
	env := f.page.env
	c := f.page.now.life.Culture
	ctx, cancel := context.WithCancel(context.Background())
	progress, sheet := kit.ShowProgress(env.Window, lang.L("Adding photos"), cancel)
	var refused []error
	var err error
	env.Run(func(run context.Context) {
		defer context.AfterFunc(run, cancel)()
		label := lang.L("photos of {{.Name}}", map[string]any{"Name": nameOf(c)})
		_, refused, err = env.Journal.AddPictures(ctx, label, journal.RefOf(c), journal.RoleJar, pictures, func(done int) {
			env.Main(func() { progress.Set(done, len(pictures), "") })
		})
	}, func() {
		cancel()
		sheet.Close()
		var words []string
		for _, r := range refused {
			words = append(words, env.Units().ErrorText(r))
		}
		switch {
		case len(words) > 0:
			kit.Message(env.Window, lang.L("Not all could be added"), strings.Join(words, "\n"))
		case err != nil && ctx.Err() == nil:
			env.Fail(err)
		}
	})
}
