package kit

import (
	"cmp"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// DialogOptions says what a dialog shows.
type DialogOptions struct {
	Title   string
	Content fyne.CanvasObject
	// Buttons stand at the right of the foot, the main one last.
	Buttons []fyne.CanvasObject
	// Aside stands at the left of the foot.
	Aside fyne.CanvasObject
	// Width and Height are what it would like; it never exceeds the window. Zero
	// height: as much as the content asks. Zero width: 480.
	Width, Height float32
	// Scroll lets the content scroll when it is taller than the dialog.
	Scroll bool
	// OnEnter is what the main button does, and with it Enter, in a field of one line
	// too, and Ctrl+Enter in any. All of them wait until everything typed in the dialog
	// is understood.
	OnEnter func()
	// Passing says that what is typed in the dialog is of no use after it: closing it
	// asks nothing.
	Passing bool
	// Holds says that the dialog has something to lose besides what its fields know.
	Holds func() bool
	// OnEscape is what Esc does where it does not close the dialog.
	OnEscape func()
	// OnClosed is called once, however it is closed.
	OnClosed func()
	// Keys work while the dialog is on top.
	Keys []Key
}

// Dialog is a piece of raised paper over the window. Esc closes it, after asking if
// something was typed in it.
type Dialog struct {
	widget.BaseWidget
	canvas  fyne.Canvas
	o       DialogOptions
	column  fyne.CanvasObject
	content fyne.CanvasObject
	scroll  *container.Scroll
	told    *Text // why it was not saved
	float   *float
	closed  bool
	keyWas  func(*fyne.KeyEvent)
	runeWas func(rune)
}

// ShowDialog puts a dialog over the window and gives it the keys.
func ShowDialog(win fyne.Window, o DialogOptions) *Dialog { return showDialog(win.Canvas(), o) }

func showDialog(c fyne.Canvas, o DialogOptions) *Dialog {
	s := &Dialog{canvas: c, o: o, float: newFloat()}
	s.o.Width = cmp.Or(s.o.Width, 480)
	s.content = o.Content
	if s.content == nil {
		s.content = Gap(0)
	}
	body := s.content
	bleed := float32(0)
	if o.Scroll { // a scroll cuts off what reaches beyond it, as the rim of a field does
		bleed = entryInset
		s.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, bleed, bleed), s.content))
		s.scroll.OnScrolled = func(fyne.Position) { s.float.place() }
		body = s.scroll
	}
	foot := RowGrow(2, 0, aside(o.Aside))
	buttons := s.withWayOut()
	for _, b := range buttons {
		foot.Add(b)
		if b, ok := b.(*Button); ok && b.Main() {
			b.ready = s.ready
		}
	}
	s.told = NewText(Span{Color: look.ColorEmber})
	s.told.Hide()
	below := Stack(2, s.told, foot)
	SetVisible(below, len(buttons) > 0 || o.Aside != nil)
	title := NewText(Span{Text: o.Title, Size: look.TextTitle, Serif: true})
	SetVisible(title, o.Title != "")
	s.column = container.New(dialogColumn{bleed}, title, body, below)
	s.keyWas, s.runeWas = c.OnTypedKey(), c.OnTypedRune()
	c.SetOnTypedKey(s.typedKey)
	c.SetOnTypedRune(s.typedRune)
	s.ExtendBaseWidget(s)
	s.Resize(c.Size())
	c.Overlays().Add(s)
	s.Resize(c.Size())
	return s
}

// withWayOut gives the buttons with a way out by mouse, where none of them has its key: what
// Esc does, as a button. A dialog without a title, such as that of a work under way, has its
// own; one that only tells or asks something is left by its buttons.
func (s *Dialog) withWayOut() []fyne.CanvasObject {
	out, esc := s.o.Buttons, lang.L("Esc")
	switch {
	case s.o.Title == "" || slices.ContainsFunc(out, func(o fyne.CanvasObject) bool { b, ok := o.(*Button); return ok && b.key == esc }):
		return out
	case len(out) == 0:
		return []fyne.CanvasObject{NewButton(lang.L("Close"), s.escape).WithKey(esc)}
	case s.o.Holds == nil && len(within[handled](s.content)) == 0:
		return out
	}
	// What deletes stands farther from what saves.
	at := max(0, slices.IndexFunc(out, func(o fyne.CanvasObject) bool { b, ok := o.(*Button); return !ok || b.kind != quietKind }))
	return slices.Insert(slices.Clone(out), at, fyne.CanvasObject(NewButton(lang.L("Cancel"), s.escape).WithKey(esc)))
}

// aside keeps what stands at the left of the foot clear of the buttons: the rim of a field
// reaches beyond it.
func aside(o fyne.CanvasObject) fyne.CanvasObject {
	if o == nil {
		return Gap(0)
	}
	return container.New(layout.NewCustomPaddedLayout(0, 0, 0, look.Space(2)), o)
}

// Close takes the dialog away. Closing twice is harmless.
func (s *Dialog) Close() {
	if s.closed {
		return
	}
	s.closed = true
	s.canvas.Overlays().Remove(s)
	s.canvas.SetOnTypedKey(s.keyWas)
	s.canvas.SetOnTypedRune(s.runeWas)
	call(s.o.OnClosed)
}

// Open says whether the dialog is still there.
func (s *Dialog) Open() bool { return !s.closed }

func (s *Dialog) typedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		s.escape()
		return
	case fyne.KeyReturn, fyne.KeyEnter:
		if s.submit() {
			return
		}
	}
	if name, ok := keyWords[ev.Name]; ok && !s.press(name) && s.scroll != nil {
		scrollBy(s.scroll, ev.Name)
	}
}

// submit does what the main button does, once everything typed is understood. It reports
// whether the dialog has such a thing.
func (s *Dialog) submit() bool {
	if s.o.OnEnter == nil {
		return false
	}
	if s.ready() {
		byKey(s.canvas, s.o.OnEnter)
	}
	return true
}

// SubmitDialog does what the main button of the dialog on top does, if there is a dialog:
// for the key that does so wherever the cursor is.
func SubmitDialog(c fyne.Canvas) {
	if s, ok := c.Overlays().Top().(*Dialog); ok {
		s.submit()
	}
}

func (s *Dialog) typedRune(r rune) { s.press(string(r)) }

func (s *Dialog) press(name string) bool {
	for _, k := range s.o.Keys {
		if sameKey(k.Name, name) && k.Do != nil {
			byKey(s.canvas, k.Do)
			return true
		}
	}
	return false
}

// Tapped swallows taps beside the dialog: it holds work that a slip must not lose.
func (s *Dialog) Tapped(*fyne.PointEvent) {}

func (s *Dialog) CreateRenderer() fyne.WidgetRenderer {
	paper := canvas.NewRectangle(color.Transparent)
	paper.CornerRadius = 2 * look.Radius
	dim := canvas.NewRectangle(color.Transparent)
	d := &Drawing{Of: s, Things: []fyne.CanvasObject{dim, paper, s.column, s.float.box}}
	d.Least = func() fyne.Size { return fyne.NewSize(1, 1) }
	d.Lay = func(size fyne.Size) {
		dim.Resize(size)
		pad, margin := look.Space(7), look.Space(6)
		w := min(s.o.Width, size.Width-2*margin)
		h := s.o.Height
		if h == 0 {
			h = FitHeight(s.column, w-2*pad) + 2*pad
			if s.o.Scroll {
				h += FitHeight(s.content, w-2*pad)
			}
		}
		h = min(h, size.Height-2*margin)
		paper.Resize(fyne.NewSize(w, h))
		at := fyne.NewPos((size.Width-w)/2, max(margin, (size.Height-h)*0.4))
		paper.Move(at)
		Put(s.column, at.Add(fyne.NewPos(pad, pad)), fyne.NewSize(w-2*pad, h-2*pad))
		s.float.box.Resize(size)
		s.float.place()
	}
	d.Paint = func() {
		dim.FillColor = theme.Color(look.ColorVeil)
		paper.FillColor = theme.Color(look.ColorRaised)
		paper.StrokeColor = theme.Color(look.ColorRule)
		paper.StrokeWidth = 1
		s.column.Refresh()
	}
	return d.Painted()
}

// dialogColumn puts the title on top, the foot at the bottom and gives the body the
// height between them. The body reaches beyond the column by bleed at either side.
type dialogColumn struct{ bleed float32 }

func (dialogColumn) MinSize(things []fyne.CanvasObject) fyne.Size {
	return stackLayout{gap: look.Space(4)}.MinSize(things)
}

func (l dialogColumn) Layout(things []fyne.CanvasObject, size fyne.Size) {
	title, body, foot := things[0], things[1], things[2]
	y, bottom := float32(0), size.Height
	if title.Visible() {
		y = FitHeight(title, size.Width) + look.Space(4)
	}
	if foot.Visible() {
		h := FitHeight(foot, size.Width)
		bottom -= h
		foot.Move(fyne.NewPos(0, bottom))
		bottom -= look.Space(4)
	}
	Put(body, fyne.NewPos(-l.bleed, y), fyne.NewSize(size.Width+2*l.bleed, max(0, bottom-y)))
}

// Confirm asks before something is done: a title, a sentence that says what will
// happen, the words of the button that does it, which has the keyboard. Enter does it, Esc
// does not.
func Confirm(win fyne.Window, title, sentence, yes string, do func()) *Dialog {
	return ask(win, title, sentence, PrimaryButton(yes, nil), do)
}

// ConfirmLoss asks before something is lost for good. Enter does not do it: the
// keyboard is on the other button.
func ConfirmLoss(win fyne.Window, title, sentence, yes string, do func()) *Dialog {
	return ask(win, title, sentence, EmberButton(yes, nil), do)
}

func ask(win fyne.Window, title, sentence string, yes *Button, do func()) *Dialog {
	var s *Dialog
	yes.OnTapped = func() {
		s.Close()
		do()
	}
	no := NewButton(lang.L("Cancel"), func() { s.Close() }).WithKey(lang.L("Esc"))
	begin := no
	o := DialogOptions{Title: title, Content: Body(sentence), Buttons: []fyne.CanvasObject{no, yes}}
	if yes.kind == primaryKind {
		yes.WithKey(lang.L("Enter"))
		o.OnEnter = yes.press
		begin = yes
	}
	s = ShowDialog(win, o)
	win.Canvas().Focus(begin)
	return s
}

// Message tells something that needs no answer. Enter and Esc close it.
func Message(win fyne.Window, title, sentence string) *Dialog {
	var s *Dialog
	ok := PrimaryButton(lang.L("OK"), func() { s.Close() }).WithKey(lang.L("Enter"))
	s = ShowDialog(win, DialogOptions{Title: title, Content: Body(sentence),
		Buttons: []fyne.CanvasObject{ok}, OnEnter: func() { s.Close() }})
	win.Canvas().Focus(ok)
	return s
}
