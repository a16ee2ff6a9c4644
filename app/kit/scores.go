package kit

import (
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// ScoreRow is a nine-point scale for one attribute: nine circles of ink, with words
// at both ends. Keys 1 to 9 score, arrows move, 0 or Backspace takes the score back.
// It carries no colour but ink, so that it may be used while a tasting is sealed.
type ScoreRow struct {
	widget.BaseWidget
	OnChanged func(score int) // 0: taken back

	name, low, high string
	score           int
	byHand          bool
	focused         bool
}

// NewScoreRow makes a row without a score. Low and high are the words under 1 and 9.
func NewScoreRow(name, low, high string, changed func(score int)) *ScoreRow {
	s := &ScoreRow{name: name, low: low, high: high, OnChanged: changed}
	s.ExtendBaseWidget(s)
	return s
}

// Score gives 1 to 9, or 0 without a score.
func (s *ScoreRow) Score() int { return s.score }

// SetScore shows a score without telling OnChanged; outside 1 to 9 it shows none.
func (s *ScoreRow) SetScore(n int) {
	if n < 1 || n > 9 {
		n = 0
	}
	s.score = n
	s.Refresh()
}

// ByHand says whether a score was given in the row.
func (s *ScoreRow) ByHand() bool { return s.byHand }

func (s *ScoreRow) give(n int) {
	if n < 0 || n > 9 || n == s.score {
		return
	}
	s.score, s.byHand = n, true
	s.Refresh()
	tell(s.OnChanged, n)
}

const (
	scoreSide  = 36 // of a circle
	scorePitch = 46 // from one to the next
	// scoreGap is what stays between two where there is little room, and scoreLeast
	// how close they come for it: each is still as large as what is pressed has to be.
	scoreGap   = 4
	scoreLeast = 36
)

// scoreGrid is how large the circles are in a row of a width, and how far it is from one to
// the next.
func scoreGrid(width float32) (side, pitch float32) {
	pitch = max(scoreLeast, min(scorePitch, float32(int((width-scoreSide)/8))))
	return min(scoreSide, pitch-scoreGap), pitch
}

// Tapped scores the circle that was hit.
func (s *ScoreRow) Tapped(ev *fyne.PointEvent) {
	focusOn(s)
	top := s.circlesTop()
	side, pitch := scoreGrid(s.Size().Width)
	if ev.Position.Y < top-4 || ev.Position.Y > top+side+4 {
		return
	}
	n := int((ev.Position.X+(pitch-side)/2)/pitch) + 1
	if n >= 1 && n <= 9 {
		s.give(n)
	}
}

func (s *ScoreRow) circlesTop() float32 {
	if s.name == "" {
		return 0
	}
	return look.Space(7)
}

func (s *ScoreRow) FocusGained() { s.focused = true; s.Refresh(); reveal(s) }

func (s *ScoreRow) FocusLost() { s.focused = false; s.Refresh() }

// TypedRune scores by digit.
func (s *ScoreRow) TypedRune(r rune) {
	if r >= '0' && r <= '9' {
		s.give(int(r - '0'))
		return
	}
	PassRune(s, r)
}

// TypedKey moves the score, and goes to the next row on Enter.
func (s *ScoreRow) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyRight:
		s.give(min(9, s.score+1))
	case fyne.KeyLeft:
		s.give(max(1, s.score-1))
	case fyne.KeyBackspace, fyne.KeyDelete:
		s.give(0)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown:
		if c := canvasOf(s); c != nil {
			c.FocusNext()
		}
	case fyne.KeyUp:
		if c := canvasOf(s); c != nil {
			c.FocusPrevious()
		}
	default:
		PassKey(s, ev)
	}
}

func (s *ScoreRow) CreateRenderer() fyne.WidgetRenderer {
	name := NewLine(Span{Text: s.name, Size: look.TextLead, Bold: true})
	low := NewLine(Span{Text: s.low, Size: look.TextSmall, Color: look.ColorFaint})
	high := NewLine(Span{Text: s.high, Size: look.TextSmall, Color: look.ColorFaint})
	ring := NewFocusRing(look.Space(4))
	var circles [9]*canvas.Circle
	var digits [9]*Text
	for i := range circles {
		circles[i] = canvas.NewCircle(color.Transparent)
		digits[i] = NewLine()
		digits[i].SetAlign(fyne.TextAlignCenter)
	}
	out := []fyne.CanvasObject{ring.Object(), name, low, high}
	for i := range circles {
		out = append(out, circles[i], digits[i])
	}
	r := &Drawing{Of: s, Things: out}
	r.Least = func() fyne.Size {
		h := s.circlesTop() + scoreSide
		if s.low != "" || s.high != "" {
			h += look.Space(1) + low.MinSize().Height
		}
		return fyne.NewSize(8*scoreLeast+scoreLeast-scoreGap, h)
	}
	r.Lay = func(size fyne.Size) {
		m := name.MinSize()
		Put(name, fyne.NewPos(0, 0), m)
		top := s.circlesTop()
		side, pitch := scoreGrid(size.Width)
		for i := range circles {
			x := float32(i) * pitch
			Put(circles[i], fyne.NewPos(x, top), fyne.NewSquareSize(side))
			d := digits[i].MinSize()
			Put(digits[i], fyne.NewPos(x, top+(side-d.Height)/2), fyne.NewSize(side, d.Height))
		}
		y, end := top+side+look.Space(1), 8*pitch+side
		Put(low, fyne.NewPos(0, y), low.MinSize())
		h := high.MinSize()
		Put(high, fyne.NewPos(end-h.Width, y), h)
		ring.around(fyne.NewPos(0, top), fyne.NewSize(end, side))
	}
	r.Paint = func() {
		ink := theme.Color(look.ColorInk)
		for i := range circles {
			c, digit := circles[i], Span{Text: strconv.Itoa(i + 1), Color: look.ColorFaint}
			edge := theme.Color(look.ColorEdge)
			c.FillColor, c.StrokeColor, c.StrokeWidth = clearOf(edge), edge, 1
			if i+1 == s.score {
				c.FillColor, c.StrokeColor = ink, ink
				digit.Color, digit.Bold = look.ColorPaper, true
			}
			digits[i].SetSpans(digit)
		}
		ring.Show(s, s.focused)
		name.Refresh()
		low.Refresh()
		high.Refresh()
	}
	return r.Painted()
}
