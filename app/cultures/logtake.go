package cultures

import (
	"context"
	"errors"
	"fmt"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/templog"
)

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
