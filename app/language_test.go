package app

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/maintest"
	"twinloaf/assets/demo"
	"twinloaf/assets/words"
	"twinloaf/journal"
)

// The window of 1280 by 800 points as it is at 100 % text, and the same pixels at 150 %.
var textSizes = []struct {
	percent int
	points  fyne.Size
}{{100, fyne.NewSize(1280, 800)}, {150, fyne.NewSize(1280/1.5, 800/1.5)}}

// Every page in every language at either size of text: no text runs out of what holds it, and
// no two lie over each other.
func TestEveryPageInEveryLanguage(t *testing.T) {
	for _, l := range words.Languages() {
		t.Run(l.Name, func(t *testing.T) {
			t.Setenv("LANG", "en_GB.UTF-8")
			a := test.NewTempApp(t)
			dir := t.TempDir()
			now := time.Date(2026, time.November, 24, 10, 30, 0, 0, time.UTC)
			if err := demo.Build(t.Context(), dir, now, demo.Options{NoPictures: true}); err != nil {
				t.Fatal(err)
			}
			j, err := journal.Open(t.Context(), dir, journal.Options{Clock: func() time.Time { return now }})
			if err != nil {
				t.Fatal(err)
			}
			if err := j.Set("language", func(s *journal.Settings) { s.Language = l.Tag }); err != nil {
				t.Fatal(err)
			}
			w := compose(a, j, maintest.New().Do)
			t.Cleanup(func() {
				w.Close()
				if err := words.Speak("en"); err != nil {
					t.Error(err)
				}
			})
			places, _ := everyPlace(t, j)
			seen := map[string]bool{}
			for _, p := range places {
				w.Go(p)
				w.env.Wait()
				for _, size := range textSizes {
					for range 3 { // texts that wrap know their height once they know their width
						w.win.Resize(size.points.AddWidthHeight(1, 1))
						w.win.Resize(size.points)
					}
					for _, fault := range faults(w.win.Canvas()) {
						if !seen[fault] {
							seen[fault] = true
							t.Errorf("%s at %d %%: %s", p.Name, size.percent, fault)
						}
					}
				}
				w.win.Resize(textSizes[0].points)
			}
		})
	}
}

// piece is one text where it stands, and what of the window it may be seen in.
type piece struct {
	text       string
	x, y, w, h float32
}

// faults tells of every text that is cut off at its side and of any two in one place.
func faults(c fyne.Canvas) []string {
	var out []string
	var all []piece
	size := c.Size()
	var walk func(o fyne.CanvasObject, at fyne.Position, left, right, top, bottom float32)
	walk = func(o fyne.CanvasObject, at fyne.Position, left, right, top, bottom float32) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		switch o := o.(type) {
		case *canvas.Text:
			m := fyne.MeasureText(strings.TrimRight(o.Text, " "), o.TextSize, o.TextStyle)
			if o.FontSource != nil {
				m, _ = fyne.CurrentApp().Driver().RenderedTextSize(strings.TrimRight(o.Text, " "), o.TextSize, o.TextStyle, o.FontSource)
			}
			if strings.TrimSpace(o.Text) == "" || at.Y+m.Height <= top || at.Y >= bottom {
				return
			}
			if over := at.X + m.Width - right; over > 1.5 {
				out = append(out, fmt.Sprintf("%q is cut off by %.0f points at the right", o.Text, over))
			}
			if over := left - at.X; over > 1.5 {
				out = append(out, fmt.Sprintf("%q is cut off by %.0f points at the left", o.Text, over))
			}
			all = append(all, piece{o.Text, at.X, at.Y, m.Width, m.Height})
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, at, left, right, top, bottom)
			}
		case fyne.Widget:
			if s, ok := o.(*container.Scroll); ok {
				top, bottom = max(top, at.Y), min(bottom, at.Y+s.Size().Height)
				if s.Direction == container.ScrollHorizontalOnly || s.Direction == container.ScrollBoth {
					left, right = -1e6, 1e6
				} else {
					left, right = max(left, at.X), min(right, at.X+s.Size().Width)
				}
			}
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, at, left, right, top, bottom)
			}
		}
	}
	walk(c.Content(), fyne.Position{}, 0, size.Width, 0, size.Height)
	for i, a := range all {
		for _, b := range all[i+1:] {
			wide := min(a.x+a.w, b.x+b.w) - max(a.x, b.x)
			high := min(a.y+a.h, b.y+b.h) - max(a.y, b.y)
			if wide > 3 && high > 0.4*min(a.h, b.h) {
				out = append(out, fmt.Sprintf("%q lies over %q", a.text, b.text))
			}
		}
	}
	return out
}
