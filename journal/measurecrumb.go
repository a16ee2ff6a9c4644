package journal

import (
	"context"

	"twinloaf/journal/crumb"
)

// CrumbOptions turns what the baker said of a slice into what measuring it asks
// for. It may be given a photo of which nothing was said. An impossible length gives
// crumb.ErrScale, and corners that are none of a sheet one of the errors that crumb.Sheet.Check gives.
func CrumbOptions(p *Photo) (crumb.Options, error) {
	var o crumb.Options
	s := p.Slice
	if s == nil {
		return o, nil
	}
	for _, spot := range s.Outline {
		o.Outline = append(o.Outline, crumb.Point(spot))
	}
	o.Chosen = len(s.Outline) > 0 && !s.Drawn
	o.CrumbOnly = s.CrumbOnly && len(s.Outline) > 0
	o.LargeFromMM = s.LargeFromMM
	for _, c := range s.Strokes {
		made := crumb.Correction{Kind: c.Do}
		for _, spot := range c.Path {
			made.Path = append(made.Path, crumb.Point(spot))
		}
		o.Corrections = append(o.Corrections, made)
	}
	if sheet, ok := s.Sheet(); ok {
		o.Sheet = &sheet
		return o, sheet.Check()
	}
	if s.LengthMM == 0 {
		return o, nil
	}
	if s.From == s.To {
		o.WidthMM = s.LengthMM
		return o, nil
	}
	var err error
	o.PxPerMM, err = crumb.ScaleOf(crumb.Point(s.From), crumb.Point(s.To), s.LengthMM)
	return o, err
}

// Sheet gives the rectangle that lies with the slice; false where none was set.
func (s *Slice) Sheet() (crumb.Sheet, bool) {
	if len(s.Corners) != 4 {
		return crumb.Sheet{}, false
	}
	sheet := crumb.Sheet{WideMM: s.WideMM, HighMM: s.HighMM}
	for i, c := range s.Corners {
		sheet.Corners[i] = crumb.Point(c)
	}
	return sheet, true
}

// MeasureCrumb measures the crumb on a photo as it stands in the journal, and
// keeps what comes of it. It takes its time. An error says why
// nothing could be measured at all: a slice that was not found, or a photo that is
// too poor, is a summary that withholds its figures.
func (j *Journal) MeasureCrumb(ctx context.Context, photo ID) (crumb.Summary, error) {
	p, err := Get[Photo](j, photo)
	if err != nil {
		return crumb.Summary{}, err
	}
	o, err := CrumbOptions(p)
	if err != nil {
		return crumb.Summary{}, err
	}
	img, err := j.FullSize(ctx, p.Hash, 0)
	if err != nil {
		return crumb.Summary{}, err
	}
	setting := 0.0
	if p.Slice != nil {
		setting = p.Slice.Sensitivity
	}
	r, err := crumb.Measure(ctx, img, setting, o)
	if err != nil {
		return crumb.Summary{}, err
	}
	_, err = j.KeepCrumb(p, r.Summary)
	return r.Summary, err
}

// SameCrumb reports whether two states of a photo give the same measures of its
// crumb.
func SameCrumb(a, b *Photo) bool {
	x, errX := crumbBasis(a)
	y, errY := crumbBasis(b)
	return errX == nil && errY == nil && x == y
}
