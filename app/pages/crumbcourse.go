package pages

import (
	"cmp"
	"context"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// A CrumbMoment is the crumb of one slice, in a row of bakes.
type CrumbMoment struct {
	Photo   journal.ID
	Bake    string // what the bake is called
	At      time.Time
	Summary crumb.Summary
}

// CrumbMoments gives the crumbs that were measured of bakes, the oldest first. Of photos of one
// slice the first stands for all.
func CrumbMoments(ctx context.Context, r journal.Reader, bakes []*journal.Bake) ([]CrumbMoment, error) {
	var out []CrumbMoment
	for _, b := range bakes {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		photos, err := journal.Photos(r, b.ID)
		if err != nil {
			return nil, err
		}
		for _, ph := range photos {
			if ph.Role != journal.RoleCrumb || ph.Slice != nil && ph.Slice.Same != "" {
				continue
			}
			s, ok, err := journal.CrumbMeasures(r, ph)
			if err != nil {
				return nil, err
			}
			if ok && s.Measured(crumb.Porosity).Trust != crumb.Withheld {
				out = append(out, CrumbMoment{Photo: ph.ID, Bake: b.Name, At: b.At, Summary: s})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b CrumbMoment) int { return cmp.Compare(a.At.Unix(), b.At.Unix()) })
	return out, nil
}

// counted tells whether the cells to the cm² are known.
func (m CrumbMoment) counted() bool {
	return !m.Summary.Relative && m.Summary.Measured(crumb.CellDensity).Trust != crumb.Withheld
}

// leastMoments is how many bakes make a course, and leastDays how many days its chart has.
const (
	leastMoments = 2
	leastDays    = 14
)

// crumbCourse draws how open the crumb was, and how many cells it had, from bake to bake, each
// with its uncertainty. What is doubtful, or was taken at another sensitivity, is drawn hollow and
// not joined; cells are counted only where a true length is known.
func crumbCourse(moments []CrumbMoment, style charts.SeriesStyle, u measure.Units, zone *time.Location) charts.Spec {
	open := charts.Panel{Title: lang.L("Open area"), Y: charts.Axis{Format: charts.Words{Locale: u.Locale()}.Percent}}
	cells := charts.Panel{Title: lang.L("Cells per cm²"), Y: charts.Axis{Include: []float64{0}}}
	shares, counts := charts.Series{Look: style, Quiet: true}, charts.Series{Look: style, Quiet: true}
	add := func(s *charts.Series, m CrumbMoment, f crumb.Measurement) {
		note := m.Bake
		doubtful := f.Trust != crumb.Good || m.Summary.Sensitivity != 0
		if doubtful {
			note = joinWords(note, lang.L("doubtful"))
		}
		s.X, s.Y, s.Off = append(s.X, charts.Seconds(m.At)), append(s.Y, f.Value), append(s.Off, f.Off)
		s.LeftOut, s.Notes = append(s.LeftOut, doubtful), append(s.Notes, note)
	}
	for _, m := range moments {
		add(&shares, m, m.Summary.Measured(crumb.Porosity))
		if m.counted() {
			add(&counts, m, m.Summary.Measured(crumb.CellDensity))
		}
	}
	open.Layers, cells.Layers = []charts.Layer{shares}, []charts.Layer{counts}
	// Bakes of a few days stand on an axis of days, not of hours.
	last := moments[len(moments)-1].At
	x := charts.Axis{Zone: zone, Include: []float64{charts.Seconds(last.AddDate(0, 0, -leastDays)), charts.Seconds(last)}}
	plot := charts.Plot{X: x, Panels: []charts.Panel{open}}
	if len(counts.X) >= leastMoments {
		plot.Panels = append(plot.Panels, cells)
	}
	return plot
}

// A CrumbSection is the crumb over the weeks, on the page of what the bakes have in common. It is
// seen once two bakes were measured.
type CrumbSection struct {
	env     *Env
	box     *fyne.Container
	frame   *kit.ChartFrame
	moments []CrumbMoment
	stop    func()
}

// NewCrumbSection makes an empty section.
func NewCrumbSection(env *Env) *CrumbSection {
	s := &CrumbSection{env: env, stop: func() {}}
	s.frame = env.NewChart(lang.L("crumb over the weeks"), fyne.NewSize(look.Space(80), 340), s.open)
	s.box = kit.Stack(2, kit.Section(lang.L("Crumb over the weeks")), s.frame,
		kit.Small(lang.L("The bars are what the true figure lay within in at least nine of ten drawn slices as clear. Two bakes differ beyond that only where their bars are clearly apart; a hollow point is doubtful.")))
	s.box.Hide()
	return s
}

// Object is what is seen.
func (s *CrumbSection) Object() fyne.CanvasObject { return s.box }

// Show reads the crumbs of bakes away from the main goroutine, and draws them.
func (s *CrumbSection) Show(style charts.SeriesStyle, bakes func(journal.Reader) ([]*journal.Bake, error)) {
	s.stop()
	s.stop = Fetch(s.env, func(ctx context.Context) ([]CrumbMoment, error) {
		all, err := bakes(s.env.Journal)
		if err != nil {
			return nil, err
		}
		return CrumbMoments(ctx, s.env.Journal, all)
	}, func(moments []CrumbMoment, err error) {
		if s.env.Failed(err) {
			return
		}
		s.moments = moments
		kit.SetVisible(s.box, len(moments) >= leastMoments)
		if len(moments) >= leastMoments {
			s.frame.SetSpec(crumbCourse(moments, style, s.env.Units(), s.env.Now().Location()))
		}
	})
}

// open goes to the crumb that a mark stands for.
func (s *CrumbSection) open(m charts.Mark) {
	shown := s.moments
	if m.Panel == 1 {
		shown = slices.DeleteFunc(slices.Clone(shown), func(m CrumbMoment) bool { return !m.counted() })
	}
	if m.Index < len(shown) {
		s.env.Go(At(Crumb, shown[m.Index].Photo))
	}
}
