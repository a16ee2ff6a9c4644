package shelf

import (
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

// item is what a cell of the grid shows. It is called often, and answers at once.
func (p *shelfPage) item(i int) kit.PhotoItem {
	if p.record == nil || i < 0 || i >= p.length() {
		return kit.PhotoItem{}
	}
	s := p.speaker()
	if p.groups != nil {
		return s.groupItem(p.groups[i], p.state.GroupBy)
	}
	row := p.rows[i]
	it := s.bakeItem(row, p.state)
	for _, id := range p.chosen {
		it.Chosen = it.Chosen || id == p.record.Bakes[row].ID
	}
	return it
}

// bakeItem is a bake on the shelf: its name and score, what it was looked for by,
// and its day.
func (s wording) bakeItem(row int, at state) kit.PhotoItem {
	c := s.record.Bakes[row]
	it := kit.PhotoItem{Key: c.Cover, Title: past.Name(c.Name), Loaf: loafOf(c)}
	if c.Score() > 0 {
		it.Right = s.count(c.Score())
	}
	var parts []string
	for _, asked := range at.Filter.Flours {
		for i, share := range journal.WholeShares(c.Flours) {
			if f := c.Flours[i]; f.Key == asked.Flour {
				parts = append(parts, s.shareWords(f.Name, share))
			}
		}
	}
	if len(parts) == 0 {
		figure := at.Order.By
		if figure == "" || figure == shelf.Score {
			figure = shelf.Hydration
		}
		if v := s.record.Metric(row, figure); v == v {
			d := s.record.Describe(figure, s.units)
			parts = append(parts, lang.L("{{.Figure}} {{.Value}}", map[string]any{"Figure": d.Name, "Value": s.caption(d, v)}))
		}
	}
	when := s.units.Day(c.At, s.now)
	if len(parts) == 0 {
		it.Sub = when
		return it
	}
	it.Sub, it.Short = strings.Join(parts, ", ")+" · "+when, when
	return it
}

// loafOf is how a bake without a photo is drawn.
func loafOf(c *journal.BakeSummary) kit.LoafTone {
	if c.Cover != "" {
		return kit.NoLoaf
	}
	return pages.LoafTone(c)
}

// caption writes a figure of a dough as every page does.
func (s wording) caption(d past.Described, v float64) string {
	if d.Key == shelf.Hydration {
		return d.Measure.Fixed(1).Write(v)
	}
	return d.Write(v)
}

func (s wording) shareWords(name string, share float64) string {
	return lang.L("{{.Flour}} {{.Share}}", map[string]any{"Flour": past.InSentence(name), "Share": s.units.Percent(0).Write(share)})
}

// groupCover is the picture that stands for a group: the newest crumb, and for a
// flour that of the bake with the most of it.
func (s wording) groupCover(g shelf.Group, by shelf.Grouping) string {
	cover, best := "", -1.0
	for _, row := range g.Rows {
		c := s.record.Bakes[row]
		if c.Cover == "" {
			continue
		}
		worth := 0.0
		if c.Crumb {
			worth = 1
		}
		if by == shelf.ByFlour && c.Crumb {
			for _, f := range c.Flours {
				if f.Key == g.Key {
					worth += float64(f.Share)
				}
			}
		}
		if worth > best {
			cover, best = c.Cover, worth
		}
	}
	return cover
}

// groupItem is a group on the shelf: a picture of it, how many bakes it
// holds and the median of their scores.
func (s wording) groupItem(g shelf.Group, by shelf.Grouping) kit.PhotoItem {
	it := kit.PhotoItem{Title: s.groupName(g.Key, by), Right: s.count(len(g.Rows))}
	if it.Key = s.groupCover(g, by); it.Key == "" && len(g.Rows) > 0 {
		it.Loaf = pages.LoafTone(s.record.Bakes[g.Rows[0]])
	}
	if median, n := s.medianScore(g.Rows); n > 0 {
		it.Sub = lang.L("median score {{.Score}}", map[string]any{"Score": s.units.FormatNumber(median, 1)})
	}
	return it
}

// groupName says what the bakes of a group have in common.
func (s wording) groupName(key string, by shelf.Grouping) string {
	if key == "" {
		return lang.L("without any")
	}
	switch by {
	case shelf.ByFlour:
		if name := s.record.Flours[key]; name != "" {
			return name
		}
	case shelf.ByCulture:
		return s.named([]string{key}, s.record.Cultures)[0]
	case shelf.ByTrial:
		return s.named([]string{key}, s.record.Trials)[0]
	case shelf.ByMonth:
		if from, _, ok := monthOf(key); ok {
			return monthWords(from)
		}
	case shelf.BySeason:
		if from, _, ok := monthOf(key); ok {
			return lang.L("{{.Season}} {{.Year}}", map[string]any{"Season": pages.SeasonWord(shelf.Season(from.Month())), "Year": strconv.Itoa(from.Year())})
		}
	case shelf.ByHydrationBand:
		low, _ := strconv.ParseFloat(key, 64)
		return lang.L("{{.A}} to {{.B}}", map[string]any{"A": s.count(int(low)), "B": s.units.Percent(0).Write(low + shelf.HydrationBand)})
	case shelf.ByScore:
		return lang.L("scored {{.Score}}", map[string]any{"Score": key})
	}
	return key
}

// monthOf reads a month as groups are keyed by it.
func monthOf(key string) (from, to time.Time, ok bool) {
	from, err := time.ParseInLocation("2006-01", key, time.Local)
	return from, from.AddDate(0, 1, 0), err == nil
}

// into narrows a state to one of its groups, ungrouped.
func into(s *state, key string) {
	by := s.GroupBy
	s.GroupBy = shelf.Ungrouped
	f := &s.Filter
	switch {
	case key == "":
		// There is no filter for what is not there: all bakes are shown instead.
	case by == shelf.ByFlour:
		if f.Flour(key) == nil {
			f.SetFlour(shelf.FlourPart{Flour: key})
		}
	case by == shelf.ByCulture:
		f.Cultures = []string{key}
	case by == shelf.ByTrial:
		f.Trials = []string{key}
	case by == shelf.ByMonth, by == shelf.BySeason:
		if from, to, ok := monthOf(key); ok {
			if by == shelf.BySeason {
				to = from.AddDate(0, 3, 0)
			}
			f.From, f.To = from, to
		}
	case by == shelf.ByHydrationBand:
		low, _ := strconv.ParseFloat(key, 64)
		high := low + shelf.HydrationBand // the next group begins there
		f.SetRange(shelf.Range{Figure: shelf.Hydration, AtLeast: &low, AtMost: &high, Below: true})
	case by == shelf.ByScore:
		v, _ := strconv.ParseFloat(key, 64)
		f.SetRange(shelf.Range{Figure: shelf.Score, AtLeast: &v, AtMost: &v})
	}
}
