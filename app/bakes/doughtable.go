package bakes

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// doughTable is one part of a dough as lines that are written in place: a name and
// a weight each, with the baker's percentage beside it. Below the last line there is
// always an empty one; a word in it makes it a line.
type doughTable struct {
	page  *bakePage
	part  int
	box   *fyne.Container
	lines []*doughLine
	spare *doughLine
	head  []*kit.Text
}

func newDoughTable(p *bakePage, part int) *doughTable {
	t := &doughTable{page: p, part: part}
	for _, word := range []string{lang.L("what"), lang.L("as"), lang.L("weight"), lang.L("of the flour")} {
		t.head = append(t.head, kit.NewLine(kit.Span{Text: word, Size: look.TextSmall, Color: look.ColorFaint}))
	}
	t.box = &fyne.Container{Layout: doughLayout{t}}
	t.spare = t.newLine("")
	t.arrange()
	return t
}

// newLine makes the widgets of a line; without an ID it is one that is not written
// in the journal yet.
func (t *doughTable) newLine(id journal.ID) *doughLine {
	if id == "" {
		fresh, err := t.page.env.Journal.NewID()
		t.page.env.Fail(err)
		id = fresh
	}
	return newDoughLine(t, id)
}

// sync shows the lines as they are in the journal. Lines that stay keep their
// widgets, so that the caret stays where it is.
func (t *doughTable) sync(views []lineView) {
	var next []*doughLine
	for _, v := range views {
		next = append(next, t.find(v.ID))
	}
	if slices.ContainsFunc(next, func(l *doughLine) bool { return l == t.spare }) {
		t.spare = t.newLine("")
	}
	if same := slices.Equal(next, t.lines); !same {
		t.lines = next
		t.arrange()
	}
	for i, v := range views {
		t.lines[i].set(v, i)
	}
	t.spare.position = len(views)
	t.box.Refresh()
}

// find gives the line of an ID, a new one if there is none.
func (t *doughTable) find(id journal.ID) *doughLine {
	for _, l := range append(t.lines, t.spare) {
		if l.id == id {
			return l
		}
	}
	return t.newLine(id)
}

// arrange puts the widgets into the order in which Tab goes through them: names
// and weights line by line, and only then what is seldom needed.
func (t *doughTable) arrange() {
	var first, then []fyne.CanvasObject
	for _, l := range append(slices.Clone(t.lines), t.spare) {
		first = append(first, l.name, l.grams)
		if l != t.spare {
			then = append(then, l.role, l.more, l.drop, l.percent)
		}
		if l.details != nil {
			then = append(then, l.details)
		}
	}
	for _, h := range t.head {
		first = append(first, h)
	}
	t.box.Objects = append(first, then...)
}

// edit keeps what is typed on a line.
func (t *doughTable) edit(label string, id journal.ID, set func(*journal.Ingredient)) {
	t.page.rec.edit(label, func(b *journal.Bake) { set(lineOf(b, t.part, id)) })
}

// remove takes a line out of the dough.
func (t *doughTable) remove(l *doughLine) {
	name := l.name.Text()
	done := t.page.rec.do(lang.L("taking out a line of the dough"), func(b *journal.Bake) {
		if lines := linesOf(b, t.part); lines != nil {
			*lines = slices.DeleteFunc(*lines, func(in journal.Ingredient) bool { return in.ID == l.id })
		}
	})
	if !done {
		return
	}
	if name == "" {
		name = lang.L("A line")
	}
	t.page.env.Say(lang.L("{{.Name}} is taken out.", map[string]any{"Name": name}), true)
}

// edited gives the line that has the cursor, or nil.
func (t *doughTable) edited() *doughLine {
	for _, l := range t.lines {
		if l.busy() {
			return l
		}
	}
	return nil
}

// doughLayout sets the lines in columns. What a line is asked about opens beneath it.
type doughLayout struct{ t *doughTable }

// The widths of the columns beside the name, in points.
const (
	roleWidth    = 116
	gramsWidth   = 96
	percentWidth = 84
	signWidth    = 24
	columnGap    = 12
)

func (d doughLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(35)+roleWidth+gramsWidth+percentWidth+2*signWidth+5*columnGap, d.run(nil))
}

func (d doughLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	d.run(&size)
}

// run walks the lines, placing them where there is a size, and gives the height.
func (d doughLayout) run(size *fyne.Size) float32 {
	width := float32(600)
	if size != nil {
		width = size.Width
	}
	drop := width - signWidth
	more := drop - signWidth - columnGap
	percent := more - percentWidth - columnGap
	grams := percent - gramsWidth - columnGap
	role := grams - roleWidth - columnGap
	put := func(o fyne.CanvasObject, x, y, w float32) {
		if size != nil {
			o.Resize(fyne.NewSize(w, o.MinSize().Height))
			o.Move(fyne.NewPos(x, y))
		}
	}
	for i, x := range []float32{0, role, grams, percent} {
		put(d.t.head[i], x, 0, d.t.head[i].MinSize().Width)
	}
	put(d.t.head[3], percent+percentWidth-d.t.head[3].MinSize().Width, 0, d.t.head[3].MinSize().Width)
	y := d.t.head[0].MinSize().Height + look.Space(0.5)
	for _, l := range append(slices.Clone(d.t.lines), d.t.spare) {
		put(l.name, 0, y, role-columnGap)
		put(l.grams, grams, y, gramsWidth)
		h := max(l.name.MinSize().Height, l.grams.MinSize().Height)
		if l != d.t.spare {
			row := min(l.name.MinSize().Height, l.grams.MinSize().Height)
			mid := func(o fyne.CanvasObject) float32 { return y + (row-o.MinSize().Height)/2 }
			put(l.role, role, mid(l.role), roleWidth)
			put(l.more, more, mid(l.more), signWidth)
			put(l.drop, drop, mid(l.drop), signWidth)
			w := l.percent.MinSize().Width
			put(l.percent, percent+percentWidth-w, mid(l.percent), w)
		}
		y += h + look.Space(0.5)
		if l.details != nil {
			if size != nil {
				l.details.Resize(fyne.NewSize(width-look.Space(4), l.details.MinSize().Height))
				l.details.Resize(fyne.NewSize(width-look.Space(4), l.details.MinSize().Height))
				l.details.Move(fyne.NewPos(look.Space(4), y))
			}
			y += l.details.MinSize().Height + look.Space(3)
		}
	}
	return y
}

// roleAt and roleIndex go between the roles and their places in the choice.
func roleIndex(r formula.Role) int {
	if r == "" {
		r = formula.Other
	}
	return slices.Index(formula.Roles(), r)
}
