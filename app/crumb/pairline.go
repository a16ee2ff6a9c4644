package crumb

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
)

// pairLine is a line of the table.
type pairLine struct{ name, a, b, diff, say *kit.Readout }

func newPairLine() *pairLine {
	l := &pairLine{}
	for _, r := range []**kit.Readout{&l.name, &l.a, &l.b, &l.diff, &l.say} {
		*r = kit.NewReadout("", false)
	}
	return l
}

func (l *pairLine) set(r pairRow) {
	l.name.Set(r.name, r.unit, "", r.tip)
	l.a.Set(r.a, "", "", r.tip)
	l.b.Set(r.b, "", "", r.tip)
	l.diff.Set(r.change, "", "", r.tip)
	l.say.Set(r.verdict, "", "", r.tip)
}

// pairColumns are the cells of a line: what it is, both figures, their difference, and what
// is to be thought of it.
const pairColumns = 5

// pairTable sets lines one above another, the first as their head with a rule beneath it.
// Figures stand at the right of their columns. Where there is no room for what is to be
// thought of a difference, it stands beneath what was measured.
type pairTable struct{ width float32 }

func newPairTable(lines []*pairLine) *fyne.Container {
	box := container.New(&pairTable{}, kit.Rule())
	for _, l := range lines {
		box.Objects = append(box.Objects, l.name, l.a, l.b, l.diff, l.say)
	}
	return box
}

// pairRowHeight is that of a line, and pairGap the room between columns.
const (
	pairRowHeight = 30
	pairGap       = 24
)

// widths of the columns as they would like to be, and whether they fit.
func (t *pairTable) widths(cells []fyne.CanvasObject, room float32) (w [pairColumns]float32, fits bool) {
	sum := float32((pairColumns - 1) * pairGap)
	for i, o := range cells {
		w[i%pairColumns] = max(w[i%pairColumns], o.MinSize().Width)
	}
	for _, one := range w {
		sum += one
	}
	return w, sum <= room
}

func (t *pairTable) high(fits bool, cells []fyne.CanvasObject) float32 {
	if fits {
		return pairRowHeight
	}
	return pairRowHeight + cells[len(cells)-1].MinSize().Height
}

func (t *pairTable) MinSize(things []fyne.CanvasObject) fyne.Size {
	cells := things[1:]
	if len(cells) == 0 {
		return fyne.NewSize(0, 0)
	}
	_, fits := t.widths(cells, t.width)
	return fyne.NewSize(look.Space(100), pairRowHeight+look.Space(1)+t.high(fits || t.width == 0, cells)*float32(len(cells)/pairColumns-1))
}

func (t *pairTable) Layout(things []fyne.CanvasObject, size fyne.Size) {
	t.width = size.Width
	cells := things[1:]
	w, fits := t.widths(cells, size.Width)
	// What is over goes to the name, and to what is thought of it.
	over := size.Width - (pairColumns-1)*pairGap
	for k, one := range w {
		if fits || k < pairColumns-1 {
			over -= one
		}
	}
	if !fits {
		over += pairGap
	}
	w[0] = max(0, w[0]+min(over, look.Space(40)))
	kit.Put(things[0], fyne.NewPos(0, pairRowHeight), fyne.NewSize(size.Width, 1))
	y := float32(0)
	for i, o := range cells {
		k, row := i%pairColumns, i/pairColumns
		if k == 0 && row > 0 {
			y = pairRowHeight + look.Space(1) + float32(row-1)*t.high(fits, cells)
		}
		m := o.MinSize()
		x := float32(0)
		for before := range k {
			x += w[before] + pairGap
		}
		at := y + (pairRowHeight-m.Height)/2
		switch {
		case k == pairColumns-1 && !fits:
			x, at = 0, y+pairRowHeight-look.Space(1)
			kit.SetVisible(o, row > 0)
		case k == pairColumns-1:
			kit.SetVisible(o, true)
		case k > 0:
			x += w[k] - m.Width
		}
		kit.Put(o, fyne.NewPos(x, at), m)
	}
}

// mostLead is how many figures are shown large.
const mostLead = 3

// leadFigures shows large the figures that say most: those that differ, then the first of the
// others that neither photo withholds; nil without any.
func leadFigures(rows []pairRow, looks [2]charts.SeriesStyle) fyne.CanvasObject {
	rows = slices.DeleteFunc(slices.Clone(rows), func(r pairRow) bool { return r.change == nothing })
	slices.SortStableFunc(rows, func(a, b pairRow) int {
		switch {
		case a.stands == b.stands:
			return 0
		case a.stands:
			return -1
		}
		return 1
	})
	var figures []fyne.CanvasObject
	for _, r := range rows[:min(mostLead, len(rows))] {
		one := kit.Stack(1, kit.NewText(kit.Span{Text: r.name, Bold: true}, kit.Span{Text: " " + r.unit, Size: look.TextSmall, Color: look.ColorFaint}))
		for i, figure := range []string{r.a, r.b} {
			one.Add(kit.Marked(looks[i], kit.NewLine(large(figure)...)))
		}
		said := r.change
		if r.verdict != "" {
			said += ", " + r.verdict
		}
		one.Add(kit.Faint(said))
		figures = append(figures, one)
	}
	if len(figures) == 0 {
		return nil
	}
	return kit.Columns(look.Space(50), figures...)
}

// large sets a figure large, and small what is said of its uncertainty.
func large(figure string) []kit.Span {
	at := strings.Index(figure, " ±")
	if at < 0 {
		at = strings.Index(figure, " (")
	}
	if at < 0 {
		at = len(figure)
	}
	return []kit.Span{{Text: figure[:at], Size: look.TextTitle, Bold: true}, {Text: figure[at:], Size: look.TextSmall, Color: look.ColorFaint}}
}
