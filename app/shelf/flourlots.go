package shelf

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// flourLots are the bags of a flour that were bought, the newest first.
type flourLots struct {
	p    *flourPage
	box  *fyne.Container
	list *fyne.Container
	rows map[journal.ID]*lotRow
}

func newFlourLots(p *flourPage) *flourLots {
	l := &flourLots{p: p, list: kit.Stack(4), rows: map[journal.ID]*lotRow{}}
	l.box = kit.Stack(2, kit.Section(lang.L("Bags and prices")), l.list, kit.Row(2, kit.NewLink(lang.L("Add a bag"), l.add), kit.NewKeyHint("L", "")))
	return l
}

// add writes down a lot bought today.
func (l *flourLots) add() {
	if !l.p.larder() {
		return
	}
	id, err := l.p.env.Journal.NewID()
	if l.p.env.Failed(err) {
		return
	}
	now := l.p.env.Now()
	l.p.env.Do(lang.L("a bag of flour"), func(tx *journal.Tx) error {
		return journal.Change(tx, l.p.id, func(f *journal.Flour) {
			f.Lots = append(f.Lots, journal.FlourLot{ID: id, Bought: now})
		})
	})
}

func (l *flourLots) show(s *flourState) {
	var lots []journal.FlourLot
	if s.record != nil {
		lots = slices.Clone(s.record.Lots)
	}
	slices.SortStableFunc(lots, func(a, b journal.FlourLot) int { return b.Bought.Compare(a.Bought) })
	currency := ""
	if set, err := l.p.env.Journal.Settings(); err == nil {
		currency = set.Currency
	}
	var objects []fyne.CanvasObject
	for _, lot := range lots {
		row, ok := l.rows[lot.ID]
		if !ok {
			row = newLotRow(l.p, lot.ID)
			l.rows[lot.ID] = row
		}
		row.show(lot, l.p.speaker(), currency)
		objects = append(objects, row.box)
	}
	if len(lots) == 0 {
		objects = append(objects, kit.Faint(lang.L("No bag is written down. With a weight and a price, the year says what the bread cost.")))
	}
	if !slices.Equal(objects, l.list.Objects) {
		l.list.Objects = objects
	}
	l.list.Refresh()
}

// lotRow is one lot.
type lotRow struct {
	box    fyne.CanvasObject
	mark   *kit.TextField
	bought *kit.WhenField
	grams  *kit.QuantityField
	price  *kit.QuantityField
	each   *kit.Text
}

func newLotRow(p *flourPage, id journal.ID) *lotRow {
	edit := func(label string, change func(*journal.FlourLot)) {
		p.edit(label, func(f *journal.Flour) {
			if i := slices.IndexFunc(f.Lots, func(l journal.FlourLot) bool { return l.ID == id }); i >= 0 {
				change(&f.Lots[i])
			}
		})
	}
	r := &lotRow{each: kit.Small("")}
	u := p.env.Units()
	r.mark = kit.NewTextField("", lang.L("mark on the bag"))
	r.mark.OnChanged = func(text string) {
		edit(lang.L("mark of a bag"), func(l *journal.FlourLot) { l.Mark = strings.TrimSpace(text) })
	}
	r.bought = kit.NewWhenField(kit.WhenOptions{
		Label: lang.L("bought"), Units: u, Now: p.env.Now,
		OnChanged: func(t time.Time) {
			edit(lang.L("when a bag was bought"), func(l *journal.FlourLot) { l.Bought = t })
		},
	})
	figure := func(label, what string, m measure.Measure, bound kit.Bound[journal.FlourLot]) *kit.QuantityField {
		return kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m,
			Keep: func(v *float64) { edit(what, func(l *journal.FlourLot) { bound.Set(l, v) }) }})
	}
	r.grams = figure(lang.L("weight"), lang.L("weight of a bag"), u.Weight(), lotGrams)
	r.price = figure(lang.L("price"), lang.L("price of a bag"), u.Number("", 2), lotPrice)
	drop := kit.NewLinkSpan(kit.Span{Text: "×", Bold: true, Color: look.ColorFaint}, func() {
		if p.env.Do(lang.L("removing a bag"), func(tx *journal.Tx) error {
			return journal.Change(tx, p.id, func(f *journal.Flour) {
				f.Lots = slices.DeleteFunc(f.Lots, func(l journal.FlourLot) bool { return l.ID == id })
			})
		}) {
			p.env.Say(lang.L("The bag is removed."), true)
		}
	})
	r.box = kit.Stack(1, kit.RowGrow(2, 0, r.mark, drop), kit.WeightedColumns(look.Space(14), []float32{2.2, 1, 1}, r.bought, r.grams, r.price), r.each, kit.Rule())
	return r
}

func (r *lotRow) show(l journal.FlourLot, s wording, currency string) {
	r.mark.SetText(l.Mark)
	if !l.Bought.IsZero() {
		r.bought.SetTime(l.Bought)
	}
	r.grams.Set(lotGrams.Get(&l))
	r.price.Set(lotPrice.Get(&l))
	r.price.SetOrigin("")
	if l.Price > 0 {
		r.price.SetOrigin(cmp.Or(currency, s.units.Currency))
	}
	words := s.lotWords(l, currency)
	r.each.SetText(words)
	kit.SetVisible(r.each, words != "")
}

// The figures of a lot, where they were written down.
var (
	lotGrams = kit.NonZero(func(l *journal.FlourLot) *formula.Grams { return &l.Grams }, 1)
	lotPrice = kit.NonZero(func(l *journal.FlourLot) *float64 { return &l.Price }, 1)
)
