package cultures

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// photosSection is the strip of the latest photos.
type photosSection struct {
	page  *culturePage
	box   *fyne.Container
	strip *kit.PhotoStrip
	busy  *fyne.Container // says how far photos are added
	items []jarPhoto
}

// stripLength is how many photos the page shows; the others are behind the history.
const stripLength = 12

func newPhotosSection(p *culturePage) *photosSection {
	f := &photosSection{page: p, busy: container.NewStack()}
	f.busy.Hide()
	f.strip = kit.NewPhotoStrip(p.env.Thumbs, thumbSize(), 1, kit.NewButton(lang.L("Add photos"), func() { f.pick() }).WithKey("J"))
	f.strip.OnOpen = func(i int) { p.env.Go(pages.At(pages.Photo, f.items[i].photo.ID)) }
	f.strip.OnDelete = func(i int) {
		id := f.items[i].photo.ID
		if p.env.Do(lang.L("deleting a photo"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Photo](tx, id) }) {
			p.env.Say(lang.L("The photo was deleted."), true)
		}
	}
	f.box = kit.Stack(2, kit.Section(lang.L("Photos of the jar")), f.busy, f.strip)
	return f
}

func (f *photosSection) show(p *portrait) {
	f.items = p.photos[max(0, len(p.photos)-stripLength):]
	var items []kit.PhotoItem
	for _, x := range f.items {
		items = append(items, kit.PhotoItem{Key: x.photo.Hash, Title: photoDay(p, x.at, f.page.env.Units()), Plain: true})
	}
	f.strip.SetItems(items)
}

// photoDay says of which day a photo is: of age, while the culture is young.
func photoDay(p *portrait, at time.Time, u measure.Units) string {
	if day := p.life.Day(at); day > 0 && p.life.Day(p.now) <= young {
		return lang.L("day {{.N}}", map[string]any{"N": day})
	}
	return u.Day(at, p.now)
}

func (f *photosSection) pick() { f.page.env.PickPictures(f.take) }

// take stores photos with the culture.
func (f *photosSection) take(pictures []journal.Picture) {
	f.page.env.AddPhotos(journal.RefOf(f.page.now.life.Culture), journal.RoleJar, pictures, func(o fyne.CanvasObject) { kit.SetOnly(f.busy, o) })
}
