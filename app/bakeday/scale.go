package bakeday

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// scale is the part of the day's face that is read while weighing: large grams to be
// ticked off, for each dough that is weighed for now, side by side.
type scale struct {
	f      *dayStage
	beside *fyne.Container // where one dough's stands
	below  *fyne.Container // where several doughs' stand, or one's where there is little room
	lists  map[journal.ID]*kit.OpenRows
	shown  []weighing
	learn  map[journal.ID]learned // by dough, once it is known
	asked  map[journal.ID]bool
}

// sizeGrams is that of what is read from the scale's side of the bench.
const sizeGrams float32 = 34

func newScale(f *dayStage) *scale {
	s := &scale{f: f, beside: kit.Stack(1), below: kit.Stack(1), lists: map[journal.ID]*kit.OpenRows{},
		learn: map[journal.ID]learned{}, asked: map[journal.ID]bool{}}
	s.beside.Hide()
	s.below.Hide()
	return s
}

// show brings the lists up to the records.
func (s *scale) show() {
	now, u := s.f.env.Now(), s.f.env.Units()
	var kitchen *formula.Celsius
	if set, err := s.f.env.Journal.Settings(); err == nil {
		kitchen = set.Kitchen
	}
	var all []weighing
	for _, b := range s.f.all {
		step := weighingStep(b, now)
		if step == nil {
			continue
		}
		s.learnOf(b.ID)
		var water *formula.Celsius // none that would be another when friction is known
		if l, ok := s.learn[b.ID]; ok {
			water = pouredAt(b, kitchen, l, u)
		}
		all = append(all, weigh(b, step, water, u))
	}
	// The dough that the page is about comes first.
	for i, w := range all {
		if w.bake == s.f.bake.ID {
			all[0], all[i] = all[i], all[0]
		}
	}
	if len(all) > 0 && all[0].bake != s.f.bake.ID { // it is weighed for another: that one's page shows it
		all = nil
	}
	if slices.EqualFunc(all, s.shown, sameWeighing) {
		return
	}
	s.shown = all
	s.build()
}

func sameWeighing(a, b weighing) bool {
	return a.bake == b.bake && a.step == b.step && a.title == b.title && slices.Equal(a.rows, b.rows)
}

// learnOf asks, once for each dough, what earlier doughs say about friction.
func (s *scale) learnOf(id journal.ID) {
	if s.asked[id] {
		return
	}
	s.asked[id] = true
	pages.Fetch(s.f.env, func(ctx context.Context) (learned, error) { return learn(s.f.env.Journal.Until(ctx), id) }, func(l learned, err error) {
		if err == nil {
			s.learn[id] = l
			s.show()
		}
	})
}

func (s *scale) build() {
	var columns []fyne.CanvasObject
	for _, w := range s.shown {
		list := s.lists[w.bake]
		if list == nil {
			list = kit.NewOpenRows()
			s.lists[w.bake] = list
		}
		var rows []fyne.CanvasObject
		for _, r := range w.rows {
			rows = append(rows, kit.NewOpenRow(r.key, nil, weighRowObject(r, len(s.shown) > 2), func() { s.f.act.tick(w.bake, w.step, r.key, r.name) }))
		}
		list.Set(rows...)
		head := kit.Section(lang.L("On the scale: {{.Step}}", map[string]any{"Step": w.what}))
		if len(s.shown) > 1 {
			head = kit.Section(w.title)
		}
		rest := lang.L("everything is in")
		if n := w.left(); n > 0 {
			rest = lang.N("{{.N}} things left: W ticks off the next", n, map[string]any{"N": n})
		}
		columns = append(columns, kit.Stack(1, head, list, kit.Small(rest)))
	}
	s.beside.Objects, s.below.Objects = nil, nil
	beside := len(columns) == 1 && !s.f.room.narrow()
	switch {
	case len(columns) == 0:
	case beside:
		s.beside.Objects = columns
	default: // beneath the day's key, which would else be out of sight
		s.below.Objects = []fyne.CanvasObject{kit.Columns(look.Space(46), columns...)}
	}
	kit.SetVisible(s.beside, beside)
	kit.SetVisible(s.below, len(columns) > 0 && !beside)
	s.beside.Refresh()
	s.below.Refresh()
	s.f.body.Refresh()
}

// weighRowObject is one line: a tick, the grams, what it is, and that beneath the grams where
// there is little room.
func weighRowObject(r weighRow, narrow bool) fyne.CanvasObject {
	mark, ink := "○", look.ColorInk
	tick := look.ColorCrust
	if r.done {
		mark, ink, tick = "✓", look.ColorFaint, look.ColorField
	}
	name := []kit.Span{{Text: r.name, Size: look.TextLead, Color: ink}}
	if r.aside != "" {
		name = append(name, kit.Span{Text: "  " + r.aside, Size: look.TextLead, Bold: true, Color: ink})
	}
	ticked := kit.NewLine(kit.Span{Text: mark, Size: look.TextTitle, Bold: true, Color: tick})
	grams := kit.NewLine(kit.Span{Text: r.amount, Size: sizeGrams, Bold: !r.done, Color: ink})
	if narrow {
		return kit.RowGrow(3, 1, ticked, kit.Stack(0, grams, kit.NewText(name...)))
	}
	return kit.RowGrow(3, 2, ticked, grams, kit.NewText(name...))
}

// next ticks off the first thing that is not in yet.
func (s *scale) next() {
	for _, w := range s.shown {
		if w.bake != s.f.bake.ID {
			continue
		}
		for _, r := range w.rows {
			if !r.done {
				s.f.act.tick(w.bake, w.step, r.key, r.name)
				return
			}
		}
	}
}
