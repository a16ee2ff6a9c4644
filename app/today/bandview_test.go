package today

import (
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

func TestAFeedingIsDraggedAndMovedByKeys(t *testing.T) {
	maintest.App(t)
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	b := band{from: now.Add(-3 * time.Hour), to: now.Add(33 * time.Hour), now: now,
		lanes: []lane{{name: "Harbour", of: "h", handle: now}, {name: "Ferry loaf", bake: "b"}}}
	var moved time.Time
	var opened []lane
	v := newBandView(func(_ journal.ID, at time.Time) { moved = at }, func(l lane) { opened = append(opened, l) })
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(1100, 300))
	v.Resize(fyne.NewSize(1000, b.tall()))
	v.show(b, measure.Units{})

	drag := func(to time.Time, y float32) {
		x := float32(b.x(to, 1000))
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Dragged: fyne.NewDelta(1, 0)})
		v.DragEnd()
	}
	drag(now.Add(9*time.Hour), bandTop+20)
	if want := now.Add(9 * time.Hour); moved.Sub(want).Abs() > dragStep {
		t.Errorf("dragged to %v, want %v", moved, want)
	}
	drag(now.Add(-2*time.Hour), bandTop+20)
	if !moved.Equal(now) {
		t.Errorf("a feeding was dragged into the past: %v", moved)
	}
	moved = time.Time{}
	drag(now.Add(5*time.Hour), bandTop+laneTall+10) // a dough has nothing to drag
	if !moved.IsZero() {
		t.Errorf("a dough was dragged to %v", moved)
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if want := now.Add(dragStep); !moved.Equal(want) {
		t.Errorf("the right arrow moved it to %v, want %v", moved, want)
	}
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(opened) != 1 || opened[0].bake != "b" {
		t.Errorf("opened %+v", opened)
	}
}

// A feeding that is dragged goes to its place within the lane; the band as it is says where
// that is from the first.
func TestTheBandFollowsADrag(t *testing.T) {
	test.NewTempApp(t)
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	fedAt := func(at time.Time) band {
		return band{from: now.Add(-3 * time.Hour), to: now.Add(33 * time.Hour), now: now, lanes: []lane{{name: "Harbour", of: "h", handle: at, tried: true}}}
	}
	v := newBandView(func(journal.ID, time.Time) {}, func(lane) {})
	f := kit.NewFrame(maintest.New().Do, v)
	var tick func(float32)
	f.Animate = func(_ time.Duration, told func(float32)) func() {
		tick = told
		return func() {}
	}
	w := test.NewTempWindow(t, f)
	w.Resize(fyne.NewSize(1100, 300))
	v.show(fedAt(now), measure.Units{})
	for _, step := range []struct {
		to   time.Duration
		done float32
		off  time.Duration
	}{{4 * time.Hour, 0.5, -2 * time.Hour}, {6 * time.Hour, 0.5, -2 * time.Hour}, {6 * time.Hour, 1, 0}, {2 * time.Hour, 1, 0}} {
		v.follow(fedAt(now.Add(step.to)), measure.Units{})
		if tick != nil {
			tick(step.done)
		}
		if l := v.band.lanes[0]; l.shift != step.off || !l.handle.Equal(now.Add(step.to)) {
			t.Errorf("to %v, %v of the way: it is off by %v, want %v", step.to, step.done, l.shift, step.off)
		}
		tick = nil
	}
	bare := fedAt(now)
	bare.lanes[0].handle, bare.lanes[0].tried = time.Time{}, false
	v.show(bare, measure.Units{})
	if v.follow(fedAt(now), measure.Units{}); v.band.lanes[0].shift != 0 {
		t.Errorf("a feeding that stood nowhere comes from %v away", v.band.lanes[0].shift)
	}
	if f.Moving() {
		t.Error("something moves at rest")
	}
}

// Midnight says its day, and the oven is named however short it is.
func TestTheBandNamesTheDayAndTheOven(t *testing.T) {
	maintest.App(t)
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	at := func(h, m int) time.Time { return now.Add(time.Duration(h)*time.Hour + time.Duration(m)*time.Minute) }
	dough := lane{name: "Ferry loaf", bake: "b", blocks: []block{
		{span: span{at(1, 0), at(12, 0)}, kind: plan.ColdRest, words: "Cold proof"},
		{span: span{at(12, 0), at(12, 20)}, kind: plan.BakeCovered, words: "Bake, lid on"},
		{span: span{at(12, 20), at(12, 45)}, kind: plan.BakeUncovered, words: "Bake, lid off"},
		{span: span{at(12, 45), at(14, 45)}, kind: plan.Cool, words: "Cool"},
	}}
	v := newBandView(func(journal.ID, time.Time) {}, func(lane) {})
	w := test.NewTempWindow(t, v)
	w.Resize(fyne.NewSize(1100, 300))
	v.show(band{from: at(-3, 0), to: at(33, 0), now: now, lanes: []lane{dough}}, measure.Units{})
	var ends float32 // of the word before
	var texts []string
	for _, o := range test.WidgetRenderer(v).Objects() {
		word, ok := o.(*canvas.Text)
		if !ok {
			continue
		}
		texts = append(texts, word.Text)
		if word.Text == "Bake" {
			ends = word.Position().X + word.Size().Width
		}
		if word.Text == "Cool" && word.Position().X < ends {
			t.Error("the words of the oven and of cooling lie over one another")
		}
	}
	for _, want := range []string{"5\u00a0Mar", "Cold proof", "Bake", "Cool"} {
		if !slices.Contains(texts, want) {
			t.Errorf("%q is not on the band: %q", want, texts)
		}
	}
	if slices.Contains(texts, "00") {
		t.Error("midnight is an hour among others")
	}
}

// What is overdue looks on the band as it does everywhere: by how much, in paper on ember,
// within the band at any width, and a lane that has it is high enough for it.
func TestOverdueOnTheBand(t *testing.T) {
	maintest.App(t)
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	b := band{from: now.Add(-2 * time.Hour), to: now.Add(34 * time.Hour), now: now, lanes: []lane{
		{name: "Harbour", of: "h", handle: now, by: now.Add(-16 * time.Hour), late: true,
			words: "ripe yesterday 15:05 to yesterday 17:18, a guess, approximate"},
		{name: "Gorse", of: "g", handle: now, by: now.Add(time.Hour), words: "ripe 12:00 to 13:00, approximate"},
		{name: "Ferry loaf", bake: "b", by: now.Add(-5 * time.Minute), late: true, words: "Mix"},
		{name: "Deck rye", bake: "d", by: now.Add(5 * time.Minute)},
	}}
	v := newBandView(func(journal.ID, time.Time) {}, func(lane) {})
	w := test.NewTempWindow(t, v)
	for _, width := range []float32{1060, 690} {
		w.Resize(fyne.NewSize(width+40, 500))
		v.Resize(fyne.NewSize(width, b.tall()))
		v.show(b, measure.Units{})
		var said []string
		for _, o := range test.WidgetRenderer(v).Objects() {
			if o.Position().X+o.MinSize().Width > width+0.5 || o.Position().Y+o.MinSize().Height > b.tall() {
				t.Errorf("%v wide, something ends at %v", width, o.Position().Add(o.MinSize()))
			}
			d, ok := o.(*kit.Due)
			if !ok {
				continue
			}
			said = append(said, d.String())
			if lane := b.lanes[v.laneAt(d.Position().Y+d.Size().Height/2)]; !lane.late || !d.Late() || d.Position().X < bandLeft {
				t.Errorf("%q stands at %v", d.String(), d.Position())
			}
		}
		if len(said) != 2 || said[0] != "overdue by 16\u00a0h " || said[1] != "overdue by 5\u00a0min " {
			t.Errorf("%v wide, it says %q", width, said)
		}
	}
}

// The hours over the band never run into one another: one beside the name of a day gives way to it.
func TestHoursOfTheBandLeaveRoomForTheDay(t *testing.T) {
	maintest.App(t)
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	b := band{from: now.Add(-3 * time.Hour), to: now.Add(33 * time.Hour), now: now, lanes: []lane{{name: "Ferry loaf", bake: "b"}}}
	v := newBandView(nil, nil)
	w := test.NewTempWindow(t, v)
	for width := float32(300); width < 1300; width += 50 {
		w.Resize(fyne.NewSize(width+100, 300))
		v.Resize(fyne.NewSize(width, b.tall()))
		v.show(b, measure.Units{})
		day, end, before := false, float32(0), ""
		for _, o := range test.WidgetRenderer(v).Objects() {
			word, ok := o.(*canvas.Text)
			if !ok || word.Position().Y != 2 {
				continue
			}
			if at := word.Position().X; at < end {
				t.Errorf("%v wide, %q at %v lies over %q, which ends at %v", width, word.Text, at, before, end)
			}
			end, before = word.Position().X+word.MinSize().Width, word.Text
			day = day || strings.HasSuffix(word.Text, "Mar")
		}
		if !day {
			t.Errorf("%v wide, the day is not named", width)
		}
	}
}
