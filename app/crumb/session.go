package crumb

import (
	"context"
	"fmt"
	"image"
	"image/draw"
	"sync"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/photo"
	"twinloaf/journal/say"
)

// A session measures one photo again and again, as the baker says more of it.
// What was made ready is kept: only what a change touches is done anew. Its methods
// are called on the main goroutine; what they start comes back there.
type session struct {
	env    *pages.Env
	cancel func() // ends what is being measured

	// One goroutine at a time is at work; the fields below are its own.
	at       sync.Mutex
	hash     string
	picture  *image.RGBA
	face     *crumb.Prepared
	prepared string // what the face was made ready for
	progress crumb.Progress
}

// An outcome is what came of measuring.
type outcome struct {
	photo  *journal.Photo // as it was then
	result *crumb.Result
	cells  *image.RGBA // the cells, to be laid over the photo
	err    error
}

// load reads the photo, away from the main goroutine, and hands it to shown; until then its
// thumbnail to preview, as soon as that is there.
func (s *session) load(ph *journal.Photo, preview func(image.Image), shown func(image.Image, error)) {
	large := false
	pages.Fetch(s.env, func(ctx context.Context) (image.Image, error) { return s.env.Journal.Thumb(ctx, ph.Hash, photo.Medium) },
		func(small image.Image, err error) {
			if err == nil && !large {
				preview(small)
			}
		})
	pages.Fetch(s.env, func(ctx context.Context) (image.Image, error) {
		s.at.Lock()
		defer s.at.Unlock()
		return s.pictureOf(ctx, ph)
	}, func(img image.Image, err error) {
		large = true
		shown(img, err)
	})
}

func (s *session) pictureOf(ctx context.Context, ph *journal.Photo) (*image.RGBA, error) {
	if s.picture != nil && s.hash == ph.Hash {
		return s.picture, nil
	}
	img, err := s.env.Journal.FullSize(ctx, ph.Hash, 0)
	if err != nil {
		return nil, err
	}
	s.picture, s.hash, s.face, s.prepared = img, ph.Hash, nil, ""
	return img, nil
}

// measure measures a photo once wait has passed, in place of what was being
// measured, keeps what comes of it and hands it to done. progress is called on the
// main goroutine.
func (s *session) measure(ph *journal.Photo, wait time.Duration, progress crumb.Progress, done func(outcome)) {
	s.stop()
	var out outcome
	s.cancel = s.env.Run(func(ctx context.Context) {
		if wait > 0 {
			select {
			case <-ctx.Done():
				return
			case <-time.After(wait):
			}
		}
		s.at.Lock()
		defer s.at.Unlock()
		if ctx.Err() != nil {
			return
		}
		s.progress = func(stage say.Line, share float64) {
			s.env.Main(func() {
				if ctx.Err() == nil {
					progress(stage, share)
				}
			})
		}
		out = s.work(ctx, ph)
	}, func() { done(out) })
}

// find looks for the slice in a box of the photo, or in all of it where the box is empty,
// away from the main goroutine, and hands over what may be it, the likeliest first.
func (s *session) find(ph *journal.Photo, box image.Rectangle, done func([]crumb.Outline)) {
	pages.Fetch(s.env, func(ctx context.Context) ([]crumb.Outline, error) {
		s.at.Lock()
		defer s.at.Unlock()
		img, err := s.pictureOf(ctx, ph)
		if err != nil {
			return nil, err
		}
		if !box.Empty() {
			img = img.SubImage(box).(*image.RGBA)
		}
		return crumb.FindOutlines(ctx, img)
	}, func(found []crumb.Outline, _ error) {
		done(found) // that there is none is an answer; the page that loads the photo tells what is wrong with it
	})
}

// stop ends what is being measured.
func (s *session) stop() {
	kit.End(&s.cancel)
}

// free lets go of the picture and of what was made of it.
func (s *session) free() {
	s.stop()
	s.env.Think(func() {
		s.at.Lock()
		defer s.at.Unlock()
		s.picture, s.hash, s.face, s.prepared = nil, "", nil, ""
	}, nil)
}

func (s *session) work(ctx context.Context, ph *journal.Photo) outcome {
	out := outcome{photo: ph}
	if out.err = s.prepare(ctx, ph); out.err != nil {
		return out
	}
	setting := sliceOf(ph).Sensitivity
	if out.result, out.err = s.face.Measure(ctx, setting); out.err != nil {
		return out
	}
	if large := sliceOf(ph).LargeFromMM; large > 0 {
		out.result.SetLargeFrom(large)
	}
	out.cells = flatten(out.result.Overlay(inks()))
	if ctx.Err() == nil {
		_, out.err = s.env.Journal.KeepCrumb(ph, out.result.Summary)
	}
	return out
}

// prepare makes the face ready, unless it is already so.
func (s *session) prepare(ctx context.Context, ph *journal.Photo) error {
	img, err := s.pictureOf(ctx, ph)
	if err != nil {
		return err
	}
	o, err := journal.CrumbOptions(ph)
	if err != nil {
		return err
	}
	o.LargeFromMM = 0 // set afterwards: nothing has to be looked at anew for it
	hand := sliceOf(ph)
	want := fmt.Sprintf("%v %v %v %v %v %v %v %v", o.Outline, o.PxPerMM, o.WidthMM, o.CrumbOnly, hand.Corners, hand.WideMM, hand.HighMM, hand.Strokes)
	if s.face != nil && s.prepared == want {
		return nil
	}
	o.Progress = func(stage say.Line, share float64) { s.progress(stage, share) }
	face, err := crumb.Prepare(ctx, img, o)
	if err != nil {
		s.face, s.prepared = nil, ""
		return err
	}
	s.face, s.prepared = face, want
	return nil
}

// sliceOf is what was said of a slice, nothing at all included.
func sliceOf(ph *journal.Photo) journal.Slice {
	if ph.Slice == nil {
		return journal.Slice{}
	}
	return *ph.Slice
}

// flatten turns an overlay into what a screen takes without turning it first.
func flatten(src *image.NRGBA) *image.RGBA {
	if src == nil {
		return nil
	}
	out := image.NewRGBA(src.Bounds())
	draw.Draw(out, out.Bounds(), src, src.Bounds().Min, draw.Src)
	return out
}
