package formulas

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// family is a formula as the list shows it: its latest version, and when any of
// its versions was last baked.
type family struct {
	latest   *journal.Formula
	versions int
	baked    time.Time              // zero when it never was
	scores   []int                  // of its bakes, oldest first
	past     []*journal.BakeSummary // its bakes, newest first
}

// families gathers the versions of every formula; those baked last come first.
func families(all []*journal.Formula, summaries []*journal.BakeSummary) []family {
	byID := map[journal.ID]*family{}
	of := map[journal.ID]*family{} // by version
	for _, f := range all {
		fam := byID[f.Family]
		if fam == nil {
			fam = &family{latest: f}
			byID[f.Family] = fam
		}
		fam.versions++
		if f.Number > fam.latest.Number {
			fam.latest = f
		}
		of[f.ID] = fam
	}
	for _, c := range slices.Backward(summaries) { // oldest first
		fam := of[c.Formula]
		if fam == nil || c.Binned || !c.State.Over() {
			continue
		}
		if c.Score() > 0 {
			fam.scores = append(fam.scores, c.Score())
		}
		fam.past = append(fam.past, c)
		if c.At.After(fam.baked) {
			fam.baked = c.At
		}
	}
	out := make([]family, 0, len(byID))
	for _, fam := range byID {
		slices.Reverse(fam.past)
		out = append(out, *fam)
	}
	slices.SortFunc(out, func(a, b family) int {
		return cmp.Or(b.baked.Compare(a.baked), strings.Compare(a.latest.Name, b.latest.Name), strings.Compare(string(a.latest.ID), string(b.latest.ID)))
	})
	return out
}

// pictured are those of bakes that have a picture.
func pictured(bakes []*journal.BakeSummary) []*journal.BakeSummary {
	return slices.DeleteFunc(slices.Clone(bakes), func(c *journal.BakeSummary) bool { return c.Cover == "" })
}

// row is a family in words, with its picture and its flours.
type row struct {
	Name, Version, Change, Figures, Baked string
	Cover                                 string
	Flours                                []kit.Share
	Scores                                []int
	Score                                 string // the last of them

	versionRoom, bakedRoom float32 // of the widest in the list, so that its rows line up
}

// lineUp tells rows of one list what the widest of them need.
func lineUp(rows []row) {
	var version, baked float32
	for _, r := range rows {
		version, baked = max(version, faint(r.Version).Extent().Width), max(baked, faint(r.Baked).Extent().Width)
	}
	for i := range rows {
		rows[i].versionRoom, rows[i].bakedRoom = version, baked
	}
}

func rowOf(f family, now time.Time, u measure.Units) row {
	figures := f.latest.Dough().Metrics()
	r := row{Flours: dough.FlourShares(f.latest.Dough(), u), Name: cmp.Or(f.latest.Name, lang.L("A formula without a name")), Change: f.latest.Change,
		Version: lang.L("version {{.N}}", map[string]any{"N": f.latest.Number}), Baked: lang.L("not baked yet")}
	if shown := pictured(f.past); len(shown) > 0 {
		r.Cover = shown[0].Cover
	}
	if figures.Defined() {
		r.Figures = lang.L("{{.Dough}} of dough, hydration {{.Hydration}}", map[string]any{
			"Dough":     dough.Weights(f.latest.Dough(), u).Write(float64(figures.Dough)),
			"Hydration": u.Percent(1).Fixed(1).Write(float64(figures.Hydration)),
		})
	}
	if n := len(f.scores); n > 0 {
		r.Scores, r.Score = f.scores, lang.L("last score {{.N}} of 9", map[string]any{"N": f.scores[n-1]})
	}
	if len(f.past) > 0 {
		r.Baked = lang.L("last baked {{.When}}", map[string]any{"When": u.Day(f.baked, now)})
	}
	return r
}
