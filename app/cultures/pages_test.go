package cultures

import (
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

func TestFamilyOrder(t *testing.T) {
	c := func(id, parent journal.ID, ended bool) *histories.CultureHistory {
		out := &journal.Culture{Head: journal.Head{ID: id}, Parent: parent}
		if ended {
			out.Ended = time.Unix(1, 0)
		}
		return &histories.CultureHistory{Culture: out}
	}
	var got []string
	for _, r := range familyOrder([]*histories.CultureHistory{
		c("child", "mother", false), c("gone", "", true), c("mother", "", false), c("grandchild", "child", true),
		c("orphan", "nobody", false), c("ring", "ring2", false), c("ring2", "ring", false),
	}) {
		got = append(got, strings.Repeat(">", r.depth)+string(r.life.Culture.ID))
	}
	if s := strings.Join(got, " "); s != "mother >child >>grandchild orphan gone ring >ring2" {
		t.Errorf("order: %s", s)
	}
}

func TestTheListInvites(t *testing.T) {
	b := pagestest.New(t)
	p := b.Show(openList, pages.Route{Name: pages.Cultures}).(*listPage)
	settle(b, p)
	if len(p.shown.rows) != 0 || listHeading(p.shown.rows, b.Clock, b.Units()) != "No culture yet" {
		t.Errorf("rows %v", p.shown.rows)
	}
	if links := pagestest.All[*kit.Button](p.Object()); len(links) != 1 || links[0].Label() != "New culture" {
		t.Errorf("%d buttons", len(links))
	}
	if b.Env.Window.Canvas().Overlays().Top() != nil {
		t.Error("a dialog that nobody asked for lies over it")
	}
}

func TestRowsOfTheList(t *testing.T) {
	b := pagestest.New(t)
	now := b.Clock
	gorse := putCulture(b, &journal.Culture{Name: "Gorse", Born: now.AddDate(0, 0, -11), Home: journal.Counter})
	for day := range 10 {
		putDay(b, gorse.ID, now.AddDate(0, 0, day-10), 1.2+0.1*float64(day), smelling(8))
	}
	stiff := putCulture(b, &journal.Culture{Name: "Stiff", Born: now.AddDate(0, 0, -3), Parent: gorse.ID, Home: journal.Refrigerator})
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: stiff.ID, At: now.AddDate(0, 0, -3), Kept: 20, Flour: 40, Water: 24})
	})
	l, err := listingOf(b.Journal, &b.Histories, b.Units())
	if err != nil || len(l.rows) != 2 {
		t.Fatalf("%+v, %v", l, err)
	}
	rows := l.rows
	if r := rows[0]; r.name != "Gorse" || r.age != "day 12" || r.state != "Nearly there" || len(l.weeks.places["Gorse"]) != 10 || !r.late || !strings.HasPrefix(r.next, "Feeding was due") {
		t.Errorf("first row = %+v", r)
	}
	if r := rows[1]; r.state != "Resting in the refrigerator" || r.late || !strings.Contains(r.about, "split from Gorse") || r.next != "Feed by Wed 08:54" && !strings.HasPrefix(r.next, "Feed by ") {
		t.Errorf("second row = %+v", r)
	}
	if h := listHeading(rows, b.Clock, b.Units()); h != "Hungry: Gorse" {
		t.Errorf("heading = %q", h)
	}
}

func TestWeeksChart(t *testing.T) {
	b := pagestest.New(t)
	now := b.Clock
	var both [2]*journal.Culture
	for i, name := range []string{"Gorse", "Harbour"} {
		both[i] = putCulture(b, &journal.Culture{Name: name, Born: now.AddDate(0, -10*i, -12), Colour: i + 1})
		for day := range 12 {
			putDay(b, both[i].ID, both[i].Born.AddDate(0, 0, day), youth[day], smelling(day+1))
		}
	}
	p := portraitOf(t, b, both[0].ID, both[1].ID)
	pic := weeksChart(p, b.Units(), false)
	if s := drawn(t, pic.figure); !strings.Contains(s, "Harbour") {
		t.Errorf("the other is not drawn: %s", s)
	}
	for _, name := range []string{"Gorse", "Harbour"} {
		place, ok := pic.leads(charts.Mark{Series: name, Index: 3})
		if !ok || place.Name != pages.Feeding {
			t.Errorf("a mark of %s leads to %+v", name, place)
		}
	}
	if _, ok := pic.leads(charts.Mark{Series: "wanted", Index: 0}); ok {
		t.Error("a line leads somewhere")
	}
	band := false
	for _, l := range pic.figure.Panels[0].Layers {
		if x, ok := l.(charts.Band); ok {
			band = x.From < 4 && x.To > 5
		}
	}
	if !band {
		t.Error("the pause is not shaded")
	}
	if s := drawn(t, weeksChart(p, b.Units(), true).figure); s == "" {
		t.Error("the last weeks say nothing")
	}
}

func TestOneFeedingsRise(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -30)})
	fed := b.Clock.Add(-12 * time.Hour)
	f := putDay(b, c.ID, fed, 2.2, nil)
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Reading{Culture: c.ID, At: fed.Add(11 * time.Hour), Rise: new(1.4)})
	})
	course, ok := lifeOf(t, b, c.ID).Course(f.ID)
	if !ok {
		t.Fatal("the feeding is not found")
	}
	r := riseOf(course)
	if r.none != nil || !r.fit.Collapsed() {
		t.Fatalf("fit %+v, %v", r.fit, r.none)
	}
	plot := riseChart(r, pages.LookOf(c), "fitted", measure.Units{})
	drawn(t, plot)
	left := 0
	for _, l := range plot.Panels[0].Layers {
		if s, ok := l.(charts.Series); ok {
			for _, out := range s.LeftOut {
				if out {
					left++
				}
			}
		}
	}
	if left != 1 {
		t.Errorf("%d points are drawn as left out, want the one after the fall", left)
	}
	if r.forecast, r.unknown = lifeOf(t, b, c.ID).Told(f.ID); r.unknown != nil {
		t.Fatal(r.unknown)
	}
	// A pH and titrations are drawn beneath, those made alike alone.
	sour := course
	sour.Readings = slices.Clone(course.Readings)
	for i, ml := range []float64{2.4, 4.4, 5.1} {
		sour.Readings[i].PH = 5.6 - 0.6*float64(i)
		sour.Readings[i].Acid = ferment.Titration{ML: ml, Sample: 10, EndPoint: 8.5}
	}
	sour.Readings[1].Acid.EndPoint = 6.6
	acid := riseOf(sour)
	acid.forecast, acid.unknown = r.forecast, nil
	plot = riseChart(acid, pages.LookOf(c), "fitted", measure.Units{})
	drawn(t, plot)
	if n := len(plot.Panels); n != 3 {
		t.Fatalf("%d panels, want the rise, the pH and the acidity", n)
	}
	if s := plot.Panels[2].Layers[1].(charts.Series); len(s.Y) != 2 || s.Y[1] != 5.1 {
		t.Errorf("the acidity is drawn as %v, want the two to pH 8.5", s.Y)
	}
	if got := metricsOf(r, b.Units()); len(got) != 5 || !strings.HasSuffix(got[0].value, "×") || got[0].origin == "" {
		t.Errorf("figures = %+v", got)
	}
	few := riseOf(ferment.Course{Feeding: course.Feeding, Readings: course.Readings[:2]})
	if h := riseHeading(few, b.Units()); h != "Needs 2 more readings" {
		t.Errorf("two readings: %q", h)
	}
	few = riseOf(ferment.Course{Feeding: course.Feeding, Readings: course.Readings[:3]})
	if h := riseHeading(few, b.Units()); h != "Needs one more reading" {
		t.Errorf("three readings: %q", h)
	}
	p := b.Show(openFeeding, pages.At(pages.Feeding, f.ID)).(*feedingPage)
	settle(b, p)
	if len(p.figures.Objects) != 5 || len(b.Failed) > 0 {
		t.Errorf("the page shows %d figures, %v", len(p.figures.Objects), b.Failed)
	}
	// The last weeks have the room under the curve where what was read stands beside it, and else come last.
	for width, beside := range map[float32]bool{1000: false, 2400: true} {
		b.Window.Resize(fyne.NewSize(width, 1400))
		b.Wait()
		at := b.App.Driver().AbsolutePositionForObject
		weeks, list, curve := at(p.chart), at(p.recent), at(p.frame)
		if weeks.X != curve.X || weeks.Y < curve.Y+p.frame.Size().Height || (list.X > curve.X+100) != beside || !beside && weeks.Y < list.Y {
			t.Errorf("%v wide, the last weeks stand at %v, the curve at %v and the feedings at %v", width, weeks, curve, list)
		}
	}
}

func TestABuildIsPlanned(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -30), Usual: new(formula.Celsius(24))})
	for day := range 6 {
		putDay(b, c.ID, b.Clock.AddDate(0, 0, day-6), 2.2, nil)
	}
	s := planBuild(b.Env, lifeOf(t, b, c.ID))
	b.Wait()
	if s.plan == nil {
		t.Fatalf("no plan for tomorrow at nine: %v", s.answer.Objects)
	}
	lines := planWords(*s.plan, s.ask.Now, b.Units())
	last := s.plan.Steps[len(s.plan.Steps)-1]
	if len(lines) != len(s.plan.Steps)+1 || float64(last.Total()) < 210-0.5 {
		t.Errorf("%d lines, %.0f g in the end", len(lines), float64(last.Total()))
	}
	s.ask.RipeAt = b.Clock.Add(30 * time.Minute)
	s.work()
	b.Wait()
	if s.plan != nil {
		t.Error("half an hour is said to be enough")
	}
	links := pagestest.All[*kit.Link](s.answer)
	if len(links) == 0 {
		t.Fatal("nothing is offered instead")
	}
	links[0].OnTapped()
	b.Wait()
	if s.plan == nil {
		t.Error("what was offered cannot be had")
	}
}

func TestSplitting(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Harbour", Born: b.Clock.AddDate(0, 0, -30), Colour: 1})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -1), 2, nil)
	var id journal.ID
	s := newCulture(b.Env, c.ID, func(made journal.ID) { id = made })
	s.birth.name = "Harbour, stiff"
	s.keep()
	child, parent := lifeOf(t, b, id), lifeOf(t, b, c.ID)
	if child.Culture.Parent != c.ID || child.Culture.Colour != 2 || child.Feedings[0].Kept != 25 {
		t.Errorf("child = %+v, fed %+v", child.Culture, child.Feedings[0])
	}
	if jar, _ := parent.Jar(b.Clock); float64(jar.Mix.Total()) != 100 {
		t.Errorf("%v g are left of the parent's 125", jar.Mix.Total())
	}
	p := portraitOf(t, b, c.ID, "")
	if len(p.children) != 1 {
		t.Errorf("%d children", len(p.children))
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if _, err := histories.Of(b.Journal, id); err == nil {
		t.Error("the child is still there after undo")
	}
}

func TestHistoryOpensAndDeletes(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -3)})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -1), 2, smelling(8))
	h := b.Show(openHistory, pages.Route{Name: pages.History, ID: c.ID}).(*historyPage)
	settle(b, h)
	if len(h.shown) != 8 || !strings.Contains(h.shown[0].words, "fruity") || !strings.HasPrefix(h.shown[7].words, "Fed 1:2:2") {
		t.Fatalf("entries = %+v", h.shown)
	}
	h.list.OnDelete(0)
	settle(b, h)
	if len(h.shown) != 7 {
		t.Errorf("%d entries after deleting", len(h.shown))
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	settle(b, h)
	if len(h.shown) != 8 {
		t.Errorf("%d entries after undo", len(h.shown))
	}
	h.list.OnOpen(7)
	if len(b.Went) != 1 || b.Went[0].Name != pages.Feeding {
		t.Errorf("a feeding opens %+v", b.Went)
	}
}

// Everything recorded is narrowed to a sort of entry, and its figures stand in columns.
func TestHistoryIsNarrowedAndInColumns(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -3)})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -2), 2, smelling(8))
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -1), 2, smelling(8))
	h := b.Show(openHistory, pages.Route{Name: pages.History, ID: c.ID}).(*historyPage)
	settle(b, h)
	if want := []string{"All 16", "Feedings 2", "Readings 14"}; !slices.Equal(h.offered, want) {
		t.Fatalf("it offers %q, want %q", h.offered, want)
	}
	h.pick.Objects[0].(*kit.Segments).OnChanged(1)
	if len(h.shown) != 2 {
		t.Fatalf("%d feedings", len(h.shown))
	}
	at := func() string {
		if p, ok := b.Window.Canvas().Focused().(*kit.Pill); ok {
			return p.Words()
		}
		return ""
	}
	for range 20 {
		if b.Window.Canvas().FocusNext(); at() == "Feedings 2" {
			break
		}
	}
	h.list.OnDelete(0)
	settle(b, h)
	if at() != "Feedings 1" {
		t.Errorf("after a feeding went the keyboard is on %T %q", b.Window.Canvas().Focused(), at())
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	settle(b, h)
	e := h.shown[0]
	if e.what != "Fed 1:2:2" || e.figures[keptFigure] == "" || e.figures[flourFigure] == "" || e.figures[waterFigure] == "" || e.figures[riseFigure] != "" {
		t.Errorf("a feeding is shown as %q %q", e.what, e.figures)
	}
	h.pick.Objects[0].(*kit.Segments).OnChanged(2)
	if len(h.shown) != 14 || h.shown[0].figures[riseFigure] == "" || h.shown[0].figures[keptFigure] != "" {
		t.Errorf("readings are shown as %+v", h.shown)
	}
}

// In a narrow list the weights of a feeding and the figures of acid have no columns: the line
// says them.
func TestANarrowHistoryLosesNoFigure(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -3)})
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-4 * time.Hour), Kept: 25, Flour: 50, Water: 50, Note: "sluggish"}); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Hour), PH: new(3.81), Smells: map[string]int{"fruity": 2}})
	})
	h := b.Show(openHistory, pages.Route{Name: pages.History, ID: c.ID}).(*historyPage)
	settle(b, h)
	for width, want := range map[float32][2]string{
		1000: {"sluggish", "fruity"},
		420:  {"25\u00a0g kept, 50\u00a0g flour, 50\u00a0g water · sluggish", "pH\u00a03.81 · fruity"},
	} {
		for _, e := range h.shown {
			r := newEntryRow(&h.columns)
			r.set(e, "", false, b.Units())
			r.Resize(fyne.NewSize(width, 24))
			said := want[0]
			if e.sort == readEntry {
				said = want[1]
			}
			if got := r.said.String(); got != said {
				t.Errorf("%v wide it says %q, want %q", width, got, said)
			}
			if seen := r.figures[keptFigure].Visible() || r.figures[acidFigure].Visible(); seen != (width > 500) {
				t.Errorf("%v wide the columns of weights and acid are seen: %v", width, seen)
			}
		}
	}
}

// In a very narrow list the temperature has no column either: the line ends with it.
func TestATightHistorySaysTheTemperature(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -3)})
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Hour), Temp: new(formula.Celsius(20.4)), Smells: map[string]int{"fruity": 2}})
	})
	h := b.Show(openHistory, pages.Route{Name: pages.History, ID: c.ID}).(*historyPage)
	settle(b, h)
	for width, want := range map[float32]string{600: "fruity", 330: "fruity", 270: "fruity · 20.4\u00a0°C"} {
		r := newEntryRow(&h.columns)
		r.set(h.shown[0], "", false, b.Units())
		r.Resize(fyne.NewSize(width, 24))
		if got := r.said.String(); got != want || r.figures[warmthFigure].Visible() == (width < 300) {
			t.Errorf("%v wide it says %q, want %q, and the temperature's column is seen: %v", width, got, want, r.figures[warmthFigure].Visible())
		}
	}
}

// In German and with text at 150 %, where a window of 1280 points is 853 wide and its list 625, and one
// of 900 points 600 and its list 428, the history cuts nothing of what is usually recorded: where a line has no
// room for it, a row has two.
func TestAGermanHistoryIsNotCut(t *testing.T) {
	if err := words.Speak("de"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -3)})
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-4 * time.Hour), Kept: 25, Flour: 50, Water: 50, RoomC: new(formula.Celsius(20.4))}); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Hour), Rise: new(2.27), Temp: new(formula.Celsius(20.3)), Bubbles: new(4), Smells: map[string]int{"fruity": 2, "milky": 1}})
	})
	h := b.Show(openHistory, pages.Route{Name: pages.History, ID: c.ID}).(*historyPage)
	settle(b, h)
	for width, lines := range map[float32]float32{713: 1, 468: 2} {
		b.Window.Resize(fyne.NewSize(width, 600))
		rows := pagestest.All[*entryRow](h.list)
		if len(rows) != len(h.shown) {
			t.Fatalf("%d rows of %d are seen", len(rows), len(h.shown))
		}
		for _, r := range rows {
			if said := r.said.String(); said == "" || kit.Fit(kit.Span{Text: said}, r.said.Size().Width) != said {
				t.Errorf("%v wide %q has %v points", width, said, r.said.Size().Width)
			}
			if below := r.said.Position().Y - r.what.Position().Y; below != (lines-1)*entryLine() {
				t.Errorf("%v wide %q stands %v below what it is", width, r.said.String(), below)
			}
		}
	}
}

func BenchmarkPaint(b *testing.B) {
	bench := pagestest.New(b)
	c := putCulture(bench, &journal.Culture{Name: "Harbour", Born: bench.Clock.AddDate(0, 0, -60)})
	for day := range 60 {
		putDay(bench, c.ID, bench.Clock.AddDate(0, 0, day-60), 2.2, smelling(8))
	}
	for b.Loop() {
		p, err := paint(b.Context(), bench.Journal, c.ID, "", bench.Clock, bench.Units())
		if err != nil {
			b.Fatal(err)
		}
		weeksChart(p, bench.Units(), true)
	}
}

// Where nothing was fed for days, the line through the peaks breaks, and stays whole from
// day to day. Marks that are not explained by a name at the line are explained beneath.
func TestThePeaksOfDaysWithoutAFeedingAreNotJoined(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -40)})
	for _, ago := range []int{16, 15, 14, 13, 9, 8, 7, 6} {
		putDay(b, c.ID, b.Clock.AddDate(0, 0, -ago), 2.2, nil)
	}
	p := portraitOf(t, b, c.ID, "")
	var peaks charts.Series
	for _, l := range weeksChart(p, b.Units(), true).figure.Panels[0].Layers {
		if s, ok := l.(charts.Series); ok && s.Name == "Gorse" {
			peaks = s
		}
	}
	if len(peaks.X) != 8 {
		t.Fatalf("%d peaks, want 8", len(peaks.X))
	}
	for i := 1; i < len(peaks.X); i++ {
		if broken := peaks.X[i]-peaks.X[i-1] > peaks.Gap && peaks.Gap > 0; broken != (i == 4) {
			t.Errorf("between peaks %d and %d the line is broken: %v", i-1, i, broken)
		}
	}
	if title := weeksChart(p, b.Units(), true).figure.X.Title; title != "ticks are feedings" {
		t.Errorf("without a photo it says %q", title)
	}
	p.photos = append(p.photos, jarPhoto{at: b.Clock.Add(-time.Hour), photo: &journal.Photo{}})
	if title := weeksChart(p, b.Units(), true).figure.X.Title; title != "ticks are feedings · diamonds are photos" {
		t.Errorf("with a photo it says %q", title)
	}
}
