package pages

import (
	"sync"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/measure"
)

// Counted says how many records of a kind there are.
func Counted(kind journal.Kind, n int) string {
	with := map[string]any{"N": n}
	switch kind {
	case journal.KindCulture:
		return lang.N("{{.N}} cultures", n, with)
	case journal.KindFeeding:
		return lang.N("{{.N}} feedings", n, with)
	case journal.KindReading:
		return lang.N("{{.N}} readings", n, with)
	case journal.KindMove:
		return lang.N("{{.N}} moves", n, with)
	case journal.KindTempLog:
		return lang.N("{{.N}} temperature logs", n, with)
	case journal.KindFlour:
		return lang.N("{{.N}} flours", n, with)
	case journal.KindFormula:
		return lang.N("{{.N}} versions of formulas", n, with)
	case journal.KindBake:
		return lang.N("{{.N}} bakes", n, with)
	case journal.KindTrial:
		return lang.N("{{.N}} trials", n, with)
	case journal.KindTasting:
		return lang.N("{{.N}} tastings", n, with)
	case journal.KindSeries:
		return lang.N("{{.N}} rows of pictures", n, with)
	case journal.KindPhoto:
		return lang.N("{{.N}} photos", n, with)
	case journal.KindView:
		return lang.N("{{.N}} saved views", n, with)
	case journal.KindSettings:
		return lang.L("the settings")
	}
	return lang.N("{{.N}} records of an unknown kind", n, with)
}

// KindName says what a record is.
func KindName(kind journal.Kind) string {
	switch kind {
	case journal.KindCulture:
		return lang.L("Culture")
	case journal.KindFeeding:
		return lang.L("Feeding")
	case journal.KindReading:
		return lang.L("Reading")
	case journal.KindMove:
		return lang.L("Move")
	case journal.KindTempLog:
		return lang.L("Temperature log")
	case journal.KindFlour:
		return lang.L("Flour")
	case journal.KindFormula:
		return lang.L("Formula")
	case journal.KindBake:
		return lang.L("Bake")
	case journal.KindTrial:
		return lang.L("Trial")
	case journal.KindTasting:
		return lang.L("Tasting")
	case journal.KindSeries:
		return lang.L("Row of pictures")
	case journal.KindPhoto:
		return lang.L("Photo")
	case journal.KindView:
		return lang.L("Saved view")
	case journal.KindSettings:
		return lang.L("Settings")
	}
	return lang.L("Record")
}

// LeftOutWords say which record stays out of an archive, and why.
func LeftOutWords(l archive.LeftOut) string {
	what := KindName(journal.Kind(l.Kind))
	if l.Name != "" {
		what = lang.L("{{.Kind}} “{{.Name}}”", map[string]any{"Kind": what, "Name": l.Name})
	}
	with := map[string]any{"What": what}
	switch l.Why {
	case archive.Sealed:
		return lang.L("{{.What}} is sealed and stays: only what was unsealed travels.", with)
	case archive.Unreadable:
		return lang.L("{{.What}} is damaged and stays.", with)
	case archive.NoPicture:
		return lang.L("{{.What}} stays: its file is missing or damaged.", with)
	case archive.NotCleaned:
		return lang.L("{{.What}} stays: place and camera could not be taken out of it.", with)
	}
	return lang.L("{{.What}} stays.", with)
}

// SizeWords says how long files are.
func SizeWords(bytes int64, u measure.Units) string {
	return lang.L("{{.MB}} MB", map[string]any{"MB": u.FormatNumber(float64(bytes)/1e6, 1)})
}

// Megabytes is a length for a progress bar, which counts whole things.
func Megabytes(bytes int64) int { return int((bytes + 999_999) / 1_000_000) }

// Paced hands a count on to the main goroutine, at most ten times a second. What it
// gives may be called from any goroutine.
func (e *Env) Paced(show func(n int64)) func(n int64) {
	var mu sync.Mutex
	var last time.Time
	return func(n int64) {
		mu.Lock()
		defer mu.Unlock()
		if now := time.Now(); now.Sub(last) >= 100*time.Millisecond {
			last = now
			e.Main(func() { show(n) })
		}
	}
}
