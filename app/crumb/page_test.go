package crumb

import (
	"bytes"
	"encoding/csv"
	"image/color"
	"image/png"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
	"twinloaf/journal/say"
	"twinloaf/journal/shelf"
)

func lightPalette() look.Palette { return look.Light() }

// bread is a small drawn slice, 6 pixels to the mm.
func bread(change func(*phantom.Slice)) phantom.Slice {
	s := phantom.Slice{Seed: 3, Width: 352, Height: 300, SliceMM: 48, Shape: phantom.Pan, Ground: phantom.Slate, Cells: phantom.Cells{MedianMM: 2, Porosity: 0.3}}
	if change != nil {
		change(&s)
	}
	return s
}

// wider is nearly twice as wide.
func wider(s *phantom.Slice) { s.Width, s.Height, s.SliceMM = 660, 560, 90 }

// drawn are the slices that were drawn so far: many tests look at the same one.
var drawn = map[phantom.Slice]*phantom.Picture{}

// addPhoto draws a slice and puts it into the journal as a crumb photo of a new
// bake.
func addPhoto(t *testing.T, b *pagestest.Bench, s phantom.Slice) (journal.ID, *phantom.Picture) {
	t.Helper()
	pic := drawn[s]
	if pic == nil {
		var err error
		if pic, err = phantom.Draw(t.Context(), s); err != nil {
			t.Fatal(err)
		}
		drawn[s] = pic
	}
	var buf bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.NoCompression}).Encode(&buf, pic.Photo); err != nil {
		t.Fatal(err)
	}
	bake := &journal.Bake{Name: "Ferry loaf", At: b.Clock, State: journal.Finished}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	ids, refused, err := b.Journal.AddPictures(t.Context(), "photo", journal.Ref{Kind: journal.KindBake, ID: bake.ID}, journal.RoleCrumb,
		[]journal.Picture{{Name: "slice.png", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(buf.Bytes())), nil }}}, nil)
	if err != nil || len(ids) != 1 {
		t.Fatal(err, refused)
	}
	return ids[0], pic
}

// open shows the page of a photo once it is measured.
func open(t *testing.T, b *pagestest.Bench, id journal.ID) *measurePage {
	t.Helper()
	p := b.Show(Routes()[pages.Crumb], pages.At(pages.Crumb, id)).(*measurePage)
	settle(b, p)
	return p
}

// settle waits until everything that was asked for has come.
func settle(b *pagestest.Bench, p *measurePage) {
	b.Loop.Settle(b.Wait, p.picture.view.Wait, p.figures.chart.Wait)
}

func photoOf(t *testing.T, b *pagestest.Bench, id journal.ID) *journal.Photo {
	t.Helper()
	ph, err := journal.Get[journal.Photo](b.Journal, id)
	if err != nil {
		t.Fatal(err)
	}
	return ph
}

func TestTheSliceIsFoundAndMeasured(t *testing.T) {
	b := pagestest.New(t)
	id, pic := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	if len(p.picture.outline.Points()) < 6 {
		t.Errorf("an outline of %d corners is shown", len(p.picture.outline.Points()))
	}
	if got := p.summary.Measured(crumb.Porosity).Value; math.Abs(got-pic.Truth.Porosity) > 0.05 {
		t.Errorf("open share %v, drawn with %v", got, pic.Truth.Porosity)
	}
	if !p.summary.Relative || !strings.Contains(p.figures.taken.String(), "no true length") {
		t.Errorf("without a length: %q", p.figures.taken.String())
	}
	if got := p.figures.rows[crumb.Porosity].String(); !regexp.MustCompile(`^[1-9][0-9](\.[0-9])? .*%$`).MatchString(got) {
		t.Errorf("the open share reads %q", got)
	}
	if p.picture.cells.pic.Image == nil || !p.picture.cells.pic.Visible() || !p.picture.cells.ring.Visible() {
		t.Error("the cells, or the ring round the largest, are not shown")
	}
	b.Press("C")
	if p.picture.cells.pic.Visible() {
		t.Error("C does not hide the cells")
	}
	b.Press("L")
	if len(p.picture.outline.Points()) != 0 {
		t.Error("L does not hide the outline")
	}
	if s, ok, err := journal.CrumbMeasures(b.Journal, photoOf(t, b, id)); err != nil || !ok || s.Measured(crumb.Porosity) != p.summary.Measured(crumb.Porosity) {
		t.Errorf("what was measured is not kept: %v %v", ok, err)
	}
	if photoOf(t, b, id).Slice != nil {
		t.Error("finding the slice by itself wrote into the record")
	}
}

func TestDraggingTheOutline(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	before := p.picture.outline.Points()
	face := p.summary.FaceArea
	handle := p.picture.outline.Handle(0).(fyne.Draggable)
	handle.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(30, 40)})
	handle.DragEnd()
	settle(b, p)
	s := photoOf(t, b, id).Slice
	if s == nil || !s.Drawn || len(s.Outline) != len(before) || math.Abs(s.Outline[0].X-before[0].X) < 5 {
		t.Fatalf("the outline in the journal is %+v", s)
	}
	if p.summary.FoundByItself || p.summary.FaceArea == face {
		t.Error("it was not measured again within the new outline")
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	settle(b, p)
	if !p.summary.FoundByItself || p.summary.FaceArea != face {
		t.Error("after undo the slice is not the one that was found")
	}
}

// drag draws on the picture from one place to the others, in its own pixels.
func drag(p *measurePage, path ...crumb.Point) {
	at := func(q crumb.Point) fyne.Position {
		x0, y0 := p.picture.view.PictureAt(fyne.NewPos(0, 0))
		x1, _ := p.picture.view.PictureAt(fyne.NewPos(100, 0))
		k := 100 / (x1 - x0)
		return fyne.NewPos(float32((q.X-x0)*k), float32((q.Y-y0)*k))
	}
	for i := 1; i < len(path); i++ {
		from, to := at(path[i-1]), at(path[i])
		p.picture.pad.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(to.X-from.X, to.Y-from.Y)})
	}
	p.picture.pad.DragEnd()
}

func TestDrawingABox(t *testing.T) {
	b := pagestest.New(t)
	id, pic := addPhoto(t, b, bread(func(s *phantom.Slice) { s.Fill = 1.6 })) // it fills the picture: nothing to find
	p := open(t, b, id)
	if got := p.page; got == nil || p.heading(p.summaryShown()) != "The slice was not found: draw its outline" {
		t.Fatalf("heading %q", p.heading(p.summaryShown()))
	}
	for _, r := range p.figures.shown {
		if r.value != nothing || r.mark != "withheld" {
			t.Errorf("%s reads %q, %q", r.id, r.value, r.mark)
		}
	}
	b.Press("B")
	drag(p, crumb.Point{X: 240, Y: 216}, crumb.Point{X: 160, Y: 160}, crumb.Point{X: 80, Y: 80})
	settle(b, p)
	s := photoOf(t, b, id).Slice
	if s == nil || len(s.Outline) != 4 || !s.CrumbOnly || math.Abs(s.Outline[0].X-80) > 1 || math.Abs(s.Outline[2].Y-216) > 1 {
		t.Fatalf("the box in the journal is %+v", s)
	}
	if f := p.summary.Measured(crumb.Porosity); f.Trust == crumb.Withheld || math.Abs(f.Value-pic.Truth.Porosity) > 0.08 {
		t.Errorf("open share %+v, drawn with %v", f, pic.Truth.Porosity)
	}
	if p.picture.pad.busy() || p.picture.pad.Visible() {
		t.Error("the tool is still in hand")
	}
	b.Press("F")
	settle(b, p)
	if s := photoOf(t, b, id).Slice; len(s.Outline) != 0 || s.CrumbOnly || s.Drawn {
		t.Errorf("after finding by itself: %+v", s)
	}
}

func TestDrawingAnOutline(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	b.Press("O")
	var round []crumb.Point
	for i := range 60 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 60)
		round = append(round, crumb.Point{X: 176 + 80*c, Y: 150 + 64*s})
	}
	drag(p, round...)
	settle(b, p)
	s := photoOf(t, b, id).Slice
	if s == nil || !s.Drawn || s.CrumbOnly || len(s.Outline) < 8 || len(s.Outline) > 40 {
		t.Fatalf("a stroke gives %+v", s)
	}
	// Corner after corner, closed with Enter; one is taken back.
	b.Press("O")
	tap := func(x, y float32) { p.picture.pad.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x, y)}) }
	tap(200, 150)
	tap(400, 150)
	tap(600, 600)
	b.Press("Backspace")
	tap(400, 350)
	tap(200, 350)
	b.Press("Enter")
	settle(b, p)
	if s := photoOf(t, b, id).Slice; len(s.Outline) != 4 {
		t.Errorf("four corners give %d", len(s.Outline))
	}
	// A slip of the hand draws nothing; Esc puts the tool down before it goes back.
	kept := photoOf(t, b, id).Slice.Outline
	b.Press("O")
	drag(p, crumb.Point{X: 100, Y: 100}, crumb.Point{X: 101, Y: 101})
	b.Press("Esc")
	if b.Backs != 0 || p.picture.pad.busy() || len(photoOf(t, b, id).Slice.Outline) != len(kept) {
		t.Error("a slip of the hand changed the outline, or Esc went back")
	}
	b.Press("Esc")
	if b.Backs != 1 {
		t.Error("Esc does not go back")
	}
}

func TestATrueLength(t *testing.T) {
	b := pagestest.New(t)
	id, pic := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	b.Press("R")
	drag(p, crumb.Point{X: 56, Y: 264}, crumb.Point{X: 160, Y: 264}, crumb.Point{X: 216, Y: 264})
	p.setLength(160 / pic.Truth.PxPerMM)
	settle(b, p)
	if p.summary.Relative || math.Abs(p.summary.PxPerMM/pic.Truth.PxPerMM-1) > 0.01 {
		t.Errorf("%v pixels to the mm, drawn with %v", p.summary.PxPerMM, pic.Truth.PxPerMM)
	}
	if got := p.figures.rows[crumb.MeanDiameter].String(); !strings.Contains(got, "mm") {
		t.Errorf("the mean diameter reads %q", got)
	}
	if p.setting.of.Chosen() != 1 || len(p.picture.length.Points()) != 2 {
		t.Error("the line is not shown as what the length is of")
	}
	p.setScaleFrom(fromWidth) // of the slice's width instead
	p.setLength(pic.Truth.SliceWidthMM)
	settle(b, p)
	if p.summary.Relative || math.Abs(p.summary.PxPerMM/pic.Truth.PxPerMM-1) > 0.04 {
		t.Errorf("by the width %v pixels to the mm, drawn with %v", p.summary.PxPerMM, pic.Truth.PxPerMM)
	}
	p.setLength(0.01)
	settle(b, p)
	if p.summary != nil || !strings.Contains(p.heading(crumb.Summary{}), "narrower than 3 mm") {
		t.Errorf("an impossible length: %q", p.heading(p.summaryShown()))
	}
	p.setLength(0)
	settle(b, p)
	if p.summary == nil || !p.summary.Relative {
		t.Error("without a length the figures are not relative again")
	}
}

func TestNudging(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	before := *p.summary
	b.Press("+")
	settle(b, p)
	b.Press("+")
	settle(b, p)
	if p.summary.Sensitivity != 0.2 || p.summary.Measured(crumb.Porosity).Value <= before.Measured(crumb.Porosity).Value {
		t.Errorf("at %v the open share is %v, before %v", p.summary.Sensitivity, p.summary.Measured(crumb.Porosity).Value, before.Measured(crumb.Porosity).Value)
	}
	if got := p.setting.effect.String(); !strings.HasPrefix(got, "At +0.2 rather than +0.1: open area ") || !strings.Contains(got, " %") {
		t.Errorf("it says %q", got)
	}
	if !strings.Contains(p.figures.taken.String(), "Sensitivity +0.2") {
		t.Errorf("the figures say %q", p.figures.taken.String())
	}
	if summaries, err := b.Journal.BakeSummaries(); err != nil || crumbMetrics(summaries[0]) != nil {
		t.Errorf("nudged figures are on the shelf: %v, %v", crumbMetrics(summaries[0]), err)
	}
	b.Press("-")
	b.Press("-")
	settle(b, p)
	summaries, err := b.Journal.BakeSummaries()
	if err != nil || p.summary.Sensitivity != 0 || summaries[0].Metric(shelf.CrumbOf("porosity")) != before.Measured(crumb.Porosity).Value {
		t.Errorf("back at 0 the shelf has %v, %v", crumbMetrics(summaries[0]), err)
	}
	p.setLarge(3)
	settle(b, p)
	if p.summary.LargeFrom != 3 || p.summary.Measured(crumb.LargeShare).Value <= before.Measured(crumb.LargeShare).Value {
		t.Errorf("share in cells from 3: %v, from 5: %v", p.summary.Measured(crumb.LargeShare), before.Measured(crumb.LargeShare))
	}
}

// While figures stand there it is said that it is being measured again, and else which stage it is at.
func TestItSaysThatItMeasuresAgain(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	p.tell(say.Of("Finding the slice"), 0.4)
	if got := p.busy.String(); got != "Measuring again, 40 %" {
		t.Errorf("with figures it says %q", got)
	}
	p.summary = nil
	p.tell(say.Of("Finding the slice"), 0.4)
	if got := p.busy.String(); got != "Finding the slice, 40 %" {
		t.Errorf("without figures it says %q", got)
	}
}

func TestAPoorPhotoIsWithheld(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(func(s *phantom.Slice) { s.Light.Gain = 0.1 }))
	p := open(t, b, id)
	if got := p.heading(*p.summary); got != "This photo cannot be measured" && got != "The slice was not found: draw its outline" {
		t.Errorf("heading %q", got)
	}
	if got := p.figures.rows[crumb.Porosity].String(); !strings.HasPrefix(got, nothing) {
		t.Errorf("a withheld open share reads %q", got)
	}
	if len(p.figures.faults.Objects) == 0 || !p.figures.faults.Visible() {
		t.Error("no reason is given")
	}
	if summaries, err := b.Journal.BakeSummaries(); err != nil || crumbMetrics(summaries[0]) != nil {
		t.Errorf("the shelf has %v of it, %v", crumbMetrics(summaries[0]), err)
	}
}

func TestWhatIsSaved(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	all := savings("loaf", p.picture.result, p.picture.full)
	if len(all) != 3 {
		t.Fatalf("%d things to save", len(all))
	}
	table := func(i int) [][]string {
		var buf bytes.Buffer
		if err := all[i].Write(&buf); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&buf).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", all[i].Name, err)
		}
		return rows
	}
	if rows := table(0); len(rows) != 1+len(crumb.Definitions()) {
		t.Errorf("%d rows of figures", len(rows))
	}
	if rows := table(1); len(rows) != 1+p.summary.Counted {
		t.Errorf("%d rows of %d cells", len(rows), p.summary.Counted)
	}
	var buf bytes.Buffer
	if err := all[2].Write(&buf); err != nil {
		t.Fatal(err)
	}
	mask, err := png.Decode(&buf)
	if err != nil {
		t.Fatal(err)
	}
	if mask.Bounds().Size() != p.picture.full {
		t.Errorf("the mask is %v, the photo %v", mask.Bounds(), p.picture.full)
	}
	cells, crumbs := 0, 0
	for y := range mask.Bounds().Dy() {
		for x := range mask.Bounds().Dx() {
			switch mask.At(x, y).(color.Gray).Y {
			case 255:
				cells++
				crumbs++
			case 96:
				crumbs++
			}
		}
	}
	if got, want := float64(cells)/float64(crumbs), p.summary.Measured(crumb.Porosity).Value; math.Abs(got-want) > 1e-9 {
		t.Errorf("the mask is %v open, the figure says %v", got, want)
	}
	b.Press("X")
	if b.Window.Canvas().Overlays().Top() == nil {
		t.Error("X asks nothing")
	}
}

// What was measured before is shown at once; X pressed then waits for the cells.
func TestSavingWaitsForTheCells(t *testing.T) {
	b := pagestest.New(t)
	id, _ := addPhoto(t, b, bread(nil))
	p := open(t, b, id)
	shown := outcome{photo: p.asked, result: p.picture.result, cells: flatten(p.picture.result.Overlay(inks()))}
	p.picture.setResult(nil, nil)
	p.export()
	if b.Window.Canvas().Overlays().Top() != nil || !p.saveNext {
		t.Fatal("X asks before there are cells")
	}
	p.show(shown)
	if b.Window.Canvas().Overlays().Top() == nil || p.saveNext {
		t.Error("X is forgotten")
	}
}

func TestTheListMeasuresAll(t *testing.T) {
	b := pagestest.New(t)
	empty := b.Show(Routes()[pages.Crumb], pages.Route{Name: pages.Crumb}).(*listPage)
	b.Wait()
	if listHeading(empty.all) != "No crumb photo yet" || !empty.bare.Visible() {
		t.Error("an empty list does not invite")
	}
	addPhoto(t, b, bread(nil))
	addPhoto(t, b, bread(func(s *phantom.Slice) { s.Seed, s.Fill = 4, 1.6 }))
	p := b.Show(Routes()[pages.Crumb], pages.Route{Name: pages.Crumb}).(*listPage)
	b.Wait()
	if counts(p.all) != [3]int{2, 0, 0} || p.bare.Visible() {
		t.Fatalf("%v", counts(p.all))
	}
	b.Press("M")
	b.Wait()
	if counts(p.all) != [3]int{0, 1, 1} || p.stop != nil || p.busy.Visible() {
		t.Errorf("after measuring all: %v", counts(p.all))
	}
	if len(b.Failed) > 0 || len(b.Said) != 1 {
		t.Errorf("said %q, failed %v", b.Said, b.Failed)
	}
	p.grid.OnOpen(0)
	if len(b.Went) != 1 || b.Went[0].Name != pages.Crumb || b.Went[0].ID != p.shown[0].photo.ID {
		t.Errorf("went to %v", b.Went)
	}
}

func TestComparingTwo(t *testing.T) {
	b := pagestest.New(t)
	scaled := func(s phantom.Slice) journal.ID {
		id, pic := addPhoto(t, b, s)
		b.Put(func(tx *journal.Tx) error {
			return journal.Change(tx, id, func(ph *journal.Photo) { ph.Slice = &journal.Slice{LengthMM: pic.Truth.SliceWidthMM} })
		})
		b.Clock = b.Clock.Add(1e9)
		return id
	}
	fine := scaled(bread(nil))
	openCrumb := scaled(bread(func(s *phantom.Slice) { s.Seed, s.Cells.Porosity, s.Cells.MedianMM = 9, 0.45, 3 }))
	p := b.Show(Routes()[pages.Crumb], pages.Route{Name: pages.Crumb, ID: fine, More: string(openCrumb)}).(*pairPage)
	still := func() { b.Loop.Settle(b.Wait, p.sides[0].view.Wait, p.sides[1].view.Wait, p.chart.Wait) }
	still()
	if len(p.rows) != len(crumb.Definitions()) || p.rows[0].verdict != "larger than the uncertainty" || !p.rows[0].stands {
		t.Fatalf("without retakes %+v", p.rows[0])
	}
	if r := p.rows[slices.IndexFunc(p.rows, func(r pairRow) bool { return r.name == "Elongation" })]; r.verdict != "cannot tell" || r.stands {
		t.Errorf("without retakes %+v", r)
	}
	if got := pairHeading(p.rows, *p.sides[0].summary, *p.sides[1].summary, 0); !strings.HasSuffix(got, "figures differ beyond their uncertainty") {
		t.Errorf("without retakes the heading is %q", got)
	}
	if !strings.HasPrefix(p.rows[0].change, "+") || p.rows[0].unit != "%" {
		t.Errorf("the open share differs by %q", p.rows[0].change)
	}
	// Two photos of the slice in the same light, with other noise.
	noises := race.Few([]float64{2, 3}, 1)
	for _, noise := range noises { // the page has them measured
		if !tieSame(b.Env, fine, scaled(bread(func(s *phantom.Slice) { s.Light.Noise = noise }))) {
			t.Fatal(b.Failed)
		}
		// Until that is done nothing is said of the differences.
		for tries := 0; p.judged && tries < 10000; tries++ {
			time.Sleep(time.Millisecond)
			b.Env.Main(func() {})
		}
		if p.judged || p.heading() != "Comparing" || p.by.String() != "" || slices.ContainsFunc(p.rows, func(r pairRow) bool { return r.verdict != "" || r.stands }) {
			t.Errorf("while retakes are measured: %q, %q, %+v", p.heading(), p.by.String(), p.rows[0])
		}
	}
	still()
	if len(p.retakes) != 1 || len(p.retakes[0]) != 1+len(noises) {
		t.Fatalf("%d groups of retakes", len(p.retakes))
	}
	if !p.rows[0].stands || p.rows[0].verdict != "larger than retaking would give" {
		t.Errorf("with retakes %+v", p.rows[0])
	}
	if p.same {
		t.Error("two slices are taken for one")
	}
	b.Press("A")
	still()
	if !p.same || photoOf(t, b, openCrumb).Slice.Same != fine {
		t.Error("A does not say that they show one slice")
	}
	b.Press("A")
	still()
	if p.same || photoOf(t, b, openCrumb).Slice.Same != "" {
		t.Error("A does not take that back")
	}
	if len(b.Failed) > 0 {
		t.Error(b.Failed)
	}
}

// A box round the slice narrows the search: the outline is the slice's, not the box.
func TestABoxRoundTheSliceFindsIt(t *testing.T) {
	b := pagestest.New(t)
	id, pic := addPhoto(t, b, bread(wider))
	p := open(t, b, id)
	full := pic.Photo.Rect
	b.Press("B")
	drag(p, crumb.Point{X: 4, Y: 4}, crumb.Point{X: 60, Y: 60}, crumb.Point{X: float64(full.Dx() - 4), Y: float64(full.Dy() - 4)})
	settle(b, p)
	s := photoOf(t, b, id).Slice
	if s == nil || len(s.Outline) < 12 || s.Drawn || s.CrumbOnly {
		t.Fatalf("a box round the slice gives %+v", s)
	}
	if !p.summary.Chosen || p.summary.FoundByItself || math.Abs(p.summary.FaceArea/pic.Truth.CrumbMM2-1) > 0.5 && !p.summary.Relative {
		t.Errorf("measured as %+v", *p.summary)
	}
	if !strings.Contains(taken(*p.summary, p.units), "slice found, and chosen by hand") {
		t.Errorf("it says %q", taken(*p.summary, p.units))
	}
	b.Press("N") // nothing else stands out on a plain ground
	settle(b, p)
	if got := p.told.String(); !strings.HasPrefix(got, "Nothing else stands out") {
		t.Errorf("N says %q", got)
	}
	if after := photoOf(t, b, id).Slice; !slices.Equal(after.Outline, s.Outline) {
		t.Error("N changed the outline although nothing else stands out")
	}
}

// crumbMetrics are what a summary has of the bake's crumb.
func crumbMetrics(c *journal.BakeSummary) (out []shelf.Value) {
	for _, v := range c.Metrics {
		if v.Figure.IsCrumb() {
			out = append(out, v)
		}
	}
	return out
}
