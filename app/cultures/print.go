package cultures

import (
	"cmp"
	"context"
	"io"
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/tables"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/paper"
)

// save asks as what the culture is to be saved.
func (p *culturePage) save() {
	c := p.now.life.Culture
	out := culturePages{env: p.env, id: c.ID, units: p.env.Units(), style: p.env.Paper()}
	title := lang.L("Its first weeks, as pages to print (PDF)")
	if c.Born.IsZero() { // nobody knows which weeks were its first
		title = lang.L("As pages to print (PDF)")
	}
	p.env.SaveOneOf(append([]pages.Saving{
		{Title: title, Name: pages.FileName(c.Name, lang.L("culture"), ".pdf"), Write: out.write, Show: true},
	}, tables.Cultures(p.env, c)...), tables.Note())
}

// culturePages is a culture's first weeks on their way to paper, or all of its diary where its
// beginning is not known.
type culturePages struct {
	env   *pages.Env
	id    journal.ID
	units measure.Units
	style paper.Style
}

func (p culturePages) write(w io.Writer) error {
	now := p.env.Now()
	at, err := paint(context.Background(), p.env.Journal, p.id, "", now, p.units)
	if err != nil {
		return err
	}
	c := at.life.Culture
	name := cmp.Or(c.Name, lang.L("A culture without a name"))
	d := paper.New(name, p.style)
	if !c.Born.IsZero() {
		d.Small(bornWords(c, now, p.units))
		d.Title(lang.L("{{.Name}}, the first weeks", map[string]any{"Name": name}))
	} else {
		d.Title(name)
	}
	for _, f := range c.Flours {
		d.Words(p.units.Percent(0).Write(float64(f.Share)) + " " + f.Name)
	}
	if c.Notes != "" {
		d.Words(c.Notes)
	}
	d.Gap(2)
	if figure := weeksChart(at, p.units, c.Born.IsZero()).figure; len(figure.Panels) > 0 {
		if err := pages.DrawChart(d, figure, p.units, 720, 90+150*len(figure.Panels)); err != nil {
			return err
		}
	}
	end := c.Born.AddDate(0, 0, firstWeeksDays)
	var rows [][]string
	for _, e := range slices.Backward(at.entries) { // from the first on
		if c.Born.IsZero() || !e.at.After(end) {
			rows = append(rows, []string{p.units.Moment(e.at.In(now.Location()), now), e.words})
		}
	}
	if len(rows) > 0 {
		d.Section(lang.L("What was recorded"))
		d.Table([]float64{1, 3}, nil, rows)
	}
	var photos []*journal.Photo
	for _, ph := range at.photos {
		if c.Born.IsZero() || !ph.at.After(end) {
			photos = append(photos, ph.photo)
		}
	}
	if len(photos) > 0 {
		d.Need(pages.PrintedRow)
		d.Section(lang.L("Photos"))
		p.env.PrintPhotos(d, photos, func(ph *journal.Photo) string {
			words := p.units.Moment(ph.When().In(now.Location()), now)
			if ph.Caption != "" {
				words += " · " + ph.Caption
			}
			return words
		})
	}
	return d.Write(w)
}
