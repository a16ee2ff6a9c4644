package app

import (
	"context"
	"image"
	"maps"

	"twinloaf/app/bakeday"
	"twinloaf/app/bakes"
	"twinloaf/app/crumb"
	"twinloaf/app/cultures"
	"twinloaf/app/findings"
	"twinloaf/app/formulas"
	"twinloaf/app/help"
	"twinloaf/app/pages"
	"twinloaf/app/photos"
	"twinloaf/app/safekeeping"
	"twinloaf/app/series"
	"twinloaf/app/settings"
	"twinloaf/app/shelf"
	"twinloaf/app/tastings"
	"twinloaf/app/today"
	"twinloaf/journal"
	"twinloaf/journal/photo"
)

// openers gathers the pages of every room.
func openers() map[string]pages.Opener {
	all := map[string]pages.Opener{}
	for _, some := range []map[string]pages.Opener{
		bakeday.Routes(),
		bakes.Routes(),
		crumb.Routes(),
		cultures.Routes(),
		formulas.Routes(),
		findings.Routes(),
		shelf.Routes(),
		help.Routes(),
		photos.Routes(),
		safekeeping.Routes(),
		series.Routes(),
		settings.Routes(),
		tastings.Routes(),
		today.Routes(),
	} {
		maps.Copy(all, some)
	}
	return all
}

// thumbs answers the kit's loader from the journal.
type thumbs struct{ j *journal.Journal }

// Thumb gives a photo by its hash, at least size pixels long where it can be.
func (t thumbs) Thumb(ctx context.Context, hash string, size int) (image.Image, error) {
	s := photo.Large
	switch {
	case size <= int(photo.Small):
		s = photo.Small
	case size <= int(photo.Medium):
		s = photo.Medium
	}
	return t.j.Thumb(ctx, hash, s)
}
