package crumb

import (
	"fmt"
	"image"
	"image/color"
	"io"
	"math"
	"strconv"
	"strings"

	"twinloaf/journal/table"
)

// WriteMeasures writes a summary as a [table.Write], one measure a row with its unit,
// how far it is to be trusted and why, and within what it held for nine in ten drawn slices at least.
// A withheld value is empty, and so is an uncertainty that is not known. Each row says
// where a hand helped: who drew the outline, and how many corrections of the cells counted.
func WriteMeasures(w io.Writer, s Summary) error {
	var rows [][]table.Cell
	for _, f := range s.Figures {
		d, _ := Define(f.ID)
		value := table.Cell("")
		if f.Trust != Withheld {
			value = number(f.Value)
		}
		uncertain := table.Cell("")
		if f.Off > 0 {
			uncertain = number(f.Off)
		}
		rows = append(rows, []table.Cell{table.Text(string(f.ID)), table.Text(d.Name), value, table.Text(d.UnitFor(s.Relative)), table.Text(f.Trust.String()),
			table.Text(strings.Join(s.reasons(f.ID), " ")), number(s.Sensitivity), table.Int(s.Method), uncertain,
			table.Text(s.outlineBy()), table.Int(s.Corrected)})
	}
	if err := table.Write(w, []table.Cell{"measure", "name", "value", "unit", "trust", "reason", "sensitivity", "method", "uncertainty", "outline", "corrections_by_hand"}, rows); err != nil {
		return fmt.Errorf("writing the crumb's measures: %w", err)
	}
	return nil
}

// outlineBy tells whether the outline was found, found and then chosen by hand, or drawn
// by hand; it is empty without one.
func (s Summary) outlineBy() string {
	switch {
	case len(s.Outline) == 0:
		return ""
	case s.FoundByItself:
		return "found"
	case s.Chosen:
		return "chosen"
	}
	return "drawn"
}

// reasons are the sentences of the flags that touch a measure.
func (s Summary) reasons(id MeasureID) []string {
	var out []string
	for _, f := range s.Flags {
		if f.touches(id) {
			out = append(out, f.Line().String())
		}
	}
	return out
}

// WriteCells writes every cell as a row of a [table.Write]. Lengths are in mm, or in per
// cent of the slice's width when the summary is relative; the header says which.
func WriteCells(w io.Writer, r *Result) error {
	unit := table.Cell("mm")
	if r.Relative {
		unit = "percent_of_width"
	}
	head := []table.Cell{"cell", "x_px", "y_px", "area_" + unit + "2", "diameter_" + unit, "major_" + unit, "minor_" + unit, "angle_deg", "at_edge", "add_in"}
	var rows [][]table.Cell
	for i, q := range r.Cells {
		rows = append(rows, []table.Cell{table.Int(i + 1), number(q.At.X), number(q.At.Y), number(q.Area), number(q.Diameter),
			number(q.Major), number(q.Minor), number(q.Angle), table.Bool(q.AtEdge), table.Bool(q.AddIn)})
	}
	if err := table.Write(w, head, rows); err != nil {
		return fmt.Errorf("writing the crumb's cells: %w", err)
	}
	return nil
}

// number writes seven digits, more than a photo can tell.
func number(v float64) table.Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return table.Cell(strconv.FormatFloat(v, 'g', 7, 64))
}

// A Placement says where a picture of the result lies in the photo: its pixel
// (x, y) covers the photo from X + x Scale, Y + y Scale on, Scale wide.
type Placement struct{ X, Y, Scale float64 }

// Placement of the Overlay in the photo.
func (r *Result) Placement() Placement {
	if r.Straightened {
		lo, _ := r.Outline.bounds()
		return Placement{math.Floor(lo.X), math.Floor(lo.Y), r.frame.step}
	}
	return Placement{r.frame.x0, r.frame.y0, r.frame.step}
}

// CellAt returns the number of the cell at a photo position, from 0 as an index
// into Cells, or false where there is none.
func (r *Result) CellAt(p Point) (int, bool) {
	if len(r.labels) == 0 {
		return 0, false
	}
	i, ok := r.workingAt(p)
	if !ok {
		return 0, false
	}
	l := int(r.labels[i])
	return l - 1, l > 0
}

// Mask returns the cells as a black and white picture for PNG: white cell,
// mid-grey wall, black beyond the crumb. It is nil when no slice was found.
func (r *Result) Mask() *image.Gray {
	if len(r.labels) == 0 {
		return nil
	}
	m := image.NewGray(image.Rect(0, 0, r.w, r.h))
	for i, l := range r.labels {
		switch {
		case l != 0:
			m.Pix[i] = 255
		case r.crumb[i]:
			m.Pix[i] = 96
		}
	}
	return m
}

// MaskOver returns Mask at the size of the photo it was taken from, so that it lies
// over it pixel by pixel, as WriteCells gives places. Bounds are the photo's. It is
// nil when no slice was found.
func (r *Result) MaskOver(photo image.Rectangle) *image.Gray {
	small := r.Mask()
	if small == nil {
		return nil
	}
	m := image.NewGray(photo)
	bands(photo.Dy(), func(from, to int) {
		for y := from; y < to; y++ {
			for x := range photo.Dx() {
				if i, ok := r.workingAt(Point{float64(photo.Min.X+x) + 0.5, float64(photo.Min.Y+y) + 0.5}); ok {
					m.Pix[y*m.Stride+x] = small.Pix[i]
				}
			}
		}
	})
	return m
}

// Inks are the colours of an overlay; a see-through one is not drawn.
type Inks struct {
	Fill, Rim color.NRGBA // of cells
	Edge      color.NRGBA // rim of cells cut by the crumb's edge
	AddIn     color.NRGBA // rim of what may be no cell
	Outside   color.NRGBA // crust and ground
}

// Overlay returns the cells drawn on nothing, to be laid over the photo as
// Placement says. It is nil when no slice was found.
func (r *Result) Overlay(k Inks) *image.NRGBA {
	if !r.Straightened {
		return r.OverPicture(k)
	}
	_, hi := r.Outline.bounds()
	at := r.Placement()
	return r.drawn(k, int((hi.X-at.X)/at.Scale)+1, int((hi.Y-at.Y)/at.Scale)+1, func(x, y int) (int, bool) {
		return r.workingAt(Point{at.X + (float64(x)+0.5)*at.Scale, at.Y + (float64(y)+0.5)*at.Scale})
	})
}

// OverPicture returns the cells as they lie over Picture, pixel by pixel. It is nil when
// no slice was found.
func (r *Result) OverPicture(k Inks) *image.NRGBA {
	return r.drawn(k, r.w, r.h, func(x, y int) (int, bool) { return y*r.w + x, true })
}

// drawn draws the working pixels that at gives.
func (r *Result) drawn(k Inks, w, h int, at func(x, y int) (int, bool)) *image.NRGBA {
	if len(r.labels) == 0 {
		return nil
	}
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	bands(h, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range w {
				if i, ok := at(x, y); ok {
					m.SetNRGBA(x, y, r.ink(k, i%r.w, i/r.w))
				}
			}
		}
	})
	return m
}

func (r *Result) ink(k Inks, x, y int) color.NRGBA {
	i := y*r.w + x
	l := r.labels[i]
	switch {
	case !r.crumb[i]:
		return k.Outside
	case l == 0:
		return color.NRGBA{}
	case x > 0 && y > 0 && x < r.w-1 && y < r.h-1 && !atRim(r.labels, i, r.w):
		return k.Fill
	case r.Cells[l-1].AddIn:
		return k.AddIn
	case r.Cells[l-1].AtEdge:
		return k.Edge
	}
	return k.Rim
}
