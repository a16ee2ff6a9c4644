package cultures

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// jarSize is that of a jar in the list.
func jarSize() fyne.Size { return fyne.NewSize(look.Space(44), look.Space(36)) }

// rowOf is a culture that lives: its jar, how it is, the feeding that it is in as a
// curve, and when it wants the next one.
func (p *listPage) rowOf(r row, on axes, living int) fyne.CanvasObject {
	tile := kit.NewPhotoCell(p.env.Thumbs, jarSize(), 0).Filling()
	tile.Set(kit.PhotoItem{Key: r.thumb, Loaf: jarOf(r)}, false)
	chart := fyne.CanvasObject(kit.Gap(0))
	if r.course != nil {
		frame, ok := p.frames[r.id]
		if !ok { // the picture before stays until the next is drawn
			frame = p.env.NewChart(r.name, fyne.NewSize(look.Space(60), jarSize().Height), func(charts.Mark) { p.env.Go(pages.At(pages.Culture, r.id)) })
			p.frames[r.id] = frame
		}
		frame.SetSpec(r.course.plot(r.look, on, p.shown.now, p.env.Units()))
		chart = frame
	}
	line := container.New(&cultureRow{living: living, room: p.page.Height}, tile, p.wordsOf(r), chart, dueOf(r, p.shown.now, p.env.Units()))
	return kit.NewOpenRow(string(r.id), nil, line, func() { p.env.Go(pages.At(pages.Culture, r.id)) })
}

// jarOf is drawn where a culture has no picture.
func jarOf(r row) kit.LoafTone {
	if r.thumb != "" {
		return kit.NoLoaf
	}
	return kit.Jar
}

// wordsOf says how a culture is, and what can be done.
func (p *listPage) wordsOf(r row) fyne.CanvasObject {
	words := kit.Stack(1, kit.Marked(r.look, kit.NewElided(kit.Span{Text: r.name, Size: look.TextTitle, Serif: true})))
	state := kit.Span{Text: r.state, Bold: true, Color: look.ColorField}
	if r.danger {
		state.Color = look.ColorEmber
	}
	if r.state != "" && r.age != "" {
		state.Text += "  "
	}
	words.Add(kit.NewText(state, kit.Span{Text: r.age, Color: look.ColorFaint}))
	if r.fed != "" {
		words.Add(kit.NewText(kit.Span{Text: r.fed}))
	}
	words.Add(kit.NewText(kit.Span{Text: r.about, Size: look.TextSmall, Color: look.ColorFaint}))
	reading := kit.NewButton(lang.L("Reading"), func() { p.reading(r.id) }).WithKey("R")
	if r.danger {
		words.Add(kit.Flow(2, reading))
		return words
	}
	words.Add(kit.Flow(2, kit.NewButton(lang.L("Feed"), func() { Feed(p.env, r.id) }).WithKey("F"), reading))
	return words
}

// dueOf says large by when a culture is to be fed.
func dueOf(r row, now time.Time, u measure.Units) fyne.CanvasObject {
	column := kit.Stack(1)
	switch {
	case r.clock == "":
		if r.next != "" {
			column.Add(kit.NewText(kit.Span{Text: r.next, Bold: true, Color: look.ColorEmber}))
		}
	case r.late:
		late := kit.NewDue(look.TextSmall)
		late.Set("", r.by, now, u)
		column.Add(late)
		column.Add(kit.NewLine(kit.Span{Text: lang.L("feeding was due"), Size: look.TextSmall, Color: look.ColorFaint}))
		column.Add(kit.NewText(kit.Span{Text: r.clock, Size: look.TextTitle, Serif: true}))
	default:
		column.Add(kit.NewText(kit.Span{Text: lang.L("feed by"), Size: look.TextSmall, Color: look.ColorFaint}))
		column.Add(kit.NewText(kit.Span{Text: r.clock, Size: look.TextTitle, Serif: true}))
	}
	if r.peak != "" && !r.late {
		column.Add(kit.NewText(kit.Span{Text: r.peak, Size: look.TextSmall, Color: look.ColorFaint}))
	}
	for _, o := range column.Objects { // they end where the page does
		if t, ok := o.(*kit.Text); ok && !r.late {
			t.SetAlign(fyne.TextAlignTrailing)
		}
	}
	return column
}

// cultureRow lays out a jar, words, a curve and a time: side by side where there is room,
// the curve under the others where there is not, and at last the time under the jar. Where the
// window has the height for it the jar is large, and the curve beside it below the words. It remembers its width, from which its
// height follows.
type cultureRow struct {
	living int // how many cultures are: there is room for a larger jar, and a higher curve, of few
	room   func() float32
	width  float32
}

const (
	rowGutter   = 24
	rowWords    = 260
	rowDue      = 148
	rowLeast    = 240 // of a curve that stands beside the words
	rowCurve    = 132 // how high it is beneath them
	rowJarSmall = 120
	rowJarLarge = 420
	rowJarPart  = 0.35 // of what the words leave, the curve has the rest
	rowLarge    = 0.42 // of the whole, where the jar is large
	rowBetween  = 40   // from jar to jar
	rowOthers   = 120  // what else the page shows
)

func jarHeight(width float32) float32 { return width * jarSize().Height / jarSize().Width }

func (l *cultureRow) beside() bool {
	return l.width >= jarSize().Width+rowWords+rowLeast+rowDue+3*rowGutter
}

// large says that the curve stands below the words, beside a large jar.
func (l *cultureRow) large() bool {
	return l.beside() && float32(l.living)*(jarHeight(rowLarge*l.width)+rowBetween)+rowOthers <= l.room()
}

func (l *cultureRow) jar() float32 {
	switch {
	case !l.beside():
		return rowJarSmall
	case l.large():
		return rowLarge * l.width
	case l.living <= fewCultures:
		return max(jarSize().Width, min(rowJarLarge, (l.width-rowWords-rowDue-3*rowGutter)*rowJarPart))
	}
	return jarSize().Width
}

// tight says that there is no room for the time beside the words: it goes under the jar.
func (l *cultureRow) tight() bool {
	return l.width < l.jar()+rowWords+rowDue+2*rowGutter
}

// words is how wide the words are.
func (l *cultureRow) words() float32 {
	switch {
	case l.beside() && !l.large():
		return rowWords
	case l.tight():
		return max(rowWords, l.width-l.jar()-rowGutter)
	}
	return l.width - l.jar() - rowDue - 2*rowGutter
}

// due is where the time stands, and how wide it is.
func (l *cultureRow) due() (at fyne.Position, width float32) {
	if l.tight() {
		return fyne.NewPos(0, jarHeight(l.jar())+look.Space(2)), l.jar()
	}
	return fyne.NewPos(l.width-rowDue, 0), rowDue
}

// height measures the words at their width: text that wraps knows its height only then.
func height(o fyne.CanvasObject, width float32) float32 {
	if o.Size().Width != width {
		o.Resize(fyne.NewSize(width, o.MinSize().Height))
	}
	return o.MinSize().Height
}

func (l *cultureRow) MinSize(things []fyne.CanvasObject) fyne.Size {
	at, due := l.due()
	h := max(jarHeight(l.jar()), height(things[1], l.words()), at.Y+height(things[3], due))
	if !l.beside() && things[2].MinSize().Height > 0 {
		h += rowCurve
	}
	return fyne.NewSize(rowWords, h)
}

func (l *cultureRow) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	jar, words, curve, due := things[0], things[1], things[2], things[3]
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		kit.Put(o, fyne.NewPos(x, y), fyne.NewSize(w, h))
	}
	w := l.jar()
	put(jar, 0, 0, w, jarHeight(w))
	left := w + rowGutter
	put(words, left, 0, l.words(), height(words, l.words()))
	at, wide := l.due()
	put(due, at.X, at.Y, wide, height(due, wide))
	if l.large() {
		down := max(words.Size().Height, due.Size().Height) + look.Space(4)
		put(curve, left, down, size.Width-left, max(0, jarHeight(w)-down))
		return
	}
	if l.beside() {
		left += rowWords + rowGutter
		put(curve, left, 0, size.Width-left-rowDue-rowGutter, jarHeight(w))
		return
	}
	put(curve, 0, size.Height-rowCurve, size.Width, rowCurve)
}
