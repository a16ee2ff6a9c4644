package series

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"io"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/app/tables"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/jar"
)

// change changes the record as one step that can be undone.
func (p *seriesPage) change(label string, do func(*journal.Series)) bool {
	return p.env.Do(label, func(tx *journal.Tx) error { return journal.Change(tx, p.id, do) })
}

// setLines keeps where the lines were dragged to.
func (p *seriesPage) setLines(m jar.Marks, known float64) {
	if p.lines.amiss = m.Check() != nil; p.lines.amiss {
		p.env.Say(lang.L("So the lines are no jar: the bottom lies lowest, the level above it, and the left side left of the right."), false)
		return
	}
	k := p.jar
	p.change(lang.L("the lines of a jar"), func(s *journal.Series) {
		s.Jars[k].SetMarks(m)
		s.Jars[k].Found = false
		if s.Jars[k].KnownMM != nil {
			s.Jars[k].Known = known
		}
	})
}

// setKnown says how high over the bottom something is that can be seen, in millimetres, and has
// its line drawn; nil takes it away.
func (p *seriesPage) setKnown(mm *float64) {
	if p.rec == nil {
		return
	}
	k := p.jar
	p.env.Fail(journal.Edit(p.env.Journal, p.id, lang.L("a known height"), func(s *journal.Series) {
		if k >= len(s.Jars) {
			return
		}
		one := &s.Jars[k]
		if one.KnownMM = mm; mm == nil {
			one.Known = 0
		} else if one.Known == 0 {
			one.Known = (one.Level + one.Top) / 2 // where no other line is
		}
	}))
}

// showKnown shows the lines once a height is known, so that its own is put where it is.
func (p *seriesPage) showKnown() {
	if p.rec != nil && p.rec.Jars[p.jar].KnownMM != nil && !p.asking {
		p.turnLines()
	}
}

// turnLines goes from the lines to the surface and back. Lines that were found and left as
// they are count as looked at.
func (p *seriesPage) turnLines() {
	p.asking, p.lines.amiss = !p.asking, false
	if k := p.jar; !p.asking && p.rec.Jars[k].Found {
		p.change(lang.L("the lines of a jar"), func(s *journal.Series) { s.Jars[k].Found = false })
		return
	}
	p.sync()
}

// draw keeps the height that was drawn on the picture shown; 0 forgets it.
func (p *seriesPage) draw(rise float64) {
	if p.at >= len(p.now.frames) {
		return
	}
	k, photo := p.jar, p.now.frames[p.at].ID
	if rise == 0 && !slices.ContainsFunc(p.rec.Jars[k].Drawn, func(d journal.DrawnRise) bool { return d.Photo == photo }) {
		return
	}
	p.change(lang.L("the surface on a picture"), func(s *journal.Series) { s.Jars[k].Draw(photo, rise) })
}

// setFirst says when the first picture was truly taken.
func (p *seriesPage) setFirst(t time.Time) {
	if len(p.now.frames) == 0 {
		return
	}
	i := slices.IndexFunc(p.now.frames, func(f *journal.Photo) bool { return !f.Taken.IsZero() })
	if i < 0 {
		return
	}
	taken := p.now.frames[i].Taken
	before := p.rec.TakenAt(p.now.frames[i])
	// The field tells minutes.
	if before.Truncate(time.Minute).Equal(t) {
		return
	}
	p.change(lang.L("the clock of the camera"), func(s *journal.Series) { s.Ahead = taken.Sub(t) })
}

// otherJar goes to the other jar, or asks what is in another one.
func (p *seriesPage) otherJar() {
	if len(p.rec.Jars) > 1 {
		p.jar, p.lines.amiss = (p.jar+1)%len(p.rec.Jars), false
		p.asking = p.rec.Jars[p.jar].Found
		p.sync()
		return
	}
	all, err := journal.All[journal.Culture](p.env.Journal)
	if p.env.Failed(err) {
		return
	}
	var sheet *kit.Dialog
	list := kit.Stack(2)
	for _, c := range all {
		f, err := p.feedingOf(c)
		if p.env.Failed(err) {
			return
		}
		if f == nil {
			continue
		}
		u := p.env.Units()
		words := lang.L("{{.Name}}, fed {{.When}}", map[string]any{"Name": c.Name, "When": u.Moment(f.At, p.env.Now())})
		list.Add(kit.NewButton(words, func() {
			sheet.Close()
			p.addJar(journal.SeriesJar{Culture: c.ID, Feeding: f.ID})
		}))
	}
	doughs, err := p.otherDoughs()
	if p.env.Failed(err) {
		return
	}
	for _, b := range doughs {
		list.Add(kit.NewButton(lang.L("the dough of {{.Name}}", map[string]any{"Name": past.Name(b.Name)}), func() {
			sheet.Close()
			p.addJar(journal.SeriesJar{Bake: b.ID})
		}))
	}
	if len(list.Objects) == 0 {
		list.Add(kit.Body(lang.L("No other culture was fed shortly before the first picture, and no other dough was rising.")))
	}
	sheet = kit.ShowDialog(p.env.Window, kit.DialogOptions{Title: lang.L("What is in the other jar?"), Content: list, Scroll: true,
		Aside:   kit.Small(lang.L("Both are followed by one clock: a race between two cultures in the same place.")),
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc"))}})
}

// feedingOf is the last feeding of a culture before the series ended that is not in it yet;
// nil if there is none.
func (p *seriesPage) feedingOf(c *journal.Culture) (*journal.Feeding, error) {
	all, err := journal.Linked[journal.Feeding](p.env.Journal, c.ID)
	if err != nil {
		return nil, err
	}
	const about = time.Hour // of the first picture
	first := p.rec.From.Add(-p.rec.Ahead)
	for _, f := range slices.Backward(all) {
		if histories.Taking(f) || f.At.After(first.Add(about)) {
			continue
		}
		if f.ID == p.rec.Jars[0].Feeding || first.Sub(f.At) > 48*time.Hour {
			return nil, nil
		}
		return f, nil
	}
	return nil, nil
}

// addJar has another jar in the row followed, where it is found on the first picture, or else
// beside the first jar.
func (p *seriesPage) addJar(j journal.SeriesJar) {
	if len(p.now.frames) == 0 {
		return
	}
	first, other := p.now.frames[0].Hash, p.rec.Jars[0].Marks()
	pages.Fetch(p.env, func(ctx context.Context) (jar.Marks, error) {
		img, err := p.env.Journal.FullSize(ctx, first, 0)
		if err != nil {
			return jar.Marks{}, err
		}
		m, ok := jar.Find(img, other)
		if !ok {
			m = besideIt(other)
		}
		return m, nil
	}, func(m jar.Marks, err error) {
		if p.env.Failed(err) {
			return
		}
		j.SetMarks(m)
		j.Found = true
		if len(p.rec.Jars) == 1 && p.change(lang.L("another jar"), func(s *journal.Series) { s.Jars = append(s.Jars, j) }) {
			p.read(false)
			p.jar, p.asking = len(p.rec.Jars)-1, true
			p.sync()
		}
	})
}

// besideIt is a jar as large as another, on the side where there is more room.
func besideIt(m jar.Marks) jar.Marks {
	if m.Check() != nil {
		return usual(1)
	}
	wide := m.Right - m.Left
	if m.Left > 1-m.Right {
		m.Left = max(0, (m.Left-wide)/2)
	} else {
		m.Left = min(1-wide, m.Right+(1-m.Right-wide)/2)
	}
	m.Right = m.Left + wide
	return m
}

// bin puts the series in the bin and goes back.
func (p *seriesPage) bin() {
	if p.env.Do(lang.L("deleting a row of pictures"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Series](tx, p.id) }) {
		p.env.Say(lang.L("The row of pictures was deleted."), true)
		p.back()
	}
}

// save asks what to save.
func (p *seriesPage) save() {
	if len(p.now.curves) == 0 {
		return
	}
	now, rec, names, mm := p.now, p.rec, p.names, p.mm
	name := func(what string) string { return pages.FileName(p.rec.Name, lang.L("row of pictures"), what) }
	savings := []pages.Saving{{Title: lang.L("The heights, as a table (CSV)"), Name: name("-heights.csv"), Write: func(w io.Writer) error {
		return tables.WriteHeights(w, rec, names, mm, now.frames, now.curves)
	}}}
	for k, film := range now.films {
		title, of := lang.L("The film, as a picture (PNG)"), "-film.png"
		if len(now.films) > 1 {
			of = fmt.Sprintf("-film-%d.png", k+1)
			title = lang.L("The film of {{.Name}}, as a picture (PNG)", map[string]any{"Name": names[k]})
		}
		savings = append(savings, pages.Saving{Title: title, Name: name(of), Write: func(w io.Writer) error { return png.Encode(w, enlarged(film)) }})
	}
	p.env.SaveOneOf(savings, lang.L("The chart is saved from its own menu: a right click on it.")+" "+tables.Note())
}

// enlarged makes a film twice as tall and wide.
func enlarged(film image.Image) image.Image {
	b := film.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, 2*b.Dx(), 2*b.Dy()))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			out.Set(x, y, film.At(b.Min.X+x/2, b.Min.Y+y/2))
		}
	}
	return out
}
