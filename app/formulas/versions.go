package formulas

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// frozenWords says whether a version stays as it is, and what a change will make.
// Of the bakes that follow it some are only planned.
func frozenWords(f *journal.Formula, followed, baked int, versions []*journal.Formula) string {
	next := f.Number
	for _, v := range versions {
		next = max(next, v.Number)
	}
	data := map[string]any{"Version": f.Number, "N": followed, "Next": next + 1}
	switch followed {
	case 0:
		return lang.L("No bake follows version {{.Version}} yet, so it may still be changed.", data)
	case 1:
		return lang.L("A bake uses version {{.Version}}, so it is kept. Your changes become version {{.Next}}.", data)
	}
	if baked < followed {
		return lang.L("{{.N}} bakes, planned ones among them, follow version {{.Version}}, so it stays as it is. What you change here becomes version {{.Next}}.", data)
	}
	return lang.L("{{.N}} bakes follow version {{.Version}}, so it stays as it is. What you change here becomes version {{.Next}}.", data)
}

// thaw gives the version that may be altered: this one, or, where bakes follow
// it, a next one made for the purpose.
func (p *page) thaw() (journal.ID, bool) {
	if p.followed == 0 {
		return p.id, true
	}
	if !p.nextVersion() {
		return "", false
	}
	return p.id, true
}

// nextVersion makes a version like this one and goes on with it.
func (p *page) nextVersion() bool {
	var next *journal.Formula
	p.Read = nil // the page follows once it knows which version it is at
	done := p.env.Do(lang.L("the next version"), func(tx *journal.Tx) (err error) {
		next, err = journal.NextVersion(tx, p.id)
		return err
	})
	p.Read = p.reread
	if !done {
		return false
	}
	p.id = next.ID
	p.env.Say(lang.L("This is version {{.N}} now. The one before stays as it was baked.", map[string]any{"N": next.Number}), true)
	p.reread()
	return true
}

// makeNext makes a version like this one, and shows it from its beginning.
func (p *page) makeNext() {
	if p.nextVersion() {
		p.env.Window.Canvas().Unfocus() // what has the keyboard may be further down
		p.page.ScrollTo(0)
	}
}

// showVersions lists the versions, each a way to itself and to telling it apart.
func (p *page) showVersions(f *journal.Formula) {
	seen := string(p.id) + string(p.against)
	for _, v := range p.versions {
		seen += string(v.ID) + v.Change
	}
	if seen == p.pastSeen {
		return
	}
	p.pastSeen = seen
	p.history.Objects = nil
	p.history.Add(kit.NewLine(kit.Span{Text: lang.L("Versions"), Color: look.ColorFaint}))
	for _, v := range p.versions {
		words := fmt.Sprint(v.Number)
		if v.Change != "" {
			words += " · " + v.Change
		}
		if v.ID == f.ID {
			p.history.Add(kit.NewLine(kit.Span{Text: words, Bold: true}))
			continue
		}
		p.history.Add(kit.Row(2, kit.NewLink(words, func() { p.env.Go(pages.At(pages.Formula, v.ID)) }),
			kit.NewChoicePill(lang.L("compare versions"), p.against == v.ID, func() { p.compare(v.ID) })))
	}
	p.history.Refresh()
}

// compare tells the version apart from another, or stops doing so.
func (p *page) compare(id journal.ID) {
	if p.against == id {
		id = ""
	}
	p.against = id
	p.reread()
}

func (p *page) showApart(f *journal.Formula) {
	i := slices.IndexFunc(p.versions, func(v *journal.Formula) bool { return v.ID == p.against })
	kit.SetVisible(p.apart, i >= 0)
	if i < 0 {
		p.shownAs = nil
		return
	}
	v := p.versions[i]
	all := dough.Differences(dough.SideOfFormula(v), dough.SideOfFormula(f), p.units)
	if p.shownAs != nil && slices.Equal(all, p.shownAs) {
		return
	}
	p.shownAs = append([]dough.Difference{}, all...)
	name := func(n int) string { return lang.L("version {{.N}}", map[string]any{"N": n}) }
	p.apart.Objects = []fyne.CanvasObject{
		kit.Section(lang.L("What is different from version {{.N}}", map[string]any{"N": v.Number})),
		dough.DifferenceTable(name(v.Number), name(f.Number), all), kit.Rule(),
	}
	p.apart.Refresh()
}
