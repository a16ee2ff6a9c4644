package charts

import (
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
)

// A Spec says what is to be shown. The figures are Plot, Bars, Spark,
// Groups, Slopes, Pairs, Lanes and Calendar.
type Spec interface {
	check() error
	draw(*drawList)
	tabulate() grid
	summary(w Words) string
}

// ErrFigure is wrapped by every error New returns about a figure's data.
var ErrFigure = errors.New("the chart cannot be drawn")

// ErrSize is returned when a picture of an impossible size is asked for.
var ErrSize = errors.New("the picture's size is out of range")

const (
	maxSide  = 16384
	maxArea  = 32 << 20
	minScale = 0.25
	maxScale = 16
)

// A Chart is a checked figure with the style it is drawn in. It may be drawn
// any number of times, from several goroutines at once, as long as nobody
// alters the slices it was made from.
type Chart struct {
	figure Spec
	style  Style
}

// New checks a figure. It fails, wrapping ErrFigure, when the figure
// contradicts itself: lengths that do not match, edges that do not rise, a
// style without fonts. An empty figure is no error: it is drawn as a sentence.
func New(f Spec, s Style) (*Chart, error) {
	if f == nil {
		return nil, fmt.Errorf("%w: there is no figure", ErrFigure)
	}
	if s.Regular == nil || s.Bold == nil {
		return nil, fmt.Errorf("%w: the style has no fonts; make it with NewStyle", ErrFigure)
	}
	if err := f.check(); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrFigure, err)
	}
	return &Chart{figure: f, style: s}, nil
}

// Image draws the chart width by height device pixels large. Scale is the
// number of device pixels to one unit of layout: at 2, text and lines are twice
// as large in pixels, and twice as sharp.
func (c *Chart) Image(width, height int, scale float64) (Picture, error) {
	sh, err := c.layout(width, height, scale)
	if err != nil {
		return Picture{}, err
	}
	img, err := rasterise(sh, width, height)
	if err != nil {
		return Picture{}, err
	}
	marks := make([]Mark, len(sh.marks))
	for i, m := range sh.marks {
		marks[i] = m.scaled(scale)
	}
	return Picture{Image: img, Marks: marks, scale: scale}, nil
}

// PNG writes the picture that Image draws.
func (c *Chart) PNG(w io.Writer, width, height int, scale float64) error {
	pic, err := c.Image(width, height, scale)
	if err != nil {
		return err
	}
	if err := png.Encode(w, pic.Image); err != nil {
		return fmt.Errorf("writing the chart as PNG: %w", err)
	}
	return nil
}

// SVG writes the chart as a drawing of width by height units, with its summary
// as the drawing's description. Nothing is written when drawing fails.
func (c *Chart) SVG(w io.Writer, width, height int) error {
	sh, err := c.layout(width, height, 1)
	if err != nil {
		return err
	}
	svg, err := vectorise(sh, width, height, c.figure.summary(c.style.Words))
	if err != nil {
		return err
	}
	if _, err := w.Write(svg); err != nil {
		return fmt.Errorf("writing the chart as SVG: %w", err)
	}
	return nil
}

// CSV writes the chart's figures as a table with a header row. Numbers are
// written in full, missing ones as empty cells, times as RFC 3339. Text that a
// spreadsheet would take for a formula is disarmed with an apostrophe.
func (c *Chart) CSV(w io.Writer) error {
	if err := c.figure.tabulate().write(w); err != nil {
		return fmt.Errorf("writing the chart's figures: %w", err)
	}
	return nil
}

// Summary tells what the picture shows in a few plain sentences.
func (c *Chart) Summary() string { return c.figure.summary(c.style.Words) }

func (c *Chart) layout(width, height int, scale float64) (*drawList, error) {
	if width < 1 || height < 1 || width > maxSide || height > maxSide || width*height > maxArea {
		return nil, fmt.Errorf("%w: %d by %d pixels", ErrSize, width, height)
	}
	if math.IsNaN(scale) || scale < minScale || scale > maxScale {
		return nil, fmt.Errorf("%w: scale %v", ErrSize, scale)
	}
	sh := newDrawList(c.style, float64(width)/scale, float64(height)/scale, scale)
	c.figure.draw(sh)
	return sh, nil
}
