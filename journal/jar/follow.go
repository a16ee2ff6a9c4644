package jar

import (
	"context"
	"fmt"
	"image"
	"runtime"
	"strconv"
	"time"

	"golang.org/x/sync/errgroup"
)

// A Job is one jar in a series of pictures.
type Job struct {
	Marks Marks
	// Fixed are rises drawn by hand, by picture.
	Fixed map[int]float64
}

// Load gives one picture of a series, upright and all of one size. It may be called
// from several goroutines at once; each picture is asked for once, in no certain order
// but for the first.
type Load func(ctx context.Context, i int) (*image.RGBA, error)

// Follow reads a series of pictures taken at the times at, which grow, and gives a
// curve for each jar in them. No more pictures are in memory than work goes on at once, which
// is on as many as there are processors. It is cancelled by its context; a picture that cannot
// be loaded ends it with its error.
func Follow(ctx context.Context, at []time.Time, load Load, jobs []Job) ([]Curve, error) {
	if len(at) == 0 {
		return nil, fmt.Errorf("%w: there is no picture", ErrSeries)
	}
	first, err := load(ctx, 0)
	if err != nil {
		return nil, fmt.Errorf("reading the first picture: %w", err)
	}
	marks := make([]Marks, len(jobs))
	for k, job := range jobs {
		marks[k] = job.Marks
	}
	for i := 1; i < len(at); i++ {
		if !at[i].After(at[i-1]) {
			return nil, fmt.Errorf("%w: picture %d is not later than the one before", ErrSeries, i+1)
		}
	}
	row, err := NewRow("1", at[0], first, marks)
	if err != nil {
		return nil, err
	}
	first = nil
	group, within := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := 1; i < len(at); i++ {
		group.Go(func() error {
			if err := context.Cause(within); err != nil {
				return err
			}
			img, err := load(within, i)
			if err != nil {
				return fmt.Errorf("reading picture %d: %w", i+1, err)
			}
			return row.Look(strconv.Itoa(i+1), at[i], img)
		})
	}
	if err := group.Wait(); err != nil {
		return nil, err
	}
	curves := make([]Curve, len(jobs))
	for k, job := range jobs {
		fixed := map[string]float64{}
		for i, rise := range job.Fixed {
			fixed[strconv.Itoa(i+1)] = rise
		}
		if curves[k], _, err = row.Curve(ctx, k, fixed); err != nil {
			return nil, fmt.Errorf("jar %d: %w", k+1, err)
		}
	}
	return curves, nil
}
