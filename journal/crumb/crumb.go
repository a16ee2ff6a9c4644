// Package crumb measures the crumb of bread from a photo of its cut face.
//
// What a cut face shows are openings, not bubbles: in space nearly all pores
// of a crumb are one connected pore (Wang, Austin & Bell 2011, Journal of
// Cereal Science 54:203), so no figure here is the loaf's true porosity.
// Figures compare a baker's loaves with each other, under the same light and
// at the same setting.
//
// The road from photo to figures, each step a function of its own:
//
//	FindOutlines      colour distance from the picture's border
//	reduce            area averaging to at most 10 pixels per millimetre
//	peelCrust         crust by colour, from the outline inwards
//	flatten           division by the brightness of the walls, widely blurred
//	denoise           only where noise would break up the cells
//	findLevels        threshold between wall and cell level
//	openThrough       holes in which the table shows are cells
//	removeSpecks      components below 0.33 mm go
//	fillHoles         bright islands in cells go
//	distanceWithin    exact Euclidean distance to the wall
//	watershed         touching cells split at their necks
//	refineEdges       each edge redrawn at its own cell's steepest brightness
//	measureRegions    areas and second moments
//
// The package opens no file, reads no clock and draws no random number.
package crumb

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"

	"twinloaf/journal/say"
)

// MethodVersion names this way of measuring. It grows whenever the same photo
// would give other figures, or others of how far they may lie off, so that kept measures can be
// known as old.
const MethodVersion = 18

// LargeFromMM is the diameter from which a cell is called large, unless Options
// say otherwise: in mm or, without a true length, in per cent of the slice's width.
const LargeFromMM = 5.0

// Errors that Prepare wraps. A slice that is not found, or a photo that is too
// poor, is no error but a flagged result.
var (
	ErrTooSmall = say.NewError("the picture has too few pixels to measure anything")
	ErrOutline  = say.NewError("the outline encloses too little of the picture: draw it again")
	ErrScale    = say.NewError("with that length the slice would be narrower than 3 mm or wider than 1.5 m: look at the length once more")
	ErrSetting  = say.NewError("the sensitivity lies outside -1 to 1")
)

// Working limits.
const (
	workPxPerMM   = 10.0    // finer detail than this is noise to a crumb
	maxWorkPixels = 4 << 20 // bounds time and memory, whatever the scale says
	minFacePixels = 400     // fewer pixels hold no crumb worth counting
	leastFaceMM   = 3.0     // narrower, or wider than mostFaceMM, no slice is
	mostFaceMM    = 1500.0
	relativeMM    = 100.0 // without a true length the slice counts as this wide
)

// A Progress is told what is being done and how far the whole work has come,
// from 0 to 1. It is called on the goroutine that called the package.
type Progress func(stage say.Line, share float64)

// Options say what the baker has told the program about a photo.
type Options struct {
	// Outline of the slice, or of any part of the face, in picture pixels. When
	// nil the slice is looked for.
	Outline Outline
	// Chosen says that the outline is one of those that FindOutlines gave, chosen by hand.
	Chosen bool
	// PxPerMM is the photo's scale, from ScaleOf or Outline.ScaleFromWidth. 0
	// means that no true length is known: figures then come out as if the
	// outline were 100 mm wide, and Summary.Relative says so.
	PxPerMM float64
	// WidthMM is the true width of the outline, left to right, found or given. It
	// counts where PxPerMM is 0; 0 means that it is not known.
	WidthMM float64
	// Sheet is a rectangle of known size in the plane of the face: it gives the scale in
	// place of PxPerMM and WidthMM, and takes out the camera's tilt. Every place stays one
	// of the photo as it was taken.
	Sheet *Sheet
	// CrumbOnly says that the outline lies within the crumb, as a box in the
	// middle does: no crust is looked for.
	CrumbOnly bool
	// LargeFromMM is the equivalent diameter from which a cell counts as large
	// in the LargeShare measure; 0 means the constant LargeFromMM.
	LargeFromMM float64
	// Corrections are what a hand did to the cells, made again each time that they are found.
	Corrections []Correction
	// Progress may be nil.
	Progress Progress
}

// ScaleOf returns pixels per millimetre from a length dragged in the picture.
func ScaleOf(a, b Point, mm float64) (float64, error) {
	k := math.Hypot(a.X-b.X, a.Y-b.Y) / mm
	if !(mm > 0) || !(k > 0) || math.IsInf(k, 0) {
		return 0, fmt.Errorf("taking the scale from a length of %g mm: %w", mm, ErrScale)
	}
	return k, nil
}

// A Prepared is a photo made ready for measuring: the crumb found, the light
// evened. It is made once, and measured again whenever the sensitivity is
// nudged. A Prepared is not changed by measuring; one goroutine at a time may use
// it.
type Prepared struct {
	frame    frame
	outline  Outline
	lying    Outline // the outline in the plane of the sheet; without one as it is
	found    bool    // the outline was found, not given
	from     candidate
	byWidth  bool // the scale comes from the outline's width
	chosen   bool // it was found, and then chosen
	missing  say.Line
	relative bool
	largeMM  float64
	noCrust  bool
	stray    float64 // share of what lies deep in the slice that passes for crust
	border   float64 // share of the outline that runs along the photo's border

	w, h     int
	rgb      []uint8  // 3 per working pixel
	rel      []uint16 // brightness over the local wall's, wallLevel = as the wall
	crumb    []bool
	crumbPx  int
	middle   []bool // the half of the crumb that lies deeper than the other
	light    lighting
	flash    float64 // by how much the light falls off all round from the photo's middle
	levels   levels
	through  float64 // share of the crumb in which the table shows
	progress Progress

	corrections []Correction
}

// A frame says where the working picture lies in the photo, or in the plane of a sheet.
type frame struct {
	x0, y0  float64 // position of the working picture's corner
	step    float64 // pixels there per working pixel, at least 1
	pxPerMM float64 // of the working picture
	flat    *flat   // the plane of the sheet; nil where there is none
}

// toPhoto turns a working position into a photo position.
func (f frame) toPhoto(x, y float64) Point {
	p := Point{f.x0 + x*f.step, f.y0 + y*f.step}
	if f.flat != nil {
		p, _ = f.flat.toPhoto.carry(p)
	}
	return p
}

// fromPhoto turns a photo position into a working one; false beyond a sheet's horizon.
func (f frame) fromPhoto(p Point) (Point, bool) {
	if f.flat != nil {
		q, depth := f.flat.fromPhoto.carry(p)
		if !(depth > 0) {
			return Point{}, false
		}
		p = q
	}
	return Point{(p.X - f.x0) / f.step, (p.Y - f.y0) / f.step}, true
}

// Prepare finds the slice where no outline is given, brings the photo to
// working scale, peels the crust and evens the light. It returns an error that
// wraps ErrTooSmall, ErrOutline, ErrScale or a sheet's when there is nothing to measure,
// or ctx's error. A slice that cannot be found gives a Prepared whose Result is
// flagged and withholds every figure.
func Prepare(ctx context.Context, img image.Image, o Options) (*Prepared, error) {
	b := img.Bounds()
	if b.Dx() < 24 || b.Dy() < 24 {
		return nil, fmt.Errorf("measuring a picture of %d by %d pixels: %w", b.Dx(), b.Dy(), ErrTooSmall)
	}
	if o.PxPerMM < 0 || math.IsNaN(o.PxPerMM) || o.PxPerMM > 1e4 {
		return nil, fmt.Errorf("measuring at %g pixels per mm: %w", o.PxPerMM, ErrScale)
	}
	f := &Prepared{outline: o.Outline, largeMM: o.LargeFromMM, noCrust: o.CrumbOnly, corrections: o.Corrections, chosen: o.Chosen && o.Outline != nil, progress: o.Progress}
	if f.progress == nil {
		f.progress = func(say.Line, float64) {}
	}
	if f.largeMM <= 0 {
		f.largeMM = LargeFromMM
	}
	f.progress(say.Of("Looking for the slice"), 0)
	if f.outline == nil {
		if err := f.find(ctx, img); err != nil || !f.missing.IsZero() {
			return f, err
		}
	}
	if err := f.layFlat(b, &o); err != nil {
		return nil, err
	}
	if o.PxPerMM == 0 && o.WidthMM != 0 {
		k, err := f.outline.ScaleFromWidth(o.WidthMM)
		if err != nil {
			return nil, err
		}
		o.PxPerMM, f.byWidth = k, true
	}
	if err := f.frameFor(b, o.PxPerMM); err != nil {
		return nil, err
	}
	return f, f.prepare(ctx, img)
}

func (f *Prepared) find(ctx context.Context, img image.Image) error {
	found, err := findAll(ctx, img)
	var none *NotFoundError
	if errors.As(err, &none) {
		f.missing = none.Reason
		return nil
	}
	if err != nil {
		return err
	}
	f.outline, f.found, f.from = found[0].outline, true, found[0]
	return nil
}

// layFlat lays the outline into the plane of the sheet, if there is one, which gives the
// scale too.
func (f *Prepared) layFlat(b image.Rectangle, o *Options) error {
	f.outline = f.outline.clip(b)
	f.lying = f.outline
	if o.Sheet == nil || len(f.outline) < 3 {
		return nil
	}
	lo, hi := f.outline.bounds()
	flat, err := o.Sheet.flat(Point{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2})
	if err != nil {
		return err
	}
	if f.lying, err = flat.outline(f.outline); err != nil {
		return err
	}
	f.frame.flat, o.PxPerMM, o.WidthMM = flat, flat.pxPerMM, 0
	return nil
}

// frameFor chooses the working scale: never finer than the photo, nor than 10
// pixels per mm.
func (f *Prepared) frameFor(b image.Rectangle, pxPerMM float64) error {
	f.border = f.outline.along(b)
	lo, hi := f.lying.bounds()
	w, h := hi.X-lo.X, hi.Y-lo.Y
	if len(f.lying) < 3 || !(math.Abs(f.lying.area()) >= minFacePixels) {
		return fmt.Errorf("measuring inside the outline: %w", ErrOutline)
	}
	if pxPerMM == 0 {
		f.relative = true
		pxPerMM = w / relativeMM
	}
	if mm := w / pxPerMM; mm < leastFaceMM || mm > mostFaceMM {
		return fmt.Errorf("measuring a face %.3g mm wide: %w", mm, ErrScale)
	}
	step := math.Max(1, pxPerMM/workPxPerMM)
	step = math.Max(step, math.Sqrt(w*h/maxWorkPixels))
	// However fine the photo, enough pixels must stay to look at.
	step = math.Max(1, math.Min(step, math.Sqrt(math.Abs(f.lying.area())/minFacePixels)))
	f.frame.x0, f.frame.y0, f.frame.step, f.frame.pxPerMM = lo.X-2*step, lo.Y-2*step, step, pxPerMM/step
	f.w, f.h = int(math.Ceil(w/step))+4, int(math.Ceil(h/step))+4
	return nil
}

func (f *Prepared) prepare(ctx context.Context, img image.Image) error {
	f.progress(say.Of("Reading the picture"), 0.1)
	if f.frame.flat != nil {
		f.rgb = straighten(img, f.frame, f.w, f.h)
	} else {
		f.rgb = reduce(img, f.frame, f.w, f.h, math.MaxInt32)
	}
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("reading the picture: %w", err)
	}
	f.progress(say.Of("Leaving out the crust"), 0.3)
	f.crumb = f.lying.fill(f.frame, f.w, f.h)
	if !f.noCrust {
		f.stray = peelCrust(f.rgb, f.crumb, f.w, f.h, f.frame.pxPerMM)
	}
	f.crumbPx = count(f.crumb)
	if f.crumbPx < minFacePixels/2 {
		return fmt.Errorf("measuring inside the outline: %w", ErrOutline)
	}
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("leaving out the crust: %w", err)
	}
	f.progress(say.Of("Evening the light"), 0.45)
	f.rel, f.light = flatten(f.rgb, f.crumb, f.w, f.h, f.frame.pxPerMM)
	f.flash = f.fallFrom(img.Bounds())
	skin := f.layers()
	if f.levels = f.findLevels(skin); f.levels.noisy() {
		f.rel = denoise(f.rel, f.w, f.h)
		f.levels = f.findLevels(skin)
	}
	f.openThrough()
	return ctx.Err()
}

// Measure is Prepare and Prepared.Measure in one call.
func Measure(ctx context.Context, img image.Image, sensitivity float64, o Options) (*Result, error) {
	f, err := Prepare(ctx, img, o)
	if err != nil {
		return nil, err
	}
	return f.Measure(ctx, sensitivity)
}
