package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
)

// door is one way out of the sidebar.
type door struct {
	name string
	word func() string // in the user's language
	// also lists the pages that lie behind this door.
	also []string
}

// doors are the ways to the pages, in their order.
func doors() []door {
	return []door{
		{pages.Today, func() string { return lang.L("Today") }, []string{pages.BakeDay}},
		{pages.Cultures, func() string { return lang.L("Cultures") }, []string{pages.Culture, pages.Feeding, pages.Series, pages.History}},
		{pages.Bakes, func() string { return lang.L("Bakes") }, []string{pages.Bake, pages.Formulas, pages.Formula, pages.Photo, pages.Crumb, pages.Bin}},
		{pages.Tastings, func() string { return lang.L("Tastings") }, []string{pages.Tasting, pages.Trial}},
		{pages.Shelf, func() string { return lang.L("Shelf") }, []string{pages.Flour, pages.Compare}},
		{pages.Findings, func() string { return lang.L("Findings") }, nil},
	}
}

// sidebar is the thin column at the left: the name, the doors, the way to find.
type sidebar struct {
	widget.BaseWidget
	name  *canvas.Text
	doors []*doorway
	foot  []*doorway
	line  *canvas.Rectangle
	find  *kit.KeyHint
}

// sidebarWidth is in points.
const sidebarWidth = 148

func newSidebar(goTo func(pages.Route)) *sidebar {
	s := &sidebar{name: canvas.NewText("Twinloaf", theme.Color(look.ColorCrust)), line: canvas.NewRectangle(theme.Color(look.ColorRule)),
		find: kit.NewKeyHint("Ctrl+K", lang.L("find"))}
	s.name.TextSize = look.TextTitle
	s.name.FontSource = look.Serif()
	for _, d := range doors() {
		s.doors = append(s.doors, newDoorway(d, func() { goTo(pages.Route{Name: d.name}) }))
	}
	for _, d := range []door{
		{pages.Settings, func() string { return lang.L("Settings") }, []string{pages.Safekeeping}},
		{pages.Help, func() string { return lang.L("Help") }, nil},
	} {
		s.foot = append(s.foot, newDoorway(d, func() { goTo(pages.Route{Name: d.name}) }))
	}
	s.ExtendBaseWidget(s)
	return s
}

// mark shows behind which door the page lies.
func (s *sidebar) mark(page string) {
	for _, d := range append(append([]*doorway{}, s.doors...), s.foot...) {
		d.setHere(d.door.leadsTo(page))
	}
}

func (d door) leadsTo(page string) bool {
	return d.name == page || slices.Contains(d.also, page)
}

func (s *sidebar) CreateRenderer() fyne.WidgetRenderer {
	r := &kit.Drawing{Of: s, Things: []fyne.CanvasObject{s.name, s.line, s.find}, Lay: s.lay}
	for _, d := range append(append([]*doorway{}, s.doors...), s.foot...) {
		r.Things = append(r.Things, d)
	}
	r.Least = func() fyne.Size { return fyne.NewSize(sidebarWidth, look.Space(110)) }
	r.Paint = func() {
		s.name.Color, s.line.FillColor = theme.Color(look.ColorCrust), theme.Color(look.ColorRule)
		for _, o := range r.Things {
			o.Refresh()
		}
	}
	return r
}

func (s *sidebar) lay(size fyne.Size) {
	kit.Put(s.line, fyne.NewPos(size.Width-1, 0), fyne.NewSize(1, size.Height))
	kit.Put(s.name, fyne.NewPos(look.Space(6), look.Space(8)), s.name.MinSize())
	y := look.Space(22)
	for _, d := range s.doors {
		kit.Put(d, fyne.NewPos(0, y), fyne.NewSize(size.Width-1, look.Space(10)))
		y += look.Space(10)
	}
	y = size.Height - look.Space(8)
	kit.Put(s.find, fyne.NewPos(look.Space(6), y-s.find.MinSize().Height/2), s.find.MinSize())
	y -= look.Space(4)
	for i := len(s.foot) - 1; i >= 0; i-- {
		y -= look.Space(9)
		kit.Put(s.foot[i], fyne.NewPos(0, y), fyne.NewSize(size.Width-1, look.Space(9)))
	}
}

// doorway is one word of the sidebar.
type doorway struct {
	widget.BaseWidget
	kit.Pressable
	door door
	here bool
}

func newDoorway(d door, tapped func()) *doorway {
	w := &doorway{door: d}
	w.Pressable = kit.NewPressable(w, tapped)
	w.ExtendBaseWidget(w)
	return w
}

func (d *doorway) setHere(here bool) {
	if d.here != here {
		d.here = here
		d.Refresh()
	}
}

// Tapped goes through the door. The keyboard stays where it was.
func (d *doorway) Tapped(*fyne.PointEvent) { d.Press() }

func (d *doorway) CreateRenderer() fyne.WidgetRenderer {
	ring := kit.NewFocusRing(look.Radius)
	bar := canvas.NewRectangle(nil)
	word := canvas.NewText("", nil)
	r := &kit.Drawing{Of: d, Things: []fyne.CanvasObject{ring.Object(), bar, word}}
	r.Least = func() fyne.Size { return fyne.NewSize(sidebarWidth-1, look.Space(9)) }
	r.Lay = func(size fyne.Size) {
		ring.Within(size)
		bar.Resize(fyne.NewSize(3, size.Height))
		m := word.MinSize()
		kit.Put(word, fyne.NewPos(look.Space(7), (size.Height-m.Height)/2), m)
	}
	r.Paint = func() {
		word.Text = d.door.word()
		word.TextSize = look.TextBody
		word.TextStyle.Bold = d.here
		word.Color = theme.Color(look.ColorFaint)
		if d.here || d.Hovered() {
			word.Color = theme.Color(look.ColorInk)
		}
		ring.Show(d, d.Focused())
		bar.Hidden = !d.here
		bar.FillColor = theme.Color(look.ColorCrust)
	}
	return r.Painted()
}

// sideBySide gives the sidebar its width and the page the rest.
type sideBySide struct{}

func (sideBySide) MinSize(things []fyne.CanvasObject) fyne.Size {
	side, page := things[0], things[1].MinSize()
	if !side.Visible() {
		return page
	}
	s := side.MinSize()
	return fyne.NewSize(s.Width+page.Width, max(s.Height, page.Height))
}

func (sideBySide) Layout(things []fyne.CanvasObject, size fyne.Size) {
	side, page := things[0], things[1]
	var w float32
	if side.Visible() {
		w = sidebarWidth
		side.Resize(fyne.NewSize(w, size.Height))
	}
	kit.Put(page, fyne.NewPos(w, 0), fyne.NewSize(size.Width-w, size.Height))
}
