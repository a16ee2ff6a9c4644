package shelf

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal/shelf"
)

// facets is the column of choices beside the pictures: everything that a filter can
// ask for, with what would be left.
type facets struct {
	p      *shelfPage
	scroll *container.Scroll
	column *fyne.Container

	text                                           *kit.TextField
	flours, cultures, addIns, seasons, trials, pix *choiceList
	shares                                         map[string]*flourShare
	ranges                                         map[shelf.Metric]*rangeFacet
	more                                           *kit.ChoiceField // another figure to bound
	offered                                        []shelf.Metric
	asked                                          []shelf.Metric // bounded because the baker asked for it
}

func newFacets(p *shelfPage) *facets {
	f := &facets{p: p, shares: map[string]*flourShare{}, ranges: map[shelf.Metric]*rangeFacet{}}
	again := func() { f.show() }
	f.text = kit.NewTextField("", lang.L("words in names and notes"))
	f.text.OnChanged = func(text string) { p.narrow(func(to *shelf.Filter) { to.Text = text }) }
	f.flours = newChoiceList(lang.L("Flour"), func(key string) {
		p.narrow(func(to *shelf.Filter) {
			if to.Flour(key) != nil {
				to.DropFlour(key)
			} else {
				to.SetFlour(shelf.FlourPart{Flour: key})
			}
		})
	}, again)
	f.flours.under = f.share
	f.cultures = newChoiceList(lang.L("Culture"), func(key string) {
		p.narrow(func(to *shelf.Filter) { to.Cultures = shelf.Toggled(to.Cultures, key) })
	}, again)
	f.cultures.mark = func(key string) (charts.SeriesStyle, bool) {
		m, ok := p.record.Marks[p.record.Cultures[key]]
		return pages.LookOfMark(m), ok
	}
	f.addIns = newChoiceList(lang.L("With it"), func(key string) {
		p.narrow(func(to *shelf.Filter) { to.AddIns = shelf.Toggled(to.AddIns, key) })
	}, again)
	f.seasons = newChoiceList(lang.L("Season"), func(key string) {
		n, _ := strconv.Atoi(key) // a key is one of Seasons
		p.narrow(func(to *shelf.Filter) { to.Seasons = shelf.Toggled(to.Seasons, shelf.Season(n)) })
	}, again)
	f.trials = newChoiceList(lang.L("Trial"), func(key string) {
		p.narrow(func(to *shelf.Filter) { to.Trials = shelf.Toggled(to.Trials, key) })
	}, again)
	f.pix = newChoiceList(lang.L("Photos"), func(key string) {
		p.narrow(func(to *shelf.Filter) {
			if to.Photos == shelf.Photos(key) {
				to.Photos = shelf.AnyPhotos
			} else {
				to.Photos = shelf.Photos(key)
			}
		})
	}, again)
	for _, l := range []*choiceList{f.flours, f.cultures, f.addIns, f.seasons, f.trials, f.pix} {
		l.reveal = f.reveal
	}
	f.more = kit.NewChoiceField("", lang.L("filter by another figure"), nil, func(i int) {
		f.asked = append(f.asked, f.offered[i])
		f.more.SetChosen(-1)
		f.show()
	})
	f.column = kit.Stack(5)
	// Room for the rings of focus and for the scroll bar.
	margin := layout.NewCustomPaddedLayout(look.Space(1), look.Space(9), look.Space(1.5), look.Space(2.5))
	f.scroll = container.NewVScroll(container.New(margin, f.column))
	return f
}

// reveal scrolls so far that a bar is in sight.
func (f *facets) reveal(bar *choiceBar) {
	driver := fyne.CurrentApp().Driver()
	y := driver.AbsolutePositionForObject(bar).Y - driver.AbsolutePositionForObject(f.scroll.Content).Y
	top, height := f.scroll.Offset.Y, f.scroll.Size().Height
	switch {
	case y < top:
		f.scroll.ScrollToOffset(fyne.NewPos(0, max(0, y-look.Space(10))))
	case y+bar.Size().Height > top+height:
		f.scroll.ScrollToOffset(fyne.NewPos(0, y+bar.Size().Height-height+look.Space(4)))
	}
}

// forget makes the fields anew: they may be written in other units now.
func (f *facets) forget() {
	f.shares, f.ranges = map[string]*flourShare{}, map[shelf.Metric]*rangeFacet{}
}

// flourShare is what stands below a chosen flour: the bounds of its share, and the
// way to its own page.
type flourShare struct {
	bounds *boundFields
	box    fyne.CanvasObject
}

func (f *facets) share(key string) fyne.CanvasObject {
	b, ok := f.shares[key]
	if !ok {
		b = &flourShare{bounds: newBoundFields(f.p.env.Units().Percent(1), func(low, high *float64) {
			f.p.narrow(func(to *shelf.Filter) { to.SetFlour(shelf.FlourPart{Flour: key, AtLeast: low, AtMost: high}) })
		})}
		own := kit.NewLinkSpan(kit.Span{Text: lang.L("about this flour"), Size: look.TextSmall, Color: look.ColorCrust},
			func() { f.p.env.Go(pages.Route{Name: pages.Flour, More: key}) })
		b.box = kit.Stack(0, b.bounds.row, kit.Row(0, own), kit.Gap(1.5))
		f.shares[key] = b
	}
	if part := f.p.state.Filter.Flour(key); part != nil {
		b.bounds.show(&shelf.Range{AtLeast: part.AtLeast, AtMost: part.AtMost})
	}
	return b.box
}

// usual are the figures that are bounded most: they are always there when some bake
// has them.
func usual() []shelf.Metric { return []shelf.Metric{shelf.Hydration, shelf.Score, shelf.Salt} }

// show counts every choice anew.
func (f *facets) show() {
	p, s := f.p, f.p.speaker()
	filter := p.state.Filter
	counts := p.look.Counts(filter)
	f.text.SetText(filter.Text)
	f.flours.show(counts.Flours, func(key string) string { return p.record.Flours[key] }, s.count)
	f.cultures.show(counts.Cultures, func(key string) string { return s.named([]string{key}, p.record.Cultures)[0] }, s.count)
	f.addIns.show(counts.AddIns, func(key string) string { return key }, s.count)
	f.trials.show(counts.Trials, func(key string) string { return s.named([]string{key}, p.record.Trials)[0] }, s.count)
	f.seasons.show(seasonChoices(counts, filter), func(key string) string {
		n, _ := strconv.Atoi(key)
		return pages.SeasonWord(shelf.Season(n))
	}, s.count)
	f.pix.show(photoChoices(counts, filter), func(key string) string { return photoWords(shelf.Photos(key)) }, s.count)

	column := []fyne.CanvasObject{f.text, f.flours.whole, f.cultures.whole}
	bounded := f.bounded(filter)
	for _, figure := range bounded {
		column = append(column, f.rangeBox(figure))
	}
	column = append(column, f.seasons.whole, f.addIns.whole, f.trials.whole, f.pix.whole)
	f.offer(bounded)
	column = append(column, f.more)
	if !slices.Equal(f.column.Objects, column) {
		f.column.Objects = column
	}
	f.column.Refresh()
	f.scroll.Refresh()
}

// bounded lists the figures that have a histogram.
func (f *facets) bounded(filter shelf.Filter) []shelf.Metric {
	has := f.p.record.Metrics()
	out := slices.DeleteFunc(usual(), func(figure shelf.Metric) bool { return !slices.Contains(has, figure) })
	for _, r := range filter.Ranges {
		if !slices.Contains(out, r.Figure) {
			out = append(out, r.Figure)
		}
	}
	for _, figure := range f.asked {
		if !slices.Contains(out, figure) {
			out = append(out, figure)
		}
	}
	return out
}

func (f *facets) rangeBox(figure shelf.Metric) fyne.CanvasObject {
	d := f.p.record.Describe(figure, f.p.env.Units())
	facet, ok := f.ranges[figure]
	if !ok {
		facet = newRangeFacet(f.p.env.Main, d, func(r shelf.Range) { f.p.narrow(func(to *shelf.Filter) { to.SetRange(r) }) })
		f.ranges[figure] = facet
	}
	facet.show(f.p.look.Spread(figure), f.p.state.Filter.Range(figure), d)
	return facet.box
}

// offer lists the figures that could be bounded too.
func (f *facets) offer(bounded []shelf.Metric) {
	u := f.p.env.Units()
	var words []string
	f.offered = nil
	for _, list := range [][]past.Described{f.p.record.Outcomes(u), f.p.record.Factors(u)} {
		for _, d := range list {
			if _, share := d.Key.Flour(); !share && !slices.Contains(bounded, d.Key) {
				f.offered = append(f.offered, d.Key)
				words = append(words, d.Name)
			}
		}
	}
	f.more.SetOptions(words)
	kit.SetVisible(f.more, len(words) > 0)
}

// seasonChoices are the quarters in the order of the year.
func seasonChoices(c shelf.Counts, filter shelf.Filter) []shelf.Choice {
	var out []shelf.Choice
	for _, q := range shelf.Seasons() {
		if chosen := slices.Contains(filter.Seasons, q); chosen || c.Seasons[q] > 0 {
			out = append(out, shelf.Choice{Key: strconv.Itoa(int(q)), N: c.Seasons[q], Chosen: chosen})
		}
	}
	return out
}

func photoChoices(c shelf.Counts, filter shelf.Filter) []shelf.Choice {
	var out []shelf.Choice
	for _, o := range []struct {
		photos shelf.Photos
		n      int
	}{{shelf.WithCrumb, c.Crumb}, {shelf.WithPhoto, c.With}, {shelf.NoPhoto, c.Without}} {
		if chosen := filter.Photos == o.photos; chosen || o.n > 0 {
			out = append(out, shelf.Choice{Key: string(o.photos), N: o.n, Chosen: chosen})
		}
	}
	return out
}
