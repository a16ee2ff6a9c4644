package kit_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/journal/measure"
)

// What is due says so in plain words; a whole minute late it says first by how much.
func TestDueSaysByHowMuchItIsOverdue(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	d := kit.NewDue(0)
	for _, tt := range []struct {
		by   time.Time
		late bool
		want string
	}{
		{time.Time{}, false, "feed it"},
		{now.Add(time.Hour), false, "feed it"},
		{now, false, "feed it"},
		{now.Add(-59 * time.Second), false, "feed it"},
		{now.Add(-time.Minute), true, "overdue by 1\u00a0min feed it"},
		{now.Add(-150*time.Minute - 30*time.Second), true, "overdue by 2\u00a0h 30\u00a0min feed it"},
		{now.AddDate(0, 0, -3), true, "overdue by 3 days feed it"},
	} {
		d.Set("feed it", tt.by, now, measure.Units{})
		if d.Late() != tt.late || kit.Overdue(tt.by, now) != tt.late || d.String() != tt.want {
			t.Errorf("due %v: it says %q, late %v", tt.by, d.String(), d.Late())
		}
	}
}

// Asked each second, it is drawn anew when the minute is another, and only then; and in
// both of its states, from the one to the other and back.
func TestDueIsDrawnAnewByTheMinute(t *testing.T) {
	by := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	d := kit.NewDue(0)
	window(t, d, 400, 60)
	seen := func() int { // pieces of the picture that are shown
		n := 0
		for _, o := range test.WidgetRenderer(d).Objects() {
			if o.Visible() {
				n++
			}
		}
		return n
	}
	var was fyne.Size
	for _, tt := range []struct {
		at    time.Duration
		says  string
		seen  int
		wider bool // than it was
	}{
		{-time.Second, "feed it", 1, true},
		{59 * time.Second, "feed it", 1, false},
		{60 * time.Second, "overdue by 1\u00a0min feed it", 3, true},
		{61 * time.Second, "overdue by 1\u00a0min feed it", 3, false},
		{119 * time.Second, "overdue by 1\u00a0min feed it", 3, false},
		{10 * time.Minute, "overdue by 10\u00a0min feed it", 3, true},
		{599 * time.Minute, "overdue by 9\u00a0h 59\u00a0min feed it", 3, true},
	} {
		d.Set("feed it", by, by.Add(tt.at), measure.Units{})
		if d.String() != tt.says || seen() != tt.seen {
			t.Errorf("after %v it says %q, and %d pieces are seen", tt.at, d.String(), seen())
		}
		if is := d.MinSize(); (is.Width > was.Width) != tt.wider {
			t.Errorf("after %v it is %v wide, and was %v", tt.at, is.Width, was.Width)
		}
		was = d.MinSize()
	}
	d.Set("feed it", by.Add(24*time.Hour), by.Add(time.Minute), measure.Units{}) // fed meanwhile
	if d.Late() || seen() != 1 {
		t.Errorf("fed, it says %q", d.String())
	}
	// What is drawn says the same, and within a minute nothing is drawn over.
	d.Set("feed it", by, by.Add(time.Minute), measure.Units{})
	tagOf(d).Text = "a mark"
	d.Set("feed it", by, by.Add(110*time.Second), measure.Units{})
	if got := tagOf(d).Text; got != "a mark" {
		t.Errorf("within a minute it is drawn anew: %q", got)
	}
	d.Set("feed it", by, by.Add(120*time.Second), measure.Units{})
	if got := tagOf(d).Text; got != "overdue by 2\u00a0min" {
		t.Errorf("a minute later it is drawn as %q", got)
	}
}

// tagOf is the text by which it says by how much it is overdue, as it is on the screen.
func tagOf(d *kit.Due) *canvas.Text {
	for _, o := range test.WidgetRenderer(d).Objects() {
		if w, ok := o.(fyne.Widget); ok && w.Visible() {
			return test.WidgetRenderer(w).Objects()[0].(*canvas.Text)
		}
	}
	return nil
}

// Where there is no room beside it, what is due stands beneath, and never over the edge.
func TestDueKeepsToItsWidth(t *testing.T) {
	by := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	d := kit.NewDue(40)
	w := window(t, kit.Stack(0, d), 900, 400)
	d.Set("at 09:00", by, by.Add(15*time.Minute), measure.Units{})
	for _, width := range []float32{900, 460} {
		w.Resize(fyne.NewSize(width, 400))
		beneath := d.MinSize().Height > 80
		if beneath != (width < 600) {
			t.Errorf("%v wide, it is %v", width, d.MinSize())
		}
		for _, o := range test.WidgetRenderer(d).Objects() {
			if o.Visible() && o.Position().X+o.MinSize().Width > d.Size().Width {
				t.Errorf("%v wide, something ends at %v", width, o.Position().X+o.MinSize().Width)
			}
		}
	}
}
