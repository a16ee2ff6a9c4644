package journal

import (
	"context"
	"fmt"
	"image"
	"slices"
	"time"

	"twinloaf/journal/jar"
	"twinloaf/journal/store"
)

// seriesPrefix is before the series' ID in the keys of its curves.
const seriesPrefix = "series/"

// OneLook is how long the pictures of a row count as one look: neighbours err alike.
const OneLook = 20 * time.Minute

// A SeriesCurve is the height in one jar of a series, worked out from its pictures.
type SeriesCurve struct {
	Points []SeriesPoint `json:"points"`
}

// A SeriesPoint is the height in one picture.
type SeriesPoint struct {
	Photo ID        `json:"photo"`
	At    time.Time `json:"at"`
	Rise  float64   `json:"rise,omitzero"`
	SD    float64   `json:"sd,omitzero"`
	Lost  jar.Loss  `json:"lost,omitzero"`
	Drawn bool      `json:"drawn,omitzero"`
	Move  jar.Move  `json:"move"`
}

// Curve gives the points as journal/jar has them.
func (c SeriesCurve) Curve() jar.Curve {
	var out jar.Curve
	for _, p := range c.Points {
		out.Points = append(out.Points, jar.Point{At: p.At, Rise: p.Rise, SD: p.SD, Lost: p.Lost, Fixed: p.Drawn})
		out.Moves = append(out.Moves, p.Move)
	}
	return out
}

// seriesBasis is what the curves of a series rest on: where the jars are, what was drawn,
// the camera's clock, and which pictures there are.
func seriesBasis(st *store.Tx, s *Series) (string, error) {
	type basis struct {
		Ahead time.Duration
		Marks []jar.Marks
		Drawn [][]DrawnRise
		Of    []ID
	}
	b := basis{Ahead: s.Ahead, Of: st.Linked(s.ID, KindPhoto)}
	for _, j := range s.Jars {
		b.Marks, b.Drawn = append(b.Marks, j.Marks()), append(b.Drawn, j.Drawn)
	}
	slices.Sort(b.Of)
	return fingerprint(b)
}

// SeriesCurves gives the curves that were worked out of a series, one for each of its
// jars; false when there are none, or by another version of the method, or of other
// pictures, lines or drawn heights than it has now.
func SeriesCurves(r Reader, s *Series) (curves []SeriesCurve, ok bool, err error) {
	err = r.view(func(st *store.Tx) error {
		d, found := readDerived[[]SeriesCurve](st, seriesPrefix+string(s.ID))
		if !found || d.Method != jar.MethodVersion || len(d.Value) != len(s.Jars) {
			return nil
		}
		basis, err := seriesBasis(st, s)
		if err != nil || basis != d.Basis {
			return err
		}
		curves, ok = d.Value, true
		return nil
	})
	return curves, ok, err
}

// KeepSeriesCurves keeps the curves of a series, which is the series as it was when they
// were worked out, of the pictures that frames names. When it has changed since, or has
// other pictures by now, nothing is kept. It is no step of the history.
func (j *Journal) KeepSeriesCurves(s *Series, frames []*Photo, curves []SeriesCurve) (kept bool, err error) {
	err = j.DoWithoutUndo("keeping the curve of a row of pictures", func(t *Tx) error {
		now, err := Get[Series](t, s.ID)
		if err != nil {
			return err
		}
		then, err := seriesBasis(t.st, s)
		if err != nil {
			return err
		}
		basis, err := seriesBasis(t.st, now)
		if err != nil || basis != then {
			return err
		}
		there, err := Frames(t, now)
		if err != nil || !slices.EqualFunc(there, frames, func(a, b *Photo) bool { return a.ID == b.ID }) {
			return err
		}
		kept = true
		fresh := derived[[]SeriesCurve]{Method: jar.MethodVersion, Basis: basis, Value: curves}
		if old, ok := readDerived[[]SeriesCurve](t.st, seriesPrefix+string(s.ID)); ok && sameFigures(old, fresh) {
			return nil
		}
		t.secret, t.derived = true, append(t.derived, RefOf(s)) // there is no record among what changed
		return keepDerived(t.st, seriesPrefix+string(s.ID), fresh)
	})
	return kept && err == nil, err
}

// FollowSeries works out the curves of a series from its pictures, as far as they were
// read and its jars are marked, and keeps them. It takes its time.
func (j *Journal) FollowSeries(ctx context.Context, id ID) ([]SeriesCurve, error) {
	s, err := Get[Series](j, id)
	if err != nil {
		return nil, err
	}
	frames, err := Frames(j, s)
	if err != nil {
		return nil, err
	}
	jobs := make([]jar.Job, len(s.Jars))
	for k, one := range s.Jars {
		jobs[k] = jar.Job{Marks: one.Marks(), Fixed: one.fixed(frames)}
	}
	at := make([]time.Time, len(frames))
	for i, p := range frames {
		at[i] = s.TakenAt(p)
	}
	load := func(ctx context.Context, i int) (*image.RGBA, error) { return j.FullSize(ctx, frames[i].Hash, 0) }
	curves, err := jar.Follow(ctx, at, load, jobs)
	if err != nil {
		return nil, fmt.Errorf("following the row of pictures %q: %w", s.Name, err)
	}
	out := make([]SeriesCurve, len(curves))
	for k, c := range curves {
		out[k] = CurveOf(c, frames)
	}
	_, err = j.KeepSeriesCurves(s, frames, out)
	return out, err
}

// CatchUpSeries works out the curves of a series of which none are kept that are good for
// it now, as of one that came with an archive. It says whether there were any to work out.
func (j *Journal) CatchUpSeries(ctx context.Context, s *Series) (bool, error) {
	if _, ok, err := SeriesCurves(j, s); ok || err != nil {
		return false, err
	}
	if slices.ContainsFunc(s.Jars, func(one SeriesJar) bool { return !one.Marked() }) {
		return false, nil
	}
	if frames, err := Frames(j, s); err != nil || len(frames) == 0 {
		return false, err
	}
	_, err := j.FollowSeries(ctx, s.ID)
	return err == nil, err
}

// CurveOf names the pictures of a curve.
func CurveOf(c jar.Curve, frames []*Photo) SeriesCurve {
	out := SeriesCurve{Points: make([]SeriesPoint, len(c.Points))}
	for i, p := range c.Points {
		out.Points[i] = SeriesPoint{Photo: frames[i].ID, At: p.At, Rise: p.Rise, SD: p.SD, Lost: p.Lost, Drawn: p.Fixed, Move: c.Moves[i]}
	}
	return out
}

// fixed gives the drawn heights by the places of their pictures.
func (s SeriesJar) fixed(frames []*Photo) map[int]float64 {
	out := map[int]float64{}
	for _, d := range s.Drawn {
		if i := slices.IndexFunc(frames, func(p *Photo) bool { return p.ID == d.Photo }); i >= 0 {
			out[i] = d.Rise
		}
	}
	return out
}
