//go:build yardstick

package shelf

import (
	"context"
	"database/sql"
	"image"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/photo"
	"twinloaf/journal/shelf"
)

// large makes the journal that the benchmarks of one run share: 10,000 bakes, 40,000
// photos with 2,000 different contents, so that the thumbnails of a scroll to the end
// are many times what the cache holds.
var large = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "twinloaf-shelf-")
	if err != nil {
		return "", err
	}
	return dir, journaltest.Generate(context.Background(), dir, journaltest.Spec{Bakes: 10_000, Photos: 40_000, Contents: 2_000, Seed: 1})
})

var asked bool

func TestMain(m *testing.M) {
	code := m.Run()
	if asked {
		if dir, _ := large(); dir != "" {
			_ = os.RemoveAll(dir)
		}
	}
	os.Exit(code)
}

func largeJournal(b *testing.B) (*journal.Journal, string) {
	b.Helper()
	asked = true
	dir, err := large()
	if err != nil {
		b.Fatal(err)
	}
	return openLarge(b, dir), dir
}

func openLarge(b *testing.B, dir string) *journal.Journal {
	b.Helper()
	j, err := journal.Open(b.Context(), dir, journal.Options{})
	if err != nil {
		b.Fatal(err)
	}
	return j
}

func largeRecord(b *testing.B) (*journal.Journal, *past.BakeIndex) {
	b.Helper()
	j, _ := largeJournal(b)
	b.Cleanup(func() { _ = j.Close() })
	record, err := past.Of(j)
	if err != nil {
		b.Fatal(err)
	}
	return j, record
}

func spelt(least float64) shelf.Filter {
	return shelf.Filter{Flours: []shelf.FlourPart{{Flour: "spelt", AtLeast: &least}}}
}

// Every loaf with at least 15 % spelt, newest first.
func BenchmarkFilterByFlourAndShare(b *testing.B) {
	_, record := largeRecord(b)
	db, _ := putBeside(b, record)
	f := spelt(15)
	if ours, theirs := record.Filter(f).Len(), db.rows(b, spelt15); ours != theirs || ours == 0 {
		b.Fatalf("%d against %d", ours, theirs)
	}
	besideIt(b, func() { record.Filter(f).Rows(shelf.Order{}) }, func() { db.rows(b, spelt15) })
}

// The counts beside every choice, and the three histograms, with two filters on.
func BenchmarkCountsBesideAllChoices(b *testing.B) {
	_, record := largeRecord(b)
	db, _ := putBeside(b, record)
	f := spelt(15)
	for id := range record.Cultures {
		if len(f.Cultures) < 2 {
			f.Cultures = append(f.Cultures, id)
		}
	}
	besideIt(b, func() {
		l := record.Filter(f)
		l.Counts(f)
		for _, figure := range usual() {
			l.Spread(figure)
		}
	}, func() { db.counts(b, f.Cultures[0], f.Cultures[1]) })
}

// Words in names and notes, which no index of either side helps.
func BenchmarkFilterByWords(b *testing.B) {
	_, record := largeRecord(b)
	db, _ := putBeside(b, record)
	f := shelf.Filter{Text: "sticky harbour"}
	const query = `SELECT id FROM bake WHERE text LIKE '%sticky%' AND text LIKE '%harbour%' ORDER BY at DESC, ulid DESC`
	if ours, theirs := record.Filter(f).Len(), db.rows(b, query); ours != theirs || ours == 0 {
		b.Fatalf("%d against %d", ours, theirs)
	}
	besideIt(b, func() { record.Filter(f).Rows(shelf.Order{}) }, func() { db.rows(b, query) })
}

// All 10,000 by score, the best first.
func BenchmarkSortByScore(b *testing.B) {
	_, record := largeRecord(b)
	db, _ := putBeside(b, record)
	const query = `SELECT id FROM bake ORDER BY score DESC NULLS LAST, at DESC, ulid DESC`
	all := record.Filter(shelf.Filter{})
	besideIt(b, func() { all.Rows(shelf.Order{By: shelf.Score}) }, func() { db.rows(b, query) })
}

// firstScreen is how many thumbnails stand on a window of 1280 by 800.
const firstScreen = 12

func firstCovers(record *past.BakeIndex) []string {
	var out []string
	for _, row := range record.Filter(spelt(15)).Rows(shelf.Order{}) {
		if hash := record.Bakes[row].Cover; hash != "" && len(out) < firstScreen {
			out = append(out, hash)
		}
	}
	return out
}

// fetch loads thumbnails as a screen does and waits for them.
func fetch(b *testing.B, from kit.ThumbSource, hashes []string) {
	b.Helper()
	loader := kit.NewLoader(maintest.New().Do, from, 2, 96<<20)
	defer loader.Close()
	var all sync.WaitGroup
	for _, hash := range hashes {
		all.Add(1)
		loader.Load(hash, 256, func(_ image.Image, err error) {
			if err != nil {
				b.Error(err)
			}
			all.Done()
		})
	}
	all.Wait()
}

type fromJournal struct{ j *journal.Journal }

func (s fromJournal) Thumb(ctx context.Context, hash string, _ int) (image.Image, error) {
	return s.j.Thumb(ctx, hash, photo.Medium)
}

// The first screen of thumbnails when each is made from its original.
func BenchmarkFirstScreenCold(b *testing.B) {
	maintest.App(b)
	j, record := largeRecord(b)
	covers := firstCovers(record)
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		if err := os.RemoveAll(filepath.Join(j.Dir(), "cache")); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		fetch(b, fromJournal{j}, covers)
	}
}

// The first screen from the thumbnails kept on disk; beside it, from pictures in
// SQLite.
func BenchmarkFirstScreenWarm(b *testing.B) {
	maintest.App(b)
	j, record := largeRecord(b)
	db, _ := putBeside(b, record)
	covers := firstCovers(record)
	for _, hash := range covers {
		img, err := j.Thumb(b.Context(), hash, photo.Medium)
		if err != nil {
			b.Fatal(err)
		}
		db.keepThumb(b, hash, img)
	}
	besideIt(b, func() { fetch(b, fromJournal{j}, covers) }, func() { fetch(b, db, covers) })
}

// From the folder to the first usable screen: open, look at the file, read the
// record, filter, count, and the first thumbnails from disk. Beside it, the SQLite
// file is opened and the same queries are asked of it.
func BenchmarkOpenToFirstScreen(b *testing.B) {
	maintest.App(b)
	j, dir := largeJournal(b)
	record, err := past.Of(j)
	if err != nil {
		b.Fatal(err)
	}
	db, path := putBeside(b, record)
	covers := firstCovers(record)
	for _, hash := range covers {
		img, err := j.Thumb(b.Context(), hash, photo.Medium)
		if err != nil {
			b.Fatal(err)
		}
		db.keepThumb(b, hash, img)
	}
	if err := j.Close(); err != nil {
		b.Fatal(err)
	}
	f := spelt(15)
	besideIt(b, func() {
		j := openLarge(b, dir)
		record, err := past.Of(j)
		if err != nil {
			b.Fatal(err)
		}
		l := record.Filter(f)
		l.Rows(shelf.Order{})
		l.Counts(f)
		fetch(b, fromJournal{j}, firstCovers(record))
		if err := j.Close(); err != nil {
			b.Fatal(err)
		}
	}, func() {
		again, err := sql.Open("sqlite", path)
		if err != nil {
			b.Fatal(err)
		}
		s := beside{again}
		s.rows(b, `PRAGMA quick_check`)
		s.rows(b, spelt15)
		s.counts(b, "", "")
		fetch(b, s, covers)
		if err := again.Close(); err != nil {
			b.Fatal(err)
		}
	})
}

// Reading every summary into a shelf.
func BenchmarkReadRecord(b *testing.B) {
	j, _ := largeRecord(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := past.Of(j); err != nil {
			b.Fatal(err)
		}
	}
}

// The whole shelf is scrolled past, screen by screen, each until its thumbnails are
// there. What is alive on the heap at most is reported beside the time: garbage is
// collected first, so that the figure does not hang on how long the benchmark goes on.
func BenchmarkScrollToTheEnd(b *testing.B) {
	a := maintest.App(b)
	j, _ := largeRecord(b)
	w := a.NewWindow("")
	defer w.Close()
	env := &pages.Env{Journal: j, Window: w, App: a, Go: func(pages.Route) {}, Back: func() {}, Retitle: func() {}, Turned: func() {},
		Say: func(string, bool) {}, Fail: func(err error) {
			if err != nil {
				b.Error(err)
			}
		}}
	env.Begin(maintest.New().Do)
	env.Thumbs = kit.NewLoader(env.Main, fromJournal{j}, 2, 96<<20)
	defer env.Close()
	defer env.Thumbs.Close()
	page, err := newShelfPage(env, pages.Route{Name: pages.Shelf})
	if err != nil {
		b.Fatal(err)
	}
	w.SetContent(kit.NewFrame(env.Main, page.Object()))
	w.Resize(fyne.NewSize(1280, 800))
	page.Shown()
	env.Wait()
	var peak uint64
	look := func() {
		b.StopTimer()
		defer b.StartTimer()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		peak = max(peak, m.HeapAlloc)
	}
	screens := 0
	for b.Loop() {
		for at := 0; at < page.length(); at += 9 {
			page.grid.SetCursor(at)
			env.Thumbs.Wait()
			if screens++; screens%200 == 0 {
				look()
			}
		}
		page.grid.ScrollToTop()
	}
	look()
	b.ReportMetric(float64(peak)/(1<<20), "live-heap-MB")
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(screens), "µs/screen")
}
