package photos

import (
	"context"
	"image"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/photo"
)

// showLarge shows a photo in a view: its thumbnail as soon as that is there, and
// then the whole. It gives a function that stops the loading.
func showLarge(env *pages.Env, view *kit.PhotoView, p *journal.Photo) (cancel func()) {
	full := image.Pt(p.Width, p.Height)
	large := false
	var small, whole image.Image
	var err error
	stopSmall := env.Run(func(ctx context.Context) {
		if img, e := env.Journal.Thumb(ctx, p.Hash, photo.Medium); e == nil {
			small = img
		}
	}, func() {
		if small != nil && !large {
			view.SetPreview(small, full)
		}
	})
	stopWhole := env.Run(func(ctx context.Context) {
		var img *image.RGBA
		if img, err = env.Journal.FullSize(ctx, p.Hash, 0); err == nil {
			whole = img
		}
	}, func() {
		if err != nil {
			env.Fail(err)
			return
		}
		large = true
		view.SetPicture(whole)
		whole = nil
	})
	return func() {
		stopSmall()
		stopWhole()
	}
}
