package app

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
	"twinloaf/app/pages"
	"twinloaf/charts"
)

// The sidebar, with the door that the page lies behind, one that has the keyboard and one
// under the pointer.
func TestLookOfTheSidebar(t *testing.T) {
	looktest.Renders(t, "sidebar", fyne.NewSize(sidebarWidth+40, 560), func() fyne.CanvasObject {
		s := newSidebar(func(pages.Route) {})
		s.mark(pages.Formula)
		s.doors[0].FocusGained()
		s.doors[1].MouseIn(nil)
		return s
	})
}

// What is found: with a picture, with a drawn loaf, with a culture's mark, a page and a
// way on; the lit one says what Enter does.
func TestLookOfFoundRows(t *testing.T) {
	looktest.Renders(t, "found", fyne.NewSize(620, 320), func() fyne.CanvasObject {
		mark := charts.SeriesStyle{Hue: charts.Hue(1), Shape: charts.Square}
		rows := kit.Stack(0.5)
		for i, a := range []found{
			{group: findAhead, title: "Ferry loaf, 24 h", under: "planned", right: "Fri 6\u00a0Mar 07:30", loaf: kit.PaleLoaf},
			{group: findBake, title: "Deck rye", under: "7 of 9", right: "21 Feb", loaf: kit.DarkLoaf},
			{group: findCulture, title: "Gorse", mark: &mark},
			{group: findPage, words: "Findings"},
			{words: "Look for “ferry” on the shelf", link: true},
		} {
			r := newFoundRow(nil, a, func() {})
			r.light(i == 0)
			rows.Add(r)
		}
		return rows
	})
}
