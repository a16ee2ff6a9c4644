package kit_test

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
	"twinloaf/journal/shorthand"
)

// told gathers what a quantity field says.
type told struct {
	values []float64
	oks    []bool
}

func (g *told) hear(v *float64) {
	if v == nil {
		v = new(0.0)
		g.oks = append(g.oks, false)
	} else {
		g.oks = append(g.oks, true)
	}
	g.values = append(g.values, *v)
}

func (g *told) last() (float64, bool) {
	if len(g.values) == 0 {
		return -1, false
	}
	return g.values[len(g.values)-1], g.oks[len(g.oks)-1]
}

func TestQuantityFieldTellsWhileTyping(t *testing.T) {
	var g told
	f := kit.NewQuantityField(kit.QuantityOptions{Label: "Water", Measure: measure.Units{}.Weight(), Keep: g.hear})
	win := window(t, f, 300, 100)
	f.SetValue(684)
	if len(g.values) != 0 {
		t.Fatal("setting a value told Keep")
	}
	typeInto(t, win, f.Entry(), "7,5")
	if v, ok := g.last(); !ok || v != 7.5 {
		t.Errorf("after typing over the old figure it told %v, %v", v, ok)
	}
	more(f.Entry(), " oz")
	if v, ok := g.last(); !ok || v != 7.5*shorthand.GramsPerOunce {
		t.Errorf("after a unit was typed it told %v, %v", v, ok)
	}
	win.Canvas().Unfocus()
	if f.Text() != "212.6" {
		t.Errorf("left with %q; want the usual unit", f.Text())
	}
	if v, ok := f.Value(); !ok || v != 7.5*shorthand.GramsPerOunce {
		t.Errorf("the value became %v, %v by being written", v, ok)
	}
}

func TestQuantityFieldKeepsBadTextAndSaysWhy(t *testing.T) {
	var g told
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Weight(), Keep: g.hear})
	win := window(t, f, 300, 100)
	before := f.MinSize().Height
	typeInto(t, win, f.Entry(), "a handful")
	win.Canvas().Unfocus()
	if _, ok := g.last(); ok || f.Text() != "a handful" || f.Problem() == "" {
		t.Errorf("ok %v, text %q, sentence %q", ok, f.Text(), f.Problem())
	}
	if f.MinSize().Height <= before {
		t.Error("there is no room for the sentence")
	}
	f.SetValue(5)
	if f.Problem() != "" || f.Text() != "5" {
		t.Errorf("after a good figure: %q, %q", f.Text(), f.Problem())
	}
}

func TestEscapeLeavesAFieldAsItWasTyped(t *testing.T) {
	var g told
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Weight(), Keep: g.hear})
	win := window(t, f, 300, 100)
	f.SetValue(684)
	typeInto(t, win, f.Entry(), "99")
	f.Entry().TypedKey(key(fyne.KeyEscape))
	if v, ok := g.last(); f.Text() != "99" || !ok || v != 99 || f.Editing() {
		t.Errorf("after Esc the text is %q, it told %v, %v, edited still: %v", f.Text(), v, ok, f.Editing())
	}
	for _, f := range []*kit.TextField{kit.NewTextField("Name", ""), kit.NewNoteField("Notes", ""), kit.NewHeadingField("")} {
		win := window(t, f, 300, 100)
		f.SetText("was")
		typeInto(t, win, f.Entry(), "typed ")
		said := f.Text()
		f.Entry().TypedKey(key(fyne.KeyEscape))
		if f.Text() != said || f.Editing() {
			t.Errorf("%s: after Esc the text is %q, not %q; edited still: %v", f.Name(), f.Text(), said, f.Editing())
		}
	}
}

// What was typed and is not understood stays while the record says what it said, and
// gives way when the record says another thing.
func TestWhatIsNotUnderstoodStays(t *testing.T) {
	var g told
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Weight(), Keep: g.hear})
	win := window(t, f, 300, 100)
	f.SetValue(684)
	typeInto(t, win, f.Entry(), "12 spoons")
	f.Entry().TypedKey(key(fyne.KeyEscape))
	if v, ok := g.last(); v != 12 || !ok {
		t.Errorf("it told %v, %v; want the last that was understood", v, ok)
	}
	f.SetValue(12)
	if f.Text() != "12 spoons" || f.Understood() {
		t.Errorf("the record told anew: text %q, understood %v", f.Text(), f.Understood())
	}
	f.SetValue(700)
	if f.Text() != "700" || !f.Understood() {
		t.Errorf("another figure told: text %q, understood %v", f.Text(), f.Understood())
	}
}

// A figure that cannot be is refused in a sentence, and never told.
func TestQuantityFieldRefusesWhatCannotBe(t *testing.T) {
	u := measure.Units{}
	for _, c := range []struct {
		m    measure.Measure
		text string
	}{
		{u.Weight(), "-5 g"}, {u.Temperature(), "99,999 °C"}, {u.Length(), strings.Repeat("9", 300)},
		{u.Duration(), "153722867281 h"}, {u.Duration(), "9223372036854775807:00"}, {u.Duration(), "-1 h"},
		{u.Percent(0), "-3"}, {u.Number("", 2).In(limit.PH), "15"}, {u.Number("", 2).In(limit.Rise), "20"},
	} {
		var g told
		f := kit.NewQuantityField(kit.QuantityOptions{Measure: c.m, Keep: g.hear})
		win := window(t, f, 300, 100)
		typeInto(t, win, f.Entry(), c.text)
		for i, v := range g.values {
			if g.oks[i] && limit.Check(c.m.Within, v) != nil {
				t.Errorf("%q: told %v", c.text, v)
			}
		}
		if f.Understood() || f.Problem() == "" {
			t.Errorf("%q is taken: sentence %q", c.text, f.Problem())
		}
	}
}

// Ctrl+Z in a field takes typing back, Ctrl+Shift+Z brings it again, each told.
func TestUndoWithinAField(t *testing.T) {
	f, last := kit.NewNoteField("Notes", ""), ""
	f.OnChanged = func(s string) { last = s }
	win := window(t, f, 300, 200)
	f.SetText("was ")
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyEnd))
	more(f.Entry(), "typed")
	e := f.Entry().(fyne.Shortcutable)
	e.TypedShortcut(&fyne.ShortcutUndo{})
	if f.Text() != "was " || last != "was " {
		t.Errorf("after Ctrl+Z: %q, told %q", f.Text(), last)
	}
	e.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift})
	if f.Text() != "was typed" || last != "was typed" {
		t.Errorf("after Ctrl+Shift+Z: %q, told %q", f.Text(), last)
	}
}

// A key that writes nothing is the page's while a field is written in.
func TestAFieldLetsFunctionKeysThrough(t *testing.T) {
	f := kit.NewTextField("Name", "")
	win := window(t, f, 300, 200)
	helped := 0
	kit.NewKeyboard(win.Canvas()).Set("Everywhere", []kit.Key{{Name: "F1", Do: func() { helped++ }}, {Name: "F", Do: func() { helped += 10 }}})
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyF1))
	f.Entry().TypedKey(key(fyne.KeyF)) // comes with the letter
	if helped != 1 {
		t.Errorf("helped %d times", helped)
	}
}

// In a field in which nothing was typed the keys are the window's; once something was,
// they are the field's alone, also where all of it was taken back.
func TestUndoInAFieldLeftAsItWasIsTheWindows(t *testing.T) {
	f := kit.NewNoteField("Notes", "")
	win := window(t, f, 300, 200)
	did := ""
	kit.NewKeyboard(win.Canvas()).Set("Everywhere", []kit.Key{
		{Name: "Ctrl+Z", Do: func() { did += "undo " }}, {Name: "Shift+Ctrl+Z", Do: func() { did += "redo " }},
	})
	win.Canvas().Focus(f.Entry())
	e := f.Entry().(fyne.Shortcutable)
	undo, redo := &fyne.ShortcutUndo{}, &desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
	e.TypedShortcut(undo)
	e.TypedShortcut(redo)
	if did != "undo redo " {
		t.Errorf("the window was told %q", did)
	}
	more(f.Entry(), "typed")
	for range 3 {
		e.TypedShortcut(undo)
	}
	e.TypedShortcut(redo)
	if did != "undo redo " || f.Text() != "typed" {
		t.Errorf("with something typed the window was told %q, and the field holds %q", did, f.Text())
	}
}

func TestQuantityFieldIsNotReplacedWhileEdited(t *testing.T) {
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Weight()})
	win := window(t, f, 300, 100)
	typeInto(t, win, f.Entry(), "12")
	f.SetValue(500)
	f.Clear()
	if f.Text() != "12" {
		t.Errorf("the text became %q under the baker's hands", f.Text())
	}
}

func TestQuantityFieldCleared(t *testing.T) {
	cleared := false
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Weight(), Keep: func(v *float64) { cleared = v == nil }})
	win := window(t, f, 300, 100)
	f.SetValue(1)
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyBackspace))
	if _, ok := f.Value(); !cleared || ok || f.Problem() != "" {
		t.Errorf("cleared %v, value still there %v, sentence %q", cleared, ok, f.Problem())
	}
}

func TestQuantityFieldObjectsButCounts(t *testing.T) {
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Temperature(), Check: func(v float64) string {
		if v > 60 {
			return "Warmer than a dough can be."
		}
		return ""
	}})
	win := window(t, f, 300, 100)
	typeInto(t, win, f.Entry(), "245")
	if v, ok := f.Value(); !ok || v != 245 || !strings.HasPrefix(f.Problem(), "Warmer") {
		t.Errorf("value %v, %v; sentence %q", v, ok, f.Problem())
	}
}

func TestEnterAndTabGoToTheNextField(t *testing.T) {
	a, b := kit.NewTextField("A", ""), kit.NewTextField("B", "")
	win := window(t, kit.Stack(2, a, b), 300, 200)
	test.FocusNext(win.Canvas())
	if !a.Editing() {
		t.Fatal("Tab does not find the first field")
	}
	a.Entry().TypedKey(key(fyne.KeyReturn))
	if !b.Editing() || a.Editing() {
		t.Error("Enter does not go on to the second field")
	}
}

func TestTextFieldTellsAndKeeps(t *testing.T) {
	var last, done string
	f := kit.NewTextField("Name", "name of the bake")
	f.OnChanged = func(s string) { last = s }
	f.OnDone = func(s string) { done = s }
	win := window(t, f, 300, 100)
	f.SetText("Ferry loaf")
	if last != "" {
		t.Error("setting told OnChanged")
	}
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyEnd))
	more(f.Entry(), " 2")
	if last != "Ferry loaf 2" || done != "" {
		t.Errorf("told %q, done %q", last, done)
	}
	win.Canvas().Unfocus()
	if done != "Ferry loaf 2" {
		t.Errorf("done %q", done)
	}
}

func TestNoteFieldGrows(t *testing.T) {
	f := kit.NewNoteField("Notes", "what was noticed")
	win := window(t, f, 300, 400)
	short := f.MinSize().Height
	f.SetText(strings.Repeat("slack after the second turn; ", 12))
	if f.MinSize().Height < short+60 {
		t.Errorf("height went from %v to %v", short, f.MinSize().Height)
	}
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyReturn))
	if !strings.Contains(f.Text(), "\n") {
		t.Error("Enter does not begin a line in a note")
	}
}

func TestWhenFieldReadsAndWrites(t *testing.T) {
	now := someNow(t)
	var got time.Time
	f := kit.NewWhenField(kit.WhenOptions{Label: "Fed", Now: func() time.Time { return now },
		OnChanged: func(at time.Time) { got = at }})
	win := window(t, f, 400, 400)
	f.SetTime(now.Add(-26 * time.Hour))
	if f.Text() != "24\u00a0Nov 06:54" {
		t.Errorf("shows %q", f.Text())
	}
	typeInto(t, win, f.Entry(), "yesterday 21:10")
	if got.Format("02 15:04") != "24 21:10" {
		t.Errorf("told %v", got)
	}
	more(f.Entry(), " or so")
	if _, has := f.Time(); has || f.Understood() || f.Problem() == "" {
		t.Errorf("bad text: it has a time %v, sentence %q", has, f.Problem())
	}
}

func TestMonthPicksADayAndKeepsTheHour(t *testing.T) {
	now := someNow(t)
	var got time.Time
	f := kit.NewWhenField(kit.WhenOptions{Now: func() time.Time { return now }, OnChanged: func(at time.Time) { got = at }})
	win := window(t, f, 400, 400)
	f.SetTime(time.Date(2026, 1, 31, 7, 30, 0, 0, now.Location()))
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyDown))
	m, isMonth := win.Canvas().Focused().(*kit.Month)
	if !isMonth {
		t.Fatalf("Down focuses %T, want the calendar", win.Canvas().Focused())
	}
	m.TypedKey(key(fyne.KeyPageDown)) // from 31 January to 28 February, not into March
	if got := m.Day().Format("2006-01-02"); got != "2026-02-28" {
		t.Errorf("a month on from 31 January is %s", got)
	}
	m.TypedKey(key(fyne.KeyUp))
	m.TypedKey(key(fyne.KeyReturn))
	if got.Format("2006-01-02 15:04") != "2026-02-21 07:30" {
		t.Errorf("picked %v", got)
	}
	if win.Canvas().Overlays().Top() != nil {
		t.Error("the calendar is still open")
	}
}

// A time that was written down in another zone keeps the hour that it has here.
func TestMonthKeepsTheHourOfATimeFromElsewhere(t *testing.T) {
	now := someNow(t)
	var got time.Time
	f := kit.NewWhenField(kit.WhenOptions{Now: func() time.Time { return now }, OnChanged: func(at time.Time) { got = at }})
	win := window(t, f, 400, 400)
	f.SetTime(time.Date(2026, 1, 31, 23, 30, 0, 0, now.Location()).In(time.FixedZone("", 5*3600))) // the first of February there
	win.Canvas().Focus(f.Entry())
	f.Entry().TypedKey(key(fyne.KeyDown))
	m := win.Canvas().Focused().(*kit.Month)
	m.TypedKey(key(fyne.KeyUp))
	m.TypedKey(key(fyne.KeyReturn))
	if got.Format("2006-01-02 15:04") != "2026-01-24 23:30" {
		t.Errorf("a week before 31 January 23:30 is %v", got)
	}
}

func TestChoiceField(t *testing.T) {
	var told []int
	c := kit.NewChoiceField("Culture", "which", []string{"Harbour", "Gorse", "Heather"}, func(i int) { told = append(told, i) })
	win := window(t, c, 300, 300)
	c.SetChosen(0)
	win.Canvas().Focus(c)
	c.TypedKey(key(fyne.KeyDown))
	c.TypedRune('h')
	c.TypedRune('h')
	if c.Word() != "Harbour" || len(told) != 3 {
		t.Errorf("chosen %q, told %v", c.Word(), told)
	}
	c.SetOptions([]string{"New", "Harbour"})
	if c.Word() != "Harbour" || c.Chosen() != 1 {
		t.Errorf("after other options the choice is %q", c.Word())
	}
}

// Who chooses with the mouse goes on with the keys of the page; one who has come by
// Tab still reaches them by every letter that begins no word.
func TestChoiceFieldLetsPageKeysThrough(t *testing.T) {
	c := kit.NewChoiceField("Culture", "which", []string{"Harbour", "Gorse"}, nil)
	win := window(t, c, 300, 300)
	done := 0
	kit.NewKeyboard(win.Canvas()).Set("Page", []kit.Key{{Name: "D", Do: func() { done++ }}})
	c.Tapped(&fyne.PointEvent{})
	menu := win.Canvas().Overlays().Top()
	if menu == nil {
		t.Fatal("the list did not open")
	}
	win.Canvas().Overlays().Remove(menu)
	if got := win.Canvas().Focused(); got != nil {
		t.Errorf("%T keeps the keyboard after the mouse", got)
	}
	win.Canvas().Focus(c)
	c.TypedRune('d')
	c.TypedRune('g')
	if done != 1 || c.Word() != "Gorse" {
		t.Errorf("the page's key was pressed %d times, %q is chosen", done, c.Word())
	}
}

// A word to choose stands on the line of the fields beside it.
func TestChoiceFieldIsAsHighAsAField(t *testing.T) {
	window(t, kit.Body(""), 10, 10)
	text, choice := kit.NewTextField("Name", ""), kit.NewChoiceField("Culture", "", nil, nil)
	if a, b := text.MinSize().Height, choice.MinSize().Height; a != b {
		t.Errorf("a text field is %v high, a choice %v", a, b)
	}
	if a, b := kit.NewTextField("", "").MinSize().Height, kit.LineHeight(); a != b {
		t.Errorf("a field without a label is %v high, a line %v", a, b)
	}
}

func TestSuggestFieldOffersWords(t *testing.T) {
	flours := []string{"Strong white", "Spelt", "Whole wheat"}
	taken := ""
	f := kit.NewSuggestField("Flour", "name", func(text string) []string {
		var out []string
		for _, s := range flours {
			if strings.HasPrefix(strings.ToLower(s), strings.ToLower(text)) {
				out = append(out, s)
			}
		}
		return out
	})
	f.OnTaken = func(s string) { taken = s }
	win := window(t, f, 400, 200)
	typeInto(t, win, f.Entry(), "s")
	if got := f.Offers(); len(got) != 2 {
		t.Fatalf("offers %v", got)
	}
	f.Entry().TypedKey(key(fyne.KeyDown))
	f.Entry().TypedKey(key(fyne.KeyDown))
	f.Entry().TypedKey(key(fyne.KeyReturn))
	if f.Text() != "Spelt" || taken != "Spelt" {
		t.Errorf("text %q, taken %q", f.Text(), taken)
	}
	more(f.Entry(), "x")
	win.Canvas().Unfocus()
	if f.Text() != "Speltx" || len(f.Offers()) != 0 {
		t.Errorf("a word of one's own became %q, offers %v", f.Text(), f.Offers())
	}
}

func TestScoreRow(t *testing.T) {
	var told []int
	s := kit.NewScoreRow("Sour", "not at all", "extremely", func(n int) { told = append(told, n) })
	win := window(t, s, 500, 120)
	win.Canvas().Focus(s)
	s.TypedRune('6')
	s.TypedKey(key(fyne.KeyRight))
	test.TapAt(s, fyne.NewPos(46*3+18, 28+18))
	s.TypedKey(key(fyne.KeyBackspace))
	want := []int{6, 7, 4, 0}
	if len(told) != len(want) {
		t.Fatalf("told %v, want %v", told, want)
	}
	for i := range want {
		if told[i] != want[i] {
			t.Fatalf("told %v, want %v", told, want)
		}
	}
	s.SetScore(12)
	if s.Score() != 0 {
		t.Errorf("a score of 12 is shown as %d", s.Score())
	}
}

// Two rows of nine circles have room side by side on a page of the least window, 672 points
// wide: each circle is as large as what is pressed has to be (look.md: 32), and hit where it is.
func TestScoreRowInAColumn(t *testing.T) {
	score := 0
	s := kit.NewScoreRow("Sour", "not at all", "extremely", func(n int) { score = n })
	window(t, container.NewWithoutLayout(s), 400, 120)
	s.Resize(fyne.NewSize(324, 90))
	circles := 0
	for _, o := range test.WidgetRenderer(s).Objects() {
		c, ok := o.(*canvas.Circle)
		if !ok {
			continue
		}
		circles++
		at, size := c.Position(), c.Size()
		if size.Width < 32 || at.X+size.Width > 324 {
			t.Errorf("circle %d is %v wide at %v", circles, size.Width, at.X)
		}
		test.TapAt(s, at.AddXY(size.Width/2, size.Height/2))
		if score != circles {
			t.Errorf("circle %d scored %d", circles, score)
		}
	}
	if circles != 9 || s.MinSize().Width > 324 {
		t.Errorf("%d circles, %v wide at least", circles, s.MinSize().Width)
	}
}

// A figure is bound once: got from a record, shown, typed, and set in it.
func TestBoundFigures(t *testing.T) {
	type grams float64
	type record struct {
		weight *grams
		cooled time.Duration
		loaves int
	}
	weight := kit.Optional(func(r *record) **grams { return &r.weight })
	cooled := kit.NonZero(func(r *record) *time.Duration { return &r.cooled }, time.Minute)
	loaves := kit.NonZero(func(r *record) *int { return &r.loaves }, 1)
	for _, b := range []kit.Bound[record]{weight, cooled, loaves} {
		r := record{}
		if v := b.Get(&r); v != nil {
			t.Errorf("an empty record has %v", *v)
		}
		b.Set(&r, new(90.0))
		if v := b.Get(&r); v == nil || *v != 90 {
			t.Errorf("90 came back as %v", v)
		}
		b.Set(&r, nil)
		if r != (record{}) {
			t.Errorf("none left %+v", r)
		}
	}
	r := record{}
	cooled.Set(&r, new(1.5))
	if r.cooled != 90*time.Second {
		t.Errorf("a minute and a half is kept as %v", r.cooled)
	}
	f := kit.NewQuantityField(kit.QuantityOptions{Measure: measure.Units{}.Weight(), Keep: func(v *float64) { weight.Set(&r, v) }})
	win := window(t, f, 300, 100)
	f.Set(new(500.0))
	if v, ok := f.Value(); !ok || v != 500 {
		t.Errorf("it shows %v, %v", v, ok)
	}
	typeInto(t, win, f.Entry(), "20")
	if r.weight == nil || *r.weight != 20 {
		t.Errorf("typed 20, kept %v", r.weight)
	}
	win.Canvas().Unfocus()
	f.Set(nil)
	if _, ok := f.Value(); ok || f.Text() != "" {
		t.Errorf("none is shown as %q", f.Text())
	}
}

// someNow is a Wednesday, in a zone with summer time.
func someNow(t testing.TB) time.Time {
	t.Helper()
	zone, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatalf("loading a zone: %v", err)
	}
	return time.Date(2026, 11, 25, 8, 54, 30, 0, zone)
}
