package safekeeping

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/carry"
)

// mostRows is how many records are listed one by one; the choice for all holds for
// the others, too.
const mostRows = 200

// show shows how the archive stands to the journal.
func (p *arrivalPage) show() {
	ar, u, now := p.arrival, p.env.Units(), p.env.Now()
	fresh, same, differ, refused := ar.Of(carry.New), ar.Of(carry.Same), ar.Of(carry.Different), ar.Of(carry.Refused)
	p.page.SetHeading(arrivalHeading(len(fresh), len(differ)))
	p.page.SetActions(nil)
	if p.brings() {
		p.page.SetActions(nil, kit.PrimaryButton(lang.L("Bring it in"), p.bringIn).WithKey("I"))
	}
	column := kit.Stack(7)
	made := lang.L("An archive of a choice, made {{.When}}.", map[string]any{"When": u.When(ar.Manifest.Made.In(now.Location()), now)})
	if ar.Manifest.Scope == archive.Whole {
		made = lang.L("An archive of a whole journal, made {{.When}}.", map[string]any{"When": u.When(ar.Manifest.Made.In(now.Location()), now)})
	}
	column.Add(kit.Body(made))
	if p.brings() && !ar.Undoable(p.order()) {
		column.Add(kit.Small(lang.L("This is more than one undo can take back. A backup is made before anything comes in, and you can go back to it below Backups and safekeeping.")))
	}
	if len(fresh) > 0 {
		words := countedKinds(fresh)
		if ar.Bytes > 0 {
			words += " · " + lang.L("{{.Size}} of pictures", map[string]any{"Size": pages.SizeWords(ar.Bytes, u)})
		}
		column.Add(kit.Stack(1, kit.Section(lang.L("New")), kit.Body(words)))
	}
	if len(differ) > 0 {
		column.Add(p.differing(differ))
	}
	if len(same) > 0 {
		column.Add(kit.Stack(1, kit.Section(lang.L("Already here")), kit.Body(countedKinds(same))))
	}
	if len(refused) > 0 {
		lines := kit.Stack(1, kit.Section(lang.L("Cannot be brought in")))
		for _, it := range first(refused) {
			lines.Add(kit.Body(refusedWords(it, u.When(it.At, now), u)))
		}
		column.Add(lines)
	}
	if out := ar.Manifest.LeftOut; len(out) > 0 {
		lines := kit.Stack(1, kit.Section(lang.L("Stayed where the archive was made")))
		for _, l := range out[:min(len(out), mostRows)] {
			lines.Add(kit.Body(pages.LeftOutWords(l)))
		}
		column.Add(lines)
	}
	p.page.SetBody(column)
	p.env.Retitle()
}

func arrivalHeading(fresh, differ int) string {
	with := map[string]any{"N": fresh, "Different": differ}
	switch {
	case fresh == 0 && differ == 0:
		return lang.L("Nothing here is new to you")
	case differ == 0:
		return lang.N("{{.N}} new records", fresh, with)
	case fresh == 0:
		return lang.N("{{.N}} records differ from yours", differ, map[string]any{"N": differ})
	}
	return lang.L("{{.New}}, {{.Differ}}", map[string]any{
		"New":    lang.N("{{.N}} new records", fresh, with),
		"Differ": lang.N("{{.N}} that differ", differ, map[string]any{"N": differ}),
	})
}

// countedKinds counts items by kind: "3 bakes · 12 photos".
func countedKinds(items []*carry.Item) string {
	n := map[journal.Kind]int{}
	for _, it := range items {
		n[it.Kind]++
	}
	var words []string
	for _, kind := range journal.Kinds() {
		if n[kind] > 0 {
			words = append(words, pages.Counted(kind, n[kind]))
		}
	}
	return strings.Join(words, " · ")
}

func first(items []*carry.Item) []*carry.Item { return items[:min(len(items), mostRows)] }

// wayWords are the ways in their order.
func wayWords() []string {
	return []string{lang.L("keep both"), lang.L("keep mine"), lang.L("take theirs")}
}

// choiceList is the part of the page on what differs: a choice for all, and one for each.
type choiceList struct {
	all  *kit.Segments
	each []*kit.Segments
}

// differing shows what differs and asks which is to be kept.
func (p *arrivalPage) differing(items []*carry.Item) fyne.CanvasObject {
	u, now := p.env.Units(), p.env.Now()
	p.choices = &choiceList{}
	if p.ways == nil {
		p.ways = map[journal.Ref]carry.Way{}
	}
	p.choices.all = kit.NewSegments(lang.L("For all"), wayWords(), int(p.all), func(i int) {
		p.all = carry.Way(i)
		clear(p.ways)
		for k, it := range first(items) {
			p.choices.each[k].SetChosen(slices.Index(waysFor(it), settle(it, p.all)))
		}
	})
	column := kit.Stack(4, kit.Section(lang.L("Different")),
		kit.Small(lang.L("Both are kept unless you choose: yours as it is, and theirs beside it, with “(brought in)” behind its name if it has one.")),
		p.choices.all)
	for _, it := range first(items) {
		title := itemTitle(it)
		if !it.At.IsZero() {
			title += " · " + u.When(it.At.In(now.Location()), now)
		}
		ways := waysFor(it)
		words := wayWords()[len(wayWords())-len(ways):]
		choose := kit.NewSegments("", words, slices.Index(ways, settle(it, p.way(it))), func(i int) { p.ways[it.Ref] = ways[i] })
		p.choices.each = append(p.choices.each, choose)
		column.Add(kit.Rule())
		column.Add(kit.WeightedColumns(look.Space(60), []float32{1.2, 1}, kit.Stack(0, kit.Strong(title), kit.Small(memberWords(it.Members))), choose))
		column.Add(p.bothVersions(it, len(items) <= mostOpened))
	}
	if more := len(items) - mostRows; more > 0 {
		column.Add(kit.Small(lang.N("{{.N}} more differ; the choice for all holds for them.", more, map[string]any{"N": more})))
	}
	return column
}

// waysFor are those that an item can go; of the settings there is one record.
func waysFor(it *carry.Item) []carry.Way {
	if it.Kind == journal.KindSettings {
		return []carry.Way{carry.KeepMine, carry.TakeTheirs}
	}
	return []carry.Way{carry.KeepBoth, carry.KeepMine, carry.TakeTheirs}
}

// settle gives the way that an item goes when w is asked for.
func settle(it *carry.Item, w carry.Way) carry.Way {
	if it.Kind == journal.KindSettings && w == carry.KeepBoth {
		return carry.KeepMine
	}
	return w
}
