package kit

// advances measures long text by the widths of its letters, each measured once. It
// leaves out how letters move together, which makes it a little wider than what is
// drawn, never by more than a letter to a line.
type advances struct {
	style Span
	tall  float32      // a line; zero: not measured yet
	ascii [128]float32 // likewise
	more  map[rune]float32
}

func newAdvances(s Span) *advances {
	s.Text = ""
	return &advances{style: s, more: map[rune]float32{}}
}

// height is that of a line.
func (a *advances) height() float32 {
	if a.tall == 0 {
		size, _ := a.style.measure("M")
		a.tall = size.Height
	}
	return a.tall
}

func (a *advances) of(r rune) float32 {
	if r >= 0 && int(r) < len(a.ascii) {
		if w := a.ascii[r]; w != 0 {
			return w
		}
		a.ascii[r] = a.measure(r)
		return a.ascii[r]
	}
	w, known := a.more[r]
	if !known {
		w = a.measure(r)
		a.more[r] = w
	}
	return w
}

func (a *advances) measure(r rune) float32 {
	size, _ := a.style.measure(string(r))
	return size.Width
}

// width is about how wide text is.
func (a *advances) width(text string) float32 {
	w := float32(0)
	for _, r := range text {
		w += a.of(r)
	}
	return w
}

// fit gives how many bytes of text are no wider than room: whole letters.
func (a *advances) fit(text string, room float32) int {
	w := float32(0)
	for i, r := range text {
		if w += a.of(r); w > room {
			return i
		}
	}
	return len(text)
}
