package bakes

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/bulk"
)

// bulkRows shows the rows of pictures of a bake's dough: the rise of its bulk as a curve,
// joined to its end, and a link to each row.
type bulkRows struct {
	page  *bakePage
	chart *kit.ChartFrame
	room  *fyne.Container // for the chart, where there is a curve
	list  *fyne.Container
	box   *fyne.Container
	some  bool // there are rows
	begun bool // the bulk has, so that there could be
}

func newBulkRows(p *bakePage) *bulkRows {
	r := &bulkRows{page: p, room: container.NewStack(), list: kit.Stack(1)}
	r.chart = p.env.NewChart(lang.L("rise of the bulk"), fyne.NewSize(look.Space(80), look.Space(60)), func(charts.Mark) {})
	r.box = kit.Stack(2, kit.Section(lang.L("Rise of the bulk")), r.room, r.list)
	r.box.Hide()
	return r
}

// A bulkRow is one row of pictures with the curve of this bake's dough; nil without one.
type bulkRow struct {
	row   *journal.Series
	curve *journal.SeriesCurve
}

// read reads the rows, and has those followed of which no curve is kept, away from the main
// goroutine.
func (r *bulkRows) read(b *journal.Bake) {
	env := r.page.env
	var rows []bulkRow
	var seen []bulk.Rise
	var err error
	env.Run(func(ctx context.Context) { rows, seen, err = readBulkRows(ctx, env.Journal, b.ID) }, func() {
		if env.Failed(err) {
			return
		}
		r.page.bulk.seen = seen
		r.show(b, rows, seen)
		r.page.bulk.show(b)
		kit.RevealFocused(env.Window.Canvas()) // the rows stand above the outcome
	})
}

func readBulkRows(ctx context.Context, j *journal.Journal, bake journal.ID) (rows []bulkRow, seen []bulk.Rise, err error) {
	until := j.Until(ctx)
	all, err := journal.SeriesOf(until, bake)
	if err != nil {
		return nil, nil, err
	}
	for _, s := range all {
		if !s.Reading() { // else its own page goes on with it
			if _, err := j.CatchUpSeries(ctx, s); err != nil {
				return nil, nil, err
			}
		}
		curves, ok, err := journal.SeriesCurves(until, s)
		if err != nil {
			return nil, nil, err
		}
		one := bulkRow{row: s}
		if k := slices.IndexFunc(s.Jars, func(j journal.SeriesJar) bool { return j.Bake == bake }); ok && k >= 0 {
			one.curve = &curves[k]
		}
		rows = append(rows, one)
	}
	seen, err = journal.BulkRises(until, bake)
	return rows, seen, err
}

// show shows what was read.
func (r *bulkRows) show(b *journal.Bake, rows []bulkRow, seen []bulk.Rise) {
	u := r.page.units
	var links []*journal.Series
	curves := pages.RiseCurves{At: -1, Zone: r.page.env.Now().Location()}
	d, _ := b.Bulk(seen...)
	for _, one := range rows {
		links = append(links, one.row)
		if one.curve == nil {
			continue
		}
		curves.Curves, curves.Names = append(curves.Curves, *one.curve), append(curves.Names, past.Name(b.Name))
		curves.Looks = append(curves.Looks, pages.LooksOfJars(r.page.env.Journal, &journal.Series{Jars: []journal.SeriesJar{{Bake: b.ID}}})...)
		curves.Doughs = append(curves.Doughs, d)
	}
	r.room.Objects = nil
	if len(curves.Curves) > 0 {
		r.chart.Name = pages.FileName(past.Name(b.Name), lang.L("rise of the bulk"), "")
		r.chart.SetSpec(curves.Plot(u))
		r.room.Add(r.chart)
	}
	r.room.Refresh()
	r.list.Objects = r.page.env.SeriesRows(links, lang.L("A camera before a straight-sided box that takes a picture every few minutes sees the whole bulk: drop its folder here, or choose its pictures with R. It begins when the dough is in the box."))
	r.list.Refresh()
	_, begun := b.Bulk()
	r.some, r.begun = len(rows) > 0, begun
	r.place()
	r.page.page.Refresh() // it has another height
}

// place shows the rows; without any, where they can be begun.
func (r *bulkRows) place() { kit.SetVisible(r.box, r.some || r.begun && !r.page.reads) }

// pick has the pictures of a row chosen.
func (r *bulkRows) pick() { r.page.env.PickPictures(r.begin) }

// begin begins a row of pictures of the bake's dough.
func (r *bulkRows) begin(pictures []journal.Picture) {
	if len(pictures) > 0 && r.page.rec.put() {
		r.page.env.BeginSeries(journal.SeriesJar{Bake: r.page.rec.id}, pictures)
	}
}
