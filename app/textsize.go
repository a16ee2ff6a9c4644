package app

import (
	"os"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// The toolkit has one way only to make everything larger while it runs: this variable,
// which it reads anew whenever a theme is set.
const scaleVariable = "FYNE_SCALE"

// startScale is what the variable said when the program began.
var startScale = os.Getenv(scaleVariable)

// stepTextSize makes everything a step larger or smaller, or with 0 as large as usual.
func (w *window) stepTextSize(step int) {
	s, err := w.env.Journal.Settings()
	if err != nil {
		w.fail(err)
		return
	}
	sizes := pages.TextSizes()
	now := textSize(s)
	want := 100
	if i := slices.Index(sizes, now); step != 0 && i >= 0 {
		want = sizes[max(0, min(i+step, len(sizes)-1))]
	}
	if want == now {
		return
	}
	w.fail(w.env.Journal.Set(lang.L("text size"), func(s *journal.Settings) { s.TextSize = want }))
	w.say(lang.L("Text size {{.N}} %", map[string]any{"N": want}), false)
}

// textSize is the size of everything in percent of the usual: one of the steps, so that a
// figure from elsewhere makes nothing too large to be set right again.
func textSize(s *journal.Settings) int {
	if slices.Contains(pages.TextSizes(), s.TextSize) {
		return s.TextSize
	}
	return 100
}

// useTextSize brings the window to the size that the settings ask for. The window keeps
// its place on the screen; what it shows has less room or more.
func (w *window) useTextSize(s *journal.Settings, mode look.Mode) {
	scale := startScale
	if percent := textSize(s); percent != 100 {
		base, err := strconv.ParseFloat(startScale, 32)
		if err != nil || base <= 0 {
			base = 1
		}
		scale = strconv.FormatFloat(base*float64(percent)/100, 'f', 2, 64)
	}
	if scale == os.Getenv(scaleVariable) {
		return
	}
	c := w.win.Canvas()
	was, size := c.Scale(), c.Size()
	if err := os.Setenv(scaleVariable, scale); err != nil {
		w.fail(err)
		return
	}
	w.env.App.Settings().SetTheme(look.New(mode))
	w.env.Main(func() { // once the toolkit has taken the new scale
		if now := w.win.Canvas().Scale(); now > 0 && now != was {
			w.win.Resize(fyne.NewSize(size.Width*was/now, size.Height*was/now))
		}
	})
}
