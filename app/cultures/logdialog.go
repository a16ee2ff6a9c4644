package cultures

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plainfile"
	"twinloaf/journal/say"
	"twinloaf/journal/templog"
)

// mostLogBytes is the largest file that is read as a temperature log: a logger that
// writes every minute for five years stays below it.
const mostLogBytes = 128 << 20

// logDialog shows how a file of temperatures is understood before any of it is taken.
type logDialog struct {
	env     *pages.Env
	culture *journal.Culture
	name    string
	data    []byte
	opt     templog.Options
	sheet   *kit.Dialog
	stop    func()
	preview templog.Preview
	able    bool // the file is understood

	separator, date, clock, temp, order, unit *kit.ChoiceField
	rows                                      *fyne.Container
	notes                                     *kit.Text
	take                                      *kit.Button
}

// logEndings are those of the files that may be logs.
var logEndings = []string{".csv", ".txt", ".tsv", ".log"}

// pickLog asks for a file of temperatures.
func pickLog(env *pages.Env, c *journal.Culture) {
	kit.PickFiles(env.Main, env.Window, kit.PickOptions{
		Title: lang.L("Import a temperature log"), Yes: lang.L("Look at it"), Endings: logEndings,
		OnChosen: func(paths []string) {
			if len(paths) > 0 {
				openLog(env, c, paths[0])
			}
		},
	})
}

// openLog reads a file away from the main goroutine and shows what is in it.
func openLog(env *pages.Env, c *journal.Culture, path string) {
	var data []byte
	var err error
	env.Think(func() { data, err = plainfile.Read(path, mostLogBytes) }, func() {
		if env.Failed(err) {
			return
		}
		showLog(env, c, filepath.Base(path), data)
	})
}

// showLog opens the dialog on the bytes of a file.
func showLog(env *pages.Env, c *journal.Culture, name string, data []byte) *logDialog {
	now := env.Now()
	s := &logDialog{env: env, culture: c, name: name, data: data,
		opt: templog.Options{Zone: now.Location(), NotAfter: now}, rows: kit.Stack(0.5), notes: kit.NewText(), stop: func() {}}
	choose := func(label, hint string, words []string, set func(i int)) *kit.ChoiceField {
		return kit.NewChoiceField(label, hint, words, func(i int) { set(i); s.look() })
	}
	s.separator = choose(lang.L("Separator"), lang.L("not found"), separatorWords(), func(i int) {
		s.opt.Separator, s.opt.Date, s.opt.Time, s.opt.Temp = separators[i], 0, 0, 0
	})
	columns := columnWords(templog.Layout{})
	s.date = choose(lang.L("Date"), lang.L("not found"), columns, func(i int) { s.opt.Date = i + 1 })
	s.clock = choose(lang.L("Time, if apart"), lang.L("with the date"), columns, func(i int) { s.opt.Time = i + 1 })
	s.temp = choose(lang.L("Temperature"), lang.L("not found"), columns, func(i int) { s.opt.Temp = i + 1 })
	s.order = choose(lang.L("Order"), lang.L("as it is written"), []string{lang.L("day first"), lang.L("month first")}, func(i int) { s.opt.Order = []templog.DateOrder{templog.DayFirst, templog.MonthFirst}[i] })
	s.unit = choose(lang.L("Unit"), lang.L("not given"), []string{"°C", "°F"}, func(i int) { s.opt.Unit = []templog.Unit{templog.DegreesC, templog.DegreesF}[i] })
	s.take = kit.PrimaryButton(lang.L("Import"), s.keep)
	s.sheet = kit.ShowDialog(env.Window, kit.DialogOptions{
		Title: lang.L("What will be imported from {{.Name}}", map[string]any{"Name": name}), Width: 760, Height: 640, Scroll: true,
		Content:  kit.Stack(4, kit.Flow(8, s.separator, s.date, s.clock, s.temp, s.order, s.unit), s.notes, kit.Rule(), s.rows),
		Buttons:  []fyne.CanvasObject{s.take},
		OnEnter:  s.keep,
		OnClosed: func() { s.stop() },
	})
	s.look()
	return s
}

// look finds out anew how the file is laid out, away from the main goroutine.
func (s *logDialog) look() {
	s.stop()
	s.able = false // what was shown of it was understood otherwise
	opt := s.opt
	s.stop = pages.Fetch(s.env, func(ctx context.Context) (templog.Preview, error) { return templog.Inspect(ctx, s.data, opt) }, s.show)
}

// show fills the dialog with what was found.
func (s *logDialog) show(p templog.Preview, err error) {
	s.preview, s.able = p, err == nil && p.Some
	s.rows.Objects = nil
	u := s.env.Units()
	if err != nil {
		s.notes.SetSpans(kit.Span{Color: look.ColorEmber, Text: u.ErrorText(err)})
	} else {
		l := p.Layout
		words := columnWords(l)
		for _, f := range []*kit.ChoiceField{s.date, s.clock, s.temp} {
			f.SetOptions(words)
		}
		s.separator.SetChosen(slices.Index(separators, l.Separator))
		s.date.SetChosen(l.Date - 1)
		s.clock.SetChosen(l.Time - 1)
		s.temp.SetChosen(l.Temp - 1)
		s.order.SetChosen(int(l.Order) - 1)
		s.unit.SetChosen(int(l.Unit) - 1)
		s.notes.SetSpans(kit.Span{Text: noteWords(p.Notes, u), Color: look.ColorFaint})
		if !p.Some {
			s.notes.SetSpans(kit.Span{Text: lang.L("Nothing can be imported: every row is refused, for the reason beside it."), Color: look.ColorEmber})
		}
		s.fillRows(p)
	}
	kit.SetVisible(s.notes, s.notes.String() != "")
	kit.SetEnabled(s.take, s.able)
	s.sheet.Refresh()
}

// separators are those that a file's columns may be parted by.
var separators = []rune{',', ';', '\t', '|', ' '}

func separatorWords() []string {
	return []string{lang.L("commas"), lang.L("semicolons"), lang.L("tabs"), lang.L("bars"), lang.L("spaces")}
}

// columnWords name the columns of a file by its headings, or by number.
func columnWords(l templog.Layout) []string {
	out := make([]string, cmp.Or(l.Columns, 8))
	for i := range out {
		out[i] = lang.L("column {{.N}}", map[string]any{"N": i + 1})
		if i < len(l.Heading) && strings.TrimSpace(l.Heading[i]) != "" {
			out[i] = fmt.Sprintf("%d: %s", i+1, strings.TrimSpace(l.Heading[i]))
		}
	}
	return out
}

func noteWords(notes []templog.Note, u measure.Units) string {
	text := ""
	for _, n := range notes {
		text = joined(text, u.Say(n.Sentence))
	}
	return text
}

// tenths writes a temperature with one decimal, whether it is needed or not, so that those of
// a column stand alike.
func tenths(t formula.Celsius, u measure.Units) string {
	return u.Say(say.Of("{{.Temp}}", say.With{"Temp": say.Celsius(float64(t), 1)}))
}

// fillRows shows the first rows: what will be taken, and what stands in the file.
func (s *logDialog) fillRows(p templog.Preview) {
	u := s.env.Units()
	for _, r := range p.Rows {
		raw := kit.NewElided(kit.Span{Text: strings.Join(r.Fields, " | "), Size: look.TextSmall, Color: look.ColorFaint})
		if !r.Problem.IsZero() {
			s.rows.Add(kit.RowGrow(3, 1, kit.Width(look.Space(70), kit.NewElided(kit.Span{Text: lang.L("not taken: {{.Why}}", map[string]any{"Why": u.Say(r.Problem)}), Color: look.ColorEmber})), raw))
			continue
		}
		s.rows.Add(kit.RowGrow(3, 2,
			kit.Width(look.Space(50), kit.NewElided(kit.Span{Text: u.Locale().Weekday(r.Point.At) + " " + u.Moment(r.Point.At, s.env.Now())})),
			kit.Width(look.Space(20), kit.NewElided(kit.Span{Text: tenths(r.Point.Temp, u), Bold: true})), raw))
	}
}

// keep reads the whole log and keeps it, with progress, away from the main goroutine.
func (s *logDialog) keep() {
	if !s.able {
		return
	}
	s.sheet.Close()
	opt := s.opt
	pages.FetchOver(s.env, lang.L("Importing {{.Name}}", map[string]any{"Name": s.name}), func(ctx context.Context, bar *kit.Progress) (templog.Log, error) {
		return takeLog(ctx, s.env.Journal, s.culture, s.name, s.data, opt, func(done, total int) {
			s.env.Main(func() { bar.Set(done>>10, total>>10, "kB") })
		})
	}, func(log templog.Log, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			s.env.Say(lang.L("Nothing was imported from the log."), false)
		case err != nil:
			s.env.Fail(err)
		default:
			s.env.Say(takenWords(log, s.env.Units()), true)
		}
	})
}

// takeLog reads a log and keeps it as one change. It takes its time.
func takeLog(ctx context.Context, j *journal.Journal, c *journal.Culture, name string, data []byte, opt templog.Options, progress func(done, total int)) (templog.Log, error) {
	log, err := templog.Read(ctx, data, opt, progress)
	if err != nil {
		return log, fmt.Errorf("reading %s: %w", name, err)
	}
	points := make([]journal.TempPoint, len(log.Points))
	for i, p := range log.Points {
		points[i] = journal.TempPoint{At: p.At, C: *celsius(new(float64(p.Temp)))}
	}
	packed, err := journal.PackTemps(points)
	if err != nil {
		return log, fmt.Errorf("taking in %s: %w", name, err)
	}
	rec := &journal.TempLog{Culture: c.ID, Name: name, From: points[0].At, To: points[len(points)-1].At, Count: len(points), Packed: packed}
	if err := ctx.Err(); err != nil {
		return log, err
	}
	return log, j.Do(lang.L("a temperature log of {{.Name}}", map[string]any{"Name": nameOf(c)}), func(tx *journal.Tx) error { return journal.Put(tx, rec) })
}

// takenWords say what was taken of a log.
func takenWords(log templog.Log, u measure.Units) string {
	data := map[string]any{"Temperatures": u.FormatNumber(float64(len(log.Points)), 0), "Refused": log.Refused, "Gaps": len(log.Gaps)}
	s := lang.N("{{.Temperatures}} temperatures imported.", len(log.Points), data)
	if log.Refused > 0 {
		s = joined(s, lang.L("Lines that were not taken: {{.Refused}}.", data))
	}
	if len(log.Gaps) > 0 {
		s = joined(s, lang.L("Gaps in it: {{.Gaps}}.", data))
	}
	return s
}
