package shelf

import (
	"cmp"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// compareHeading says how much differs.
func compareHeading(c comparison, bakes int) string {
	apart := c.apart()
	if len(apart) == 0 {
		apart = c.differ // each for reasons that the table does not show
	}
	data := map[string]any{"N": len(apart)}
	switch {
	case len(apart) == 0:
		return lang.L("Nothing that was written down differs")
	case len(apart) == 1:
		return lang.L("One thing differs: {{.What}}", what(apart[0].name))
	case bakes == 2:
		return lang.L("{{.N}} things differ between these two", data)
	}
	if bakes == 3 {
		return lang.L("{{.N}} things differ between these three", data)
	}
	return lang.L("{{.N}} things differ between these four", data)
}

// showTable writes what differs, and beneath it what is alike, folded or not.
func (p *comparePage) showTable() {
	p.table.Objects = nil
	header := []fyne.CanvasObject{kit.Section(lang.L("What differs"))}
	for _, s := range p.sides {
		header = append(header, kit.RowGrow(2, 1, s.head, kit.Strong(s.name)))
	}
	p.table.Add(sideBySide(header...))
	p.numbers = 0
	for _, rows := range [][]sideRow{p.found.differ, p.found.unknown, p.found.alike} {
		for _, r := range rows {
			for _, v := range r.values {
				if figure, ok := r.figureOf(v); ok {
					p.numbers = max(p.numbers, kit.Span{Text: figure}.Extent().Width)
				}
			}
		}
	}
	for _, r := range p.found.differ {
		p.addRow(r)
	}
	if len(p.found.unknown) > 0 {
		p.table.Add(kit.Gap(2))
		p.table.Add(kit.Section(lang.L("Not written down of all")))
		for _, r := range p.found.unknown {
			p.addRow(r)
		}
	}
	if n := len(p.found.alike); n > 0 {
		words := lang.L("Show {{.N}} that are the same", map[string]any{"N": n})
		if p.whole {
			words = lang.L("Hide {{.N}} that are the same", map[string]any{"N": n})
		}
		p.table.Add(kit.Gap(2))
		p.table.Add(kit.Row(2, kit.NewLink(words, p.toggleAlike), kit.NewKeyHint("A", "")))
		if p.whole {
			for _, r := range p.found.alike {
				p.addRow(r)
			}
		}
	}
	p.table.Refresh()
	p.rows.Refresh()
}

func (p *comparePage) addRow(r sideRow) {
	cells := []fyne.CanvasObject{kit.Faint(r.name)}
	for _, v := range r.values {
		if figure, ok := r.figureOf(v); ok {
			cells = append(cells, container.New(numberCell{p.numbers}, kit.NewLine(kit.Span{Text: figure}),
				kit.NewLine(kit.Span{Text: r.unit, Size: look.TextSmall, Color: look.ColorFaint})))
			continue
		}
		v = cmp.Or(v, "–")
		cells = append(cells, kit.Body(v))
	}
	p.table.Add(kit.Rule())
	p.table.Add(sideBySide(cells...))
}

// figureOf is a value that is a plain figure, without its unit.
func (r sideRow) figureOf(v string) (figure string, ok bool) {
	figure = strings.TrimSuffix(v, "\u00a0"+r.unit)
	return figure, r.number && v != "" && !strings.ContainsFunc(figure, unicode.IsLetter)
}

// numberCell sets a figure to the right in a width, its unit behind that.
type numberCell struct{ width float32 }

func (l numberCell) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width+look.Space(1.5)+things[1].MinSize().Width, things[0].MinSize().Height)
}

func (l numberCell) Layout(things []fyne.CanvasObject, size fyne.Size) {
	figure, unit := things[0].MinSize(), things[1].MinSize()
	kit.Put(things[0], fyne.NewPos(l.width-figure.Width, 0), figure)
	kit.Put(things[1], fyne.NewPos(l.width+look.Space(1.5), figure.Height-unit.Height-1), unit)
}

// sideBySide is a row of the table: a name and a value for each bake.
func sideBySide(cells ...fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&tableRow{}, cells...)
}

// tableRow gives the name its width and shares the rest. What has no room there stands above it.
type tableRow struct{ height float32 }

const (
	tableNameWidth = 190
	tableRim       = 6
)

func (l *tableRow) MinSize(things []fyne.CanvasObject) fyne.Size {
	h := l.height
	for _, o := range things {
		h = max(h, o.MinSize().Height+2*tableRim)
	}
	return fyne.NewSize(tableNameWidth, h)
}

func (l *tableRow) Layout(things []fyne.CanvasObject, size fyne.Size) {
	gap := look.Space(4)
	name := min(tableNameWidth, size.Width/4)
	each := (size.Width-name)/float32(len(things)-1) - gap
	x, y := float32(0), float32(tableRim)
	l.height = 0
	for i, o := range things {
		w := each
		if i == 0 {
			w = name
		}
		above := i == 0 && o.MinSize().Width > name
		if above {
			w = size.Width
		}
		h := kit.FitHeight(o, w)
		o.Move(fyne.NewPos(x, y))
		l.height = max(l.height, y+h+tableRim)
		if above {
			y += h + tableRim
			w = name
		}
		x += w + gap
	}
}
