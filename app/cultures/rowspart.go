package cultures

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// TakePictures begins a row of pictures with what was dropped on the feeding.
func (p *feedingPage) TakePictures(pictures []journal.Picture) {
	if p.rec != nil {
		p.env.BeginSeries(journal.SeriesJar{Culture: p.culture, Feeding: p.id}, pictures)
	}
}

// pickSeries has the pictures of a row chosen.
func (p *feedingPage) pickSeries() { p.env.PickPictures(p.TakePictures) }

// showSeries lists the rows of pictures of the feeding.
func (p *feedingPage) showSeries() {
	p.rows.Objects = []fyne.CanvasObject{kit.Section(lang.L("Rows of pictures"))}
	for _, o := range p.env.SeriesRows(p.life.SeriesOf(p.id), lang.L("A phone on a stack of books that takes a picture every five minutes sees the whole rise: drop its folder here. Leave the lid loose: a jar that ferments must not be sealed.")) {
		p.rows.Add(o)
	}
	p.rows.Refresh()
}

// catchUp has the rows of pictures followed of which no curve is kept, and then reads the
// history again.
func (p *feedingPage) catchUp(ctx context.Context, j journal.Source, h **histories.CultureHistory) error {
	any := false
	for _, s := range (*h).SeriesOf(p.id) {
		if s.Reading() {
			continue // its own page goes on with it
		}
		caught, err := p.env.Journal.CatchUpSeries(ctx, s)
		if err != nil {
			return err
		}
		any = any || caught
	}
	if !any {
		return nil
	}
	var err error
	*h, err = histories.Of(j, p.culture)
	return err
}
