package tastings

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
)

// trialLoaf is one loaf of a trial to be begun: its picture, its mark, and its value of
// what is varied, which is typed.
type trialLoaf struct {
	box   fyne.CanvasObject
	cell  *kit.PhotoCell
	mark  *kit.Mark
	about *kit.Text
}

// trialPicture is the picture of a loaf, or of its culture.
var trialPicture = fyne.NewSize(168, 126)

// loaf is the ith of them.
func (p *beginTrialPage) loaf(i int, v variation) *trialLoaf {
	l := &trialLoaf{cell: kit.NewPhotoCell(p.env.Thumbs, trialPicture, 0).Filling(), mark: kit.NewMark(charts.SeriesStyle{}, kit.MarkSide), about: kit.Faint("")}
	field := kit.NewSuggestHeading("", v.hint, func(text string) []string { return fitting(p.offers(v), text) })
	field.SetText(p.values[i])
	take := func(s string) { p.values[i] = strings.TrimSpace(s); p.check() }
	field.OnChanged, field.OnTaken = take, take
	title := kit.RowGrow(2, 1, l.mark, kit.Faint(lang.L("Loaf {{.N}}", map[string]any{"N": i + 1})))
	l.box = kit.WeightedColumns(look.Space(20), []float32{2, 3}, kit.Grown(0.75, trialPicture.Height, look.Space(80), l.cell), kit.Stack(1, title, field, l.about))
	return l
}

// cultureNamed is the culture of a name; nil if the journal has none that lives.
func (p *beginTrialPage) cultureNamed(name string) *journal.Culture {
	if c := journal.CultureNamed(p.cultures, name); c != nil && c.Ended.IsZero() {
		return c
	}
	return nil
}

// showLoaves gives each loaf its mark and its picture: that of its culture where cultures are
// compared, else that of what both follow, and a drawing where there is none.
func (p *beginTrialPage) showLoaves() {
	cultures := make([]*journal.Culture, max(2, len(p.values)))
	if variations()[p.varied].store == journal.VaryCulture {
		for i, name := range p.values {
			cultures[i] = p.cultureNamed(name)
		}
	}
	looks := pages.PairLooks(cultures[0], cultures[1])
	for i, l := range p.loaves {
		item, about := kit.PhotoItem{Loaf: kit.GoldenLoaf}, ""
		if p.chosen >= 0 {
			item.Key = p.models[p.chosen].cover
		}
		if c := cultures[i]; c != nil {
			key, err := pictureOf(p.env.Journal, c.ID)
			p.env.Fail(err)
			item.Key = key
			var flours []string
			for _, f := range c.Flours {
				flours = append(flours, f.Name)
			}
			about = listed(flours)
		}
		l.cell.Set(item, false)
		l.about.SetText(about)
		switch {
		case len(p.values) == 2:
			l.mark.SetLook(looks[i])
		case cultures[i] != nil:
			l.mark.SetLook(pages.LookOf(cultures[i]))
		}
		kit.SetVisible(l.mark, len(p.values) == 2 || cultures[i] != nil)
	}
}

// pictureOf is the newest picture of a culture, of its feedings and its readings, or else that
// of the last bake with it; empty where there is none.
func pictureOf(r journal.Source, culture journal.ID) (string, error) {
	owners := []journal.ID{culture}
	feedings, err := journal.Linked[journal.Feeding](r, culture)
	if err != nil {
		return "", err
	}
	for _, f := range feedings {
		owners = append(owners, f.ID)
	}
	readings, err := journal.Linked[journal.Reading](r, culture)
	if err != nil {
		return "", err
	}
	for _, one := range readings {
		owners = append(owners, one.ID)
	}
	var newest *journal.Photo
	for _, owner := range owners {
		photos, err := journal.Photos(r, owner)
		if err != nil {
			return "", err
		}
		for _, ph := range photos {
			if newest == nil || ph.When().After(newest.When()) {
				newest = ph
			}
		}
	}
	if newest != nil {
		return newest.Hash, nil
	}
	summaries, err := r.BakeSummaries()
	if err != nil {
		return "", err
	}
	cover, at := "", time.Time{}
	for _, c := range summaries {
		if c.Culture == culture && c.Cover != "" && !c.Binned && c.At.After(at) {
			cover, at = c.Cover, c.At
		}
	}
	return cover, nil
}

// telling says what the trial can show, and what it cannot.
func (p *beginTrialPage) telling() string {
	what := map[string]any{"What": variedWord(variations()[p.varied].store)}
	if p.other != "" && variations()[p.varied].store == "" {
		what["What"] = p.other
	}
	return lang.L("Tasted blind, two of these loaves can show whether they are told apart, or which is liked better. That is one baking: whether it is {{.What}} each time, only further trials can tell.", what)
}
