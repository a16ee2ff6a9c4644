package crumb

import (
	"context"
	"fmt"
	"math"

	"twinloaf/journal/say"
)

// Lengths of the method.
const (
	speckMM = 0.33 // components narrower than this are no cells
	holeMM  = 0.8  // bright islands narrower than this are glints
	reachMM = 0.4  // an edge is redrawn by no more than this
	thinMM  = 0.45 // what lies along the crumb's edge and is thinner is a rest of the crust
)

// maxCells bounds time and memory on pictures that are no crumb at all: of
// more, only the larger ones are kept. The finest crumb has a few thousand.
const maxCells = 100_000

// Measure finds and measures the cells. sensitivity runs from -1, where only
// what is clearly a cell counts, to 1, where every hollow does; 0 draws the line
// half-way between wall and cell. It returns an error that wraps ErrSetting, or
// ctx's error. A Prepared without a slice gives a Result that withholds everything.
func (f *Prepared) Measure(ctx context.Context, sensitivity float64) (*Result, error) {
	if !(sensitivity >= -1 && sensitivity <= 1) {
		return nil, fmt.Errorf("measuring at a sensitivity of %g: %w", sensitivity, ErrSetting)
	}
	r := &Result{w: f.w, h: f.h, frame: f.frame, crumb: f.crumb, rgb: f.rgb}
	r.Summary = Summary{Method: MethodVersion, Sensitivity: sensitivity, Relative: f.relative, LargeFrom: f.largeMM,
		Outline: f.outline, FoundByItself: f.found, Chosen: f.chosen, Straightened: f.frame.flat != nil, PxPerMM: f.frame.pxPerMM * f.frame.step, WorkPxPerMM: f.frame.pxPerMM}
	if !f.missing.IsZero() {
		r.Flags = []Flag{{Kind: NotFound, Severity: Withheld,
			Reason: say.Of("No slice was found: {{.Why}}.").Text, Why: f.missing.Text}}
		r.withhold()
		return r, nil
	}
	p, err := f.segment(ctx, sensitivity)
	if err != nil {
		return nil, err
	}
	f.progress(say.Of("Measuring the cells"), 0.9)
	r.labels, r.Contrast, r.Corrected = p.labels, p.grain, p.corrected
	f.report(r, p)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("measuring the cells: %w", err)
	}
	f.progress(say.Of("Done"), 1)
	return r, nil
}

// A partition is the crumb cut up into cells, with what the flags need.
type partition struct {
	labels  []int32
	regions []region
	edge    edgeBlur
	grain   float64 // contrast over grain
	fill    float64 // how well the cells fill their ellipses
	lean    float64 // how much the floors of the cells slope to one side
	few     float64 // how much hangs on few cells: see fewness
	whole   int     // cells that no edge cuts
	chord   float64 // mean thickness of the walls, mm; 0 when there is none
	blur    float64 // of the softest direction, mm
	sway    map[MeasureID]float64
	seen    clarity

	corrected int // corrections that changed anything
}

func (f *Prepared) segment(ctx context.Context, sensitivity float64) (*partition, error) {
	f.progress(say.Of("Finding the cells"), 0.55)
	p := &partition{}
	shift := 0.25 * sensitivity
	wall, cell := f.levels.wall, f.levels.cell
	threshold := uint16(cell + (0.5+shift)*(wall-cell))
	mask := make([]bool, len(f.rel))
	bands(f.h, func(from, to int) {
		for i := from * f.w; i < to*f.w; i++ {
			mask[i] = f.crumb[i] && f.rel[i] < threshold
		}
	})
	disc := func(mm float64) int { return int(math.Ceil(math.Pi / 4 * math.Pow(mm*f.frame.pxPerMM, 2))) }
	removeSpecks(mask, f.w, f.h, disc(speckMM)/2+1)
	fillHoles(mask, f.w, f.h, disc(holeMM))
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("finding the cells: %w", err)
	}
	f.progress(say.Of("Splitting touching cells"), 0.65)
	d2 := distanceWithin(mask, f.w, f.h, mostReach)
	var n int
	p.labels, n = watershed(d2, f.w, f.h)
	floors := cellFloors(p.labels, n, f.rel, d2)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("splitting touching cells: %w", err)
	}
	f.progress(say.Of("Redrawing the edges"), 0.8)
	p.edge = sharpestEdge(p.labels, f.rel, wall, f.w, f.h)
	p.blur = p.edge.worst / f.frame.pxPerMM
	p.grain = contrastOverGrain(p.labels, f.rel, f.crumb, wall, cell)
	edges := cellLevels(p.labels, n, f.rel, floors, wall, shift, p.edge.all, f.w, f.h)
	refineEdges(p.labels, edges, f.rel, f.crumb, f.w, f.h, max(1, int(math.Round(reachMM*f.frame.pxPerMM))))
	n = dropSmall(p.labels, n, disc(speckMM))
	for least := 4; n > maxCells; least *= 2 {
		n = dropSmall(p.labels, n, least)
	}
	p.regions = dropThin(p.labels, measureRegions(p.labels, n, f.w, f.h, f.rgb, f.crumb), thinMM*f.frame.pxPerMM)
	if len(f.corrections) > 0 {
		n, p.corrected = f.correct(p.labels, len(p.regions), f.corrections)
		n = dropSmall(p.labels, n, disc(speckMM))
		p.regions = measureRegions(p.labels, n, f.w, f.h, f.rgb, f.crumb)
	}
	p.fill = ellipseFill(p.regions)
	p.few = fewness(p.regions)
	for _, g := range p.regions {
		p.whole += b2i(!g.AtEdge)
	}
	p.seen = clarityOf(p.grain, p.fill)
	if p.seen <= grainy {
		p.lean = f.leanOf(p.labels, p.regions)
	}
	return p, ctx.Err()
}

// dropThin removes the cells that the crumb's edge cuts off and that are thinner than
// thin, and gives those that are left. Where the crust shades into a pale crumb it leaves dozens of such
// strips, and hardly a cell is cut off so near its rim.
func dropThin(labels []int32, regions []region, thin float64) []region {
	to := make([]int32, len(regions)+1)
	kept := make([]region, 0, len(regions))
	for i, g := range regions {
		if !g.AtEdge || g.Minor >= thin {
			kept = append(kept, g)
			to[i+1] = int32(len(kept))
		}
	}
	if len(kept) < len(regions) {
		for i, l := range labels {
			labels[i] = to[l]
		}
	}
	return kept
}

// dropSmall removes labels with fewer than least pixels and numbers the rest
// from 1 in order.
func dropSmall(labels []int32, n, least int) int {
	px := make([]int, n+1)
	for _, l := range labels {
		px[l]++
	}
	to := make([]int32, n+1)
	kept := int32(0)
	for l := 1; l <= n; l++ {
		if px[l] >= least {
			kept++
			to[l] = kept
		}
	}
	for i, l := range labels {
		labels[i] = to[l]
	}
	return int(kept)
}
