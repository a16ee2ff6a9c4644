package bakes

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// outcome says how the bread came out.
type outcome struct {
	page   *bakePage
	box    *fyne.Container
	fill   []func(journal.Outcome)
	loss   *kit.Readout
	volume *kit.Readout
	scores *fyne.Container
	lines  []*scoreLine
	more   *kit.TextField
	notes  *kit.TextField
	first  *kit.QuantityField
}

func newOutcome(p *bakePage) *outcome {
	o := &outcome{page: p, loss: kit.NewReadout(lang.L("Bake loss"), false).Level(), volume: kit.NewReadout(lang.L("Specific volume"), false).Level()}
	u := p.units
	weights := kit.Tiles(look.Space(32), 6,
		o.figure(lang.L("Dough weight, before baking"), lang.L("all loaves"), u.Weight(), kit.Optional(func(x *journal.Outcome) **formula.Grams { return &x.DoughWeight })),
		o.figure(lang.L("Bread weight, cooled"), lang.L("all loaves"), u.Weight(), kit.Optional(func(x *journal.Outcome) **formula.Grams { return &x.LoafWeight })),
		o.loss,
		o.figure(lang.L("Cooled for"), "", u.Duration(), kit.NonZero(func(x *journal.Outcome) *time.Duration { return &x.CooledFor }, time.Minute)),
		o.figure(lang.L("Core temperature"), "", u.Temperature(), kit.Optional(func(x *journal.Outcome) **formula.Celsius { return &x.Inside })),
	)
	sizes := kit.Tiles(look.Space(32), 6,
		o.figure(lang.L("Height"), "", u.Length(), kit.Optional(func(x *journal.Outcome) **float64 { return &x.HeightMM })),
		o.figure(lang.L("Width"), "", u.Length(), kit.Optional(func(x *journal.Outcome) **float64 { return &x.WidthMM })),
		o.figure(lang.L("Volume"), lang.L("all loaves"), u.Volume(), kit.Optional(func(x *journal.Outcome) **float64 { return &x.VolumeML })),
		o.word(lang.L("measured with"), lang.L("rape seed, millet …"), func(x *journal.Outcome) *string { return &x.DisplacedBy }),
		o.volume,
	)
	o.scores = kit.Columns(look.Space(80))
	o.scores.Objects = nil
	o.more = kit.NewTextField("", lang.L("score something else: type it, then Enter"))
	o.more.OnDone = o.addAttribute
	o.notes = kit.NewNoteField(lang.L("In your own words"), lang.L("how it came out, what to do next time"))
	o.notes.OnChanged = func(text string) {
		p.rec.edit(lang.L("words on how it came out"), func(b *journal.Bake) { b.Outcome.Notes = text })
	}
	o.box = kit.Stack(4, weights, sizes, o.notes, o.scores, o.more)
	return o
}

// figure makes a field for a figure that is measured, or not.
func (o *outcome) figure(label, origin string, m measure.Measure, bound kit.Bound[journal.Outcome]) *kit.QuantityField {
	f := kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m, Keep: func(v *float64) {
		o.page.rec.edit(past.InSentence(label), func(b *journal.Bake) { bound.Set(&b.Outcome, v) })
	}})
	if o.first == nil {
		o.first = f
	}
	o.fill = append(o.fill, func(x journal.Outcome) {
		v := bound.Get(&x)
		f.Set(v)
		if v != nil {
			f.SetOrigin(origin)
		} else {
			f.SetOrigin("")
		}
	})
	return f
}

func (o *outcome) word(label, hint string, of func(*journal.Outcome) *string) fyne.CanvasObject {
	f := kit.NewTextField(label, hint)
	f.OnChanged = func(text string) {
		o.page.rec.edit(label, func(b *journal.Bake) { *of(&b.Outcome) = text })
	}
	o.fill = append(o.fill, func(x journal.Outcome) { f.SetText(*of(&x)) })
	return f
}

// sync shows how it came out.
func (o *outcome) sync(x journal.Outcome) {
	for _, fill := range o.fill {
		fill(x)
	}
	u := o.page.units
	for _, d := range []struct {
		r *kit.Readout
		f metric
	}{{o.loss, lossView(x, u)}, {o.volume, volumeView(x, u)}} {
		d.r.Set(d.f.value, d.f.unit, "", d.f.derived)
	}
	o.notes.SetText(x.Notes)
	o.syncScores(x)
}

func (o *outcome) syncScores(x journal.Outcome) {
	next := kit.KeptRows(o.lines, attributesOf(x.Scores),
		func(l *scoreLine, a attribute) bool { return l.key == a.key },
		func(a attribute) *scoreLine { return newScoreLine(o, a) })
	if !slices.Equal(next, o.lines) {
		o.lines = next
		left, right := kit.Stack(6), kit.Stack(6)
		for i, l := range next {
			if i < (len(next)+1)/2 {
				left.Add(l.box)
			} else {
				right.Add(l.box)
			}
		}
		o.scores.Objects = []fyne.CanvasObject{left, right}
		o.scores.Refresh()
	}
	for _, l := range o.lines {
		s := journal.AttributeScore{}
		if i := slices.IndexFunc(x.Scores, func(s journal.AttributeScore) bool { return s.Attribute == l.key }); i >= 0 {
			s = x.Scores[i]
		}
		if l.row.Score() != s.Score {
			l.row.SetScore(s.Score)
		}
		l.note.SetText(s.Note)
	}
}

// addAttribute takes a word of the baker's own as something to judge.
func (o *outcome) addAttribute(word string) {
	key := attributeKey(word)
	if key == "" {
		return
	}
	if o.page.rec.do(lang.L("judging {{.What}}", map[string]any{"What": key}), func(b *journal.Bake) { scoreOf(&b.Outcome, key) }) {
		o.more.SetText("")
	}
}

// scoreLine is one attribute on the nine-point scale, with a word on it.
type scoreLine struct {
	key  string
	box  *fyne.Container
	row  *kit.ScoreRow
	note *kit.TextField
}

func newScoreLine(o *outcome, a attribute) *scoreLine {
	l := &scoreLine{key: a.key}
	l.row = kit.NewScoreRow(a.name, a.low, a.high, func(score int) {
		o.page.rec.do(lang.L("score of {{.What}}", map[string]any{"What": past.InSentence(a.name)}), func(b *journal.Bake) {
			scoreOf(&b.Outcome, a.key).Score = score
		})
	})
	l.note = kit.NewTextField("", lang.L("comment"))
	l.note.OnChanged = func(text string) {
		o.page.rec.edit(lang.L("word on {{.What}}", map[string]any{"What": past.InSentence(a.name)}), func(b *journal.Bake) {
			scoreOf(&b.Outcome, a.key).Note = text
		})
	}
	l.box = kit.Stack(1, l.row, l.note)
	if !slices.ContainsFunc(usualAttributes(), func(u attribute) bool { return u.key == a.key }) {
		l.box.Add(kit.Row(0, kit.NewLinkSpan(kit.Span{Text: lang.L("do not judge this"), Size: look.TextSmall, Color: look.ColorFaint}, func() {
			o.page.rec.do(lang.L("judging {{.What}}", map[string]any{"What": a.key}), func(b *journal.Bake) {
				b.Outcome.Scores = slices.DeleteFunc(b.Outcome.Scores, func(s journal.AttributeScore) bool { return s.Attribute == a.key })
			})
		})))
	}
	return l
}
