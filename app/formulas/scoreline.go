package formulas

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// A scoreLine draws how the bakes of a formula were scored, one after another, from 1 at
// its foot to 9 at its top. What the last one had is said beside it in words.
type scoreLine struct {
	widget.BaseWidget
	scores []int // oldest first
}

// mostScores is how many bakes a line goes back, and lineSize how large it is.
const mostScores = 12

var lineSize = fyne.NewSize(96, 28)

func newScoreLine() *scoreLine {
	s := &scoreLine{}
	s.ExtendBaseWidget(s)
	return s
}

func (s *scoreLine) set(scores []int) {
	s.scores = scores[max(0, len(scores)-mostScores):]
	s.Refresh()
}

func (s *scoreLine) CreateRenderer() fyne.WidgetRenderer {
	return &kit.Sketch{Of: s, Least: func() fyne.Size { return lineSize }, Draw: s.draw}
}

func (s *scoreLine) draw(size fyne.Size) []fyne.CanvasObject {
	n := len(s.scores)
	if n == 0 || size.Height <= 0 {
		return nil
	}
	const dot = 6
	at := func(i int) fyne.Position {
		x := size.Width - dot/2
		if n > 1 {
			x = dot/2 + (size.Width-dot)*float32(i)/float32(n-1)
		}
		return fyne.NewPos(x, size.Height-dot/2-(size.Height-dot)*float32(s.scores[i]-1)/8)
	}
	foot := canvas.NewRectangle(theme.Color(look.ColorRule))
	kit.Put(foot, fyne.NewPos(0, size.Height-1), fyne.NewSize(size.Width, 1))
	seen := []fyne.CanvasObject{foot}
	for i := 1; i < n; i++ {
		l := canvas.NewLine(theme.Color(look.ColorFaint))
		l.StrokeWidth = 1.5
		l.Position1, l.Position2 = at(i-1), at(i)
		seen = append(seen, l)
	}
	last := canvas.NewCircle(theme.Color(look.ColorCrust))
	last.StrokeColor = color.Transparent
	kit.Put(last, at(n-1).SubtractXY(dot/2, dot/2), fyne.NewSize(dot, dot))
	return append(seen, last)
}
