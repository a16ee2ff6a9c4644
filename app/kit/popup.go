package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// popup lays one thing over the whole window, on raised paper with an edge. A tap beside it
// closes it.
type popup struct {
	widget.BaseWidget
	canvas fyne.Canvas
	card   fyne.CanvasObject
}

// raisedPaper is what stands above a page: its edge tells it from what it covers.
func raisedPaper() *canvas.Rectangle {
	paper := canvas.NewRectangle(theme.Color(look.ColorRaised))
	paper.CornerRadius, paper.StrokeWidth, paper.StrokeColor = look.Radius, 1, theme.Color(look.ColorEdge)
	return paper
}

// onRaisedPaper lays a thing on such paper, which reaches beyond it by rim.
func onRaisedPaper(o fyne.CanvasObject, rim float32) fyne.CanvasObject {
	return container.NewStack(raisedPaper(), container.New(layout.NewCustomPaddedLayout(rim, rim, rim, rim), o))
}

// showPopup shows a thing at a place of the canvas, or as near to it as the window has room.
func showPopup(c fyne.Canvas, o fyne.CanvasObject, at fyne.Position) *popup {
	p := &popup{canvas: c, card: onRaisedPaper(o, look.Space(2))}
	p.ExtendBaseWidget(p)
	p.show(p, at)
	return p
}

// show puts a popup, or what is made of one, over the window.
func (p *popup) show(self fyne.CanvasObject, at fyne.Position) {
	window := p.canvas.Size()
	size := p.card.MinSize().Min(window) // a menu that is higher scrolls
	Put(p.card, fyne.NewPos(max(0, min(at.X, window.Width-size.Width)), max(0, min(at.Y, window.Height-size.Height))), size)
	self.Resize(window)
	p.canvas.Overlays().Add(self)
}

func (p *popup) close() { p.canvas.Overlays().Remove(p) }

// Tapped closes what was tapped beside.
func (p *popup) Tapped(*fyne.PointEvent) { p.close() }

func (p *popup) CreateRenderer() fyne.WidgetRenderer { return &popupRenderer{popup: p} }

type popupRenderer struct {
	*popup
	subs   []*widget.Menu      // the menus within a menu
	papers []*canvas.Rectangle // that they lie on
}

func (r *popupRenderer) Destroy()           {}
func (r *popupRenderer) MinSize() fyne.Size { return r.card.MinSize() }
func (r *popupRenderer) Layout(fyne.Size)   {}
func (r *popupRenderer) Refresh()           { r.card.Refresh() }

// Objects are the card and, beneath it, paper for the menu within the menu that is open: the
// toolkit tells nobody that it opens, so that this is looked up whenever it is drawn.
func (r *popupRenderer) Objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	rim := look.Space(1)
	for i, sub := range r.subs {
		if !sub.Visible() {
			continue
		}
		paper := r.papers[i]
		// A sub-menu's place is told from that of its menu, which lies on the card within a rim.
		if at := r.card.Position().Add(sub.Position()); paper.Position() != at {
			paper.Move(at)
		}
		paper.Resize(sub.Size().Add(fyne.NewSquareSize(2 * rim)))
		out = append(out, paper)
	}
	return append(out, r.card)
}

// menuPopup is a popup with a menu, which has the keyboard.
type menuPopup struct {
	popup
	menu *widget.Menu
}

// showMenu shows a menu at a place of the canvas.
func showMenu(c fyne.Canvas, at fyne.Position, items ...*fyne.MenuItem) {
	m := widget.NewMenu(fyne.NewMenu("", items...))
	p := &menuPopup{popup: popup{canvas: c, card: onRaisedPaper(m, look.Space(1))}, menu: m}
	p.ExtendBaseWidget(p)
	m.OnDismiss = func() { c.Overlays().Remove(p) }
	p.show(p, at)
	c.Focus(p)
}

func (p *menuPopup) CreateRenderer() fyne.WidgetRenderer {
	r := &popupRenderer{popup: &p.popup}
	for _, item := range p.menu.Items {
		if within, ok := item.(interface{ Child() *widget.Menu }); ok && within.Child() != nil {
			r.subs, r.papers = append(r.subs, within.Child()), append(r.papers, raisedPaper())
		}
	}
	return r
}

// Tapped closes the menu that was tapped beside.
func (p *menuPopup) Tapped(*fyne.PointEvent) { p.menu.Dismiss() }

func (p *menuPopup) FocusGained()   {}
func (p *menuPopup) FocusLost()     {}
func (p *menuPopup) TypedRune(rune) {}

// TypedKey goes through the menu.
func (p *menuPopup) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyDown:
		p.menu.ActivateNext()
	case fyne.KeyUp:
		p.menu.ActivatePrevious()
	case fyne.KeyRight:
		p.menu.ActivateLastSubmenu()
	case fyne.KeyLeft:
		p.menu.DeactivateLastSubmenu()
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		p.menu.TriggerLast()
	case fyne.KeyEscape:
		p.menu.Dismiss()
	}
}
