package series

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"image/png"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/app/tables"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
)

// scene is a made-up series in good light.
func scene(frames int) *jartest.Scene {
	return (&jartest.Scene{
		Seed: 5, Frames: frames, Every: 10 * time.Minute, Start: time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC), Peak: 2.1,
		ToPeak: time.Duration(frames) * 6 * time.Minute, Noise: 1.5,
	}).Begin()
}

// begun has a culture that was fed, and a series of it that is to be read.
func begun(t *testing.T, b *pagestest.Bench, s *jartest.Scene) (series, culture journal.ID) {
	t.Helper()
	paths, err := jartest.Folder{Dir: filepath.Join(t.TempDir(), "stack")}.Write(s)
	if err != nil {
		t.Fatal(err)
	}
	files := make([]journal.Picture, len(paths))
	for i, p := range paths {
		files[i] = journal.Picture{Name: filepath.Base(p), Path: p}
	}
	c := &journal.Culture{Name: "Gorse"}
	f := &journal.Feeding{At: s.Start, Kept: 20, Flour: 40, Water: 40}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		f.Culture = c.ID
		return journal.Put(tx, f)
	})
	plan, err := b.Journal.PlanSeries(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	id, err := b.Journal.BeginSeries(plan, false, journal.SeriesJar{Culture: c.ID, Feeding: f.ID})
	if err != nil {
		t.Fatal(err)
	}
	return id, c.ID
}

func show(b *pagestest.Bench, id journal.ID) *seriesPage {
	p := b.Show(Routes()[pages.Series], pages.At(pages.Series, id)).(*seriesPage)
	settle(b, p)
	return p
}

func settle(b *pagestest.Bench, p *seriesPage) {
	b.Wait()
	p.view.Wait()
	p.side.chart.Wait()
	b.Wait()
}

// The jar is found, the curve follows, a height that is drawn holds and can be forgotten,
// and what comes of it are readings of the culture.
func TestARowIsFollowedAndCorrected(t *testing.T) {
	b := pagestest.New(t)
	s := scene(20)
	b.Clock = s.At(19)
	id, culture := begun(t, b, s)
	p := show(b, id)
	if len(b.Failed) > 0 {
		t.Fatal(b.Failed)
	}
	if !p.rec.Reading() || len(p.now.frames) != 20 || !p.rec.Jars[0].Found || !p.asking {
		t.Fatalf("%d pictures, still reading %v, jar %+v", len(p.now.frames), p.rec.Reading(), p.rec.Jars[0])
	}
	// It is drawn as a person would, by lines that are no jar meanwhile, then looked at.
	was, half := p.rec.Jars[0].Marks(), s.Marks()
	half.Top = half.Level + 0.05
	p.lines.dragged(dragged(p, half), true)
	settle(b, p)
	if p.rec.Jars[0].Marks() != was || math.Abs(p.lines.marks.Top-half.Top) > 1e-6 {
		t.Errorf("dragged to %+v the lines are at %+v and kept as %+v", half, p.lines.marks, p.rec.Jars[0].Marks())
	}
	p.lines.dragged(dragged(p, s.Marks()), false)
	p.sync() // the curve has grown meanwhile
	if math.Abs(p.lines.marks.Top-s.Marks().Top) > 1e-6 {
		t.Error("what is being dragged was taken out of the hand")
	}
	p.lines.dragged(dragged(p, s.Marks()), true)
	settle(b, p)
	p.turnLines()
	settle(b, p)
	if stored := p.side.stored; p.rec.Reading() || len(stored) != 3 || stored[1].Name != "IMG_4112.jpg" {
		t.Errorf("still reading %v, originals %v", p.rec.Reading(), stored)
	}
	clock := b.Units().Clock(p.rec.TakenAt(p.side.stored[1]).In(b.Clock.Location()))
	if words := fmt.Sprint(pagestest.All[*kit.Text](p.side.originals.Tiles()[1])); !strings.Contains(words, clock) {
		t.Errorf("beneath the original of %s stands %s", clock, words)
	}
	for i, point := range p.now.curves[0].Points {
		if math.Abs(point.Rise-s.Rise(i)) > 0.03 {
			t.Errorf("picture %d: %.3f, truly %.3f", i, point.Rise, s.Rise(i))
		}
	}
	if got := p.heading(b.Units()); !strings.HasPrefix(got, "2.") {
		t.Errorf("it says %q", got)
	}
	p.goTo(9)
	settle(b, p)
	before := p.now.curves[0].Points[9].Rise
	p.lines.points.OnChanged([]kit.PicturePoint{p.lines.place(0.5, s.Marks().Height(before+0.2))}, true)
	settle(b, p)
	if got := p.now.curves[0].Points[9]; !got.Drawn || math.Abs(got.Rise-before-0.2) > 0.001 {
		t.Errorf("drawn at %.3f it is %+v", before+0.2, got)
	}
	if !strings.Contains(p.told.String(), "as you drew it") {
		t.Errorf("it says %q", p.told.String())
	}
	if _, ok, err := journal.SeriesCurves(b.Journal, p.rec); !ok || err != nil {
		t.Errorf("the corrected curve was not kept: %v", err)
	}
	p.draw(0)
	settle(b, p)
	if got := p.now.curves[0].Points[9]; got.Drawn || math.Abs(got.Rise-before) > 0.001 {
		t.Errorf("forgotten it is %+v, was %.3f", got, before)
	}
	h, err := histories.Of(b.Journal, culture)
	if err != nil {
		t.Fatal(err)
	}
	c, ok := h.Current(b.Now())
	if !ok || len(c.Readings) < 8 || c.Readings[3].SD <= 0 || c.Readings[3].ID != string(id) {
		t.Errorf("the culture has readings %+v", c.Readings)
	}
}

// dragged are the handles of lines that were dragged to where a jar is.
func dragged(p *seriesPage, m jar.Marks) []kit.PicturePoint {
	return []kit.PicturePoint{p.lines.place(0.5, m.Bottom), p.lines.place(0.5, m.Level), p.lines.place(0.5, m.Top), p.lines.place(m.Left, 0.5), p.lines.place(m.Right, 0.5)}
}

// The camera's clock is set by one moment that is known, and all pictures move with it.
func TestTheClockIsSetOnce(t *testing.T) {
	b := pagestest.New(t)
	s := scene(6)
	b.Clock = s.At(5)
	id, _ := begun(t, b, s)
	p := show(b, id)
	p.setFirst(s.Start.Add(-40 * time.Minute))
	settle(b, p)
	if p.rec.Ahead != 40*time.Minute {
		t.Fatalf("ahead by %v", p.rec.Ahead)
	}
	for i, point := range p.now.curves[0].Points {
		if want := s.At(i).Add(-40 * time.Minute); !point.At.Equal(want) {
			t.Errorf("picture %d is of %v, want %v", i, point.At, want)
		}
	}
}

// What is saved: a row for each picture, and a film that is a picture.
func TestWhatIsSaved(t *testing.T) {
	b := pagestest.New(t)
	s := scene(6)
	id, _ := begun(t, b, s)
	p := show(b, id)
	var out bytes.Buffer
	if err := tables.WriteHeights(&out, p.rec, p.names, p.mm, p.now.frames, p.now.curves); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(out.String(), "\uFEFF"))).ReadAll()
	if err != nil || len(rows) != 7 || rows[1][0] != "Gorse" || rows[1][1] != "IMG_4100.jpg" {
		t.Fatalf("%v %v", rows, err)
	}
	out.Reset()
	if err := png.Encode(&out, enlarged(p.now.films[0])); err != nil {
		t.Fatal(err)
	}
	if film := p.now.films[0].Bounds(); film.Dx() != 6*filmWidth || film.Dy() < 100 {
		t.Errorf("the film is %v", film)
	}
	p.save()
	if len(b.Failed) > 0 {
		t.Error(b.Failed)
	}
}

// In the bin it is gone from the page, and can be brought back.
func TestARowGoesToTheBin(t *testing.T) {
	b := pagestest.New(t)
	id, culture := begun(t, b, scene(4))
	p := show(b, id)
	p.bin()
	if rows, err := journal.SeriesOf(b.Journal, culture); err != nil || len(rows) != 0 {
		t.Errorf("%d rows, %v", len(rows), err)
	}
	if len(b.Went) != 1 || b.Went[0].Name != pages.Feeding {
		t.Errorf("it went to %v", b.Went)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if rows, err := journal.SeriesOf(b.Journal, culture); err != nil || len(rows) != 1 {
		t.Errorf("brought back: %d rows, %v", len(rows), err)
	}
}
