package cultures

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// wordsSection says how the culture is, on what that rests, and what to beware of.
type wordsSection struct {
	page     *culturePage
	box      *fyne.Container
	lead     *kit.Text
	cautions *kit.Text
	evidence *kit.Text
}

func newWordsSection(p *culturePage) *wordsSection {
	w := &wordsSection{page: p, lead: kit.Lead(), cautions: kit.NewText(), evidence: kit.Small(" ")}
	w.box = kit.Stack(1.5, w.cautions, w.lead, w.evidence)
	return w
}

func (w *wordsSection) show(p *portrait) {
	l := leadOf(p, w.page.env.Units())
	w.lead.SetSpans(leadSpans(l)...)
	w.cautions.Say(strings.Join(l.Cautions, " "))
	w.evidence.Say(l.Evidence)
	w.box.Refresh()
}

// leadSpans set a lead: the state strong, then why, then what is usual next.
func leadSpans(l lead) []kit.Span {
	strong := kit.Span{Text: l.State + ". ", Size: look.TextLead, Bold: true}
	why := kit.Span{Text: l.Why + " ", Size: look.TextLead}
	if l.Danger {
		strong.Color, why.Color = look.ColorEmber, look.ColorEmber
		strong.Size, why.Size = look.TextLarge, look.TextLarge
	}
	return []kit.Span{strong, why, {Text: l.Next, Size: look.TextLead, Color: look.ColorFaint}}
}

// weeksSection is the chart of the first or the last weeks.
type weeksSection struct {
	page   *culturePage
	box    *fyne.Container
	span   *kit.Segments
	over   *kit.ChoiceField
	frame  *kit.ChartFrame
	none   *kit.Text // in the place of the chart while there is nothing to draw
	others []*journal.Culture
	pic    picture
	recent bool
	chosen bool // by the baker: what is shown does not follow the age any more
}

// chartSize is the least size of the chart.
func chartSize() fyne.Size { return fyne.NewSize(look.Space(100), look.Space(124)) }

func newWeeksSection(p *culturePage) *weeksSection {
	w := &weeksSection{page: p, frame: p.env.NewChart("", chartSize(), nil)}
	w.span = kit.NewSegments("", []string{lang.L("First weeks"), lang.L("Last weeks")}, -1, func(i int) {
		w.recent, w.chosen = i == 1, true
		w.draw()
	})
	w.over = kit.NewChoiceField("", lang.L("overlay another culture"), nil, func(i int) {
		p.other = ""
		if i > 0 {
			p.other = w.others[i-1].ID
		}
		p.load()
	})
	w.frame.OnMark = func(m charts.Mark) {
		if place, ok := w.pic.leads(m); ok {
			p.env.Go(place)
		}
	}
	w.none = kit.Faint("")
	w.box = kit.Stack(2, kit.RowGrow(4, 1, w.span, kit.Gap(0), w.over), w.none, kit.Grown(0.4, chartSize().Height, look.Space(170), w.frame))
	return w
}

func (w *weeksSection) show(p *portrait) {
	if !w.chosen {
		day := p.life.Day(p.now)
		w.recent = day == 0 || day > young
	}
	chosen := 0
	if w.recent {
		chosen = 1
	}
	w.span.SetChosen(chosen)
	w.offer(p)
	w.draw()
}

// offer lists the other cultures that can be laid over this one.
func (w *weeksSection) offer(p *portrait) {
	all, err := journal.All[journal.Culture](w.page.env.Journal)
	if w.page.env.Failed(err) {
		return
	}
	w.others = slices.DeleteFunc(all, func(c *journal.Culture) bool { return c.ID == p.life.Culture.ID || c.Born.IsZero() })
	words := []string{lang.L("alone")}
	chosen := -1
	for i, c := range w.others {
		words = append(words, lang.L("with {{.Name}}", map[string]any{"Name": nameOf(c)}))
		if c.ID == w.page.other {
			chosen = i + 1
		}
	}
	w.over.SetOptions(words)
	w.over.SetChosen(chosen)
}

func (w *weeksSection) draw() {
	p := w.page.now
	if p == nil {
		return
	}
	w.frame.Name = nameOf(p.life.Culture)
	w.pic = weeksChart(p, w.page.env.Units(), w.recent)
	bare := w.pic.bare()
	if p.read() {
		w.none.SetText(w.pic.figure.Empty)
	} else {
		w.none.SetText(lang.L("No height has been read yet. Take the first some hours after a feeding: R."))
	}
	kit.SetVisible(w.none, bare)
	kit.SetVisible(w.span, (!bare || p.read()) && !p.life.Culture.Born.IsZero())
	kit.SetVisible(w.over, !bare && len(w.others) > 0)
	kit.SetVisible(w.frame, !bare)
	w.box.Refresh()
	w.frame.SetSpec(w.pic.figure)
}

// factsSection is the line of figures under the chart: smell, peak, feeding.
type factsSection struct {
	page *culturePage
	box  *fyne.Container
}

func newFactsSection(p *culturePage) *factsSection {
	return &factsSection{page: p, box: kit.Stack(1.5)}
}

func (f *factsSection) show(p *portrait) {
	u := f.page.env.Units()
	row := kit.Flow(8)
	for _, x := range factsOf(p, u) {
		line := kit.NewLine(kit.Span{Text: x.Label + " ", Bold: true, Color: x.color()}, kit.Span{Text: x.Words})
		if kit.Overdue(x.By, p.now) {
			late := kit.NewDue(0)
			late.Set("", x.By, p.now, u)
			row.Add(kit.Row(2, late, line))
			continue
		}
		row.Add(line)
	}
	under := kit.Stack(0.5)
	if words := backWords(p.back, u); words != "" && p.life.Culture.Ended.IsZero() {
		back := kit.NewReadout("", false).Sentence()
		back.Set(words, "", "", backDerived(p.back, u))
		under.Add(back)
	}
	if p.hasDue && p.unknown == nil {
		under.Add(kit.Small(restsWords(p.forecast, u)))
	}
	f.box.Objects = []fyne.CanvasObject{row, under}
	row.Hidden, under.Hidden = len(row.Objects) == 0, len(under.Objects) == 0
	f.box.Refresh()
}

// A fact is a figure of the line under the chart.
type fact struct {
	Label, Words string
	Never        bool      // what is never to be done
	By           time.Time // when it is due, where it is
}

func (f fact) color() fyne.ThemeColorName {
	if f.Never {
		return look.ColorEmber
	}
	return look.ColorInk
}

// factsOf gives the figures under the chart.
func factsOf(p *portrait, u measure.Units) []fact {
	var out []fact
	for _, r := range slices.Backward(p.life.Readings) {
		if len(r.Smells) > 0 && !r.At.After(p.now) {
			out = append(out, fact{Label: lang.L("Smell {{.When}}", map[string]any{"When": u.When(r.At, p.now)}), Words: smellsText(r.Smells)})
			break
		}
	}
	if !p.life.Culture.Ended.IsZero() {
		return out
	}
	if p.hasDue && p.due.Reason != ferment.DueNever {
		o := outlookOf(p.forecast, p.unknown, p.now, u)
		out = append(out, fact{Label: o.Label, Words: o.When})
	}
	if what, why, late := dueWords(p.due, p.hasDue, p.now, u); what != "" {
		f := fact{Label: what, Words: why, By: p.due.By}
		if f.Never = p.due.Reason == ferment.DueNever; f.Never || !late {
			f.By = time.Time{}
		}
		out = append(out, f)
	}
	return out
}

// photosSection is the strip of the latest photos.
type photosSection struct {
	page  *culturePage
	box   *fyne.Container
	strip *kit.PhotoStrip
	busy  *fyne.Container // says how far photos are added
	items []jarPhoto
}

// stripLength is how many photos the page shows; the others are behind the history.
const stripLength = 12

func newPhotosSection(p *culturePage) *photosSection {
	f := &photosSection{page: p, busy: container.NewStack()}
	f.busy.Hide()
	f.strip = kit.NewPhotoStrip(p.env.Thumbs, thumbSize(), 1, kit.NewButton(lang.L("Add photos"), func() { f.pick() }).WithKey("J"))
	f.strip.OnOpen = func(i int) { p.env.Go(pages.At(pages.Photo, f.items[i].photo.ID)) }
	f.strip.OnDelete = func(i int) {
		id := f.items[i].photo.ID
		if p.env.Do(lang.L("deleting a photo"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Photo](tx, id) }) {
			p.env.Say(lang.L("The photo was deleted."), true)
		}
	}
	f.box = kit.Stack(2, kit.Section(lang.L("Photos of the jar")), f.busy, f.strip)
	return f
}

func (f *photosSection) show(p *portrait) {
	f.items = p.photos[max(0, len(p.photos)-stripLength):]
	var items []kit.PhotoItem
	for _, x := range f.items {
		items = append(items, kit.PhotoItem{Key: x.photo.Hash, Title: photoDay(p, x.at, f.page.env.Units()), Plain: true})
	}
	f.strip.SetItems(items)
}

// photoDay says of which day a photo is: of age, while the culture is young.
func photoDay(p *portrait, at time.Time, u measure.Units) string {
	if day := p.life.Day(at); day > 0 && p.life.Day(p.now) <= young {
		return lang.L("day {{.N}}", map[string]any{"N": day})
	}
	return u.Day(at, p.now)
}

func (f *photosSection) pick() { f.page.env.PickPictures(f.take) }

// take stores photos with the culture.
func (f *photosSection) take(pictures []journal.Picture) {
	f.page.env.AddPhotos(journal.RefOf(f.page.now.life.Culture), journal.RoleJar, pictures, func(o fyne.CanvasObject) { kit.SetOnly(f.busy, o) })
}
