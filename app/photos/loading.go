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
