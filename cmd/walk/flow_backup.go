package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"twinloaf/assets/demo"
	"twinloaf/journal"
)

// goBack opens a journal whose backups went to a disk that is unplugged, and is told so
// on Today; backs up into the journal's own folder, writes a bake down, goes back to
// the backup, in which that bake is not, and to what was set aside, in which it is.
func goBack(w *walk) {
	p, folder := w.program()
	now := time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)
	check(demo.Build(context.Background(), folder, now, demo.Options{NoPictures: true}))
	unplugged := fmt.Sprintf(`{"journal": "01J", "begun": %q, "good": %q, "folder": %q}`,
		now.AddDate(0, -2, 0).Format(time.RFC3339), now.AddDate(0, 0, -9).Format(time.RFC3339), filepath.Join(w.dir, "usb"))
	check(os.WriteFile(filepath.Join(folder, "safekeeping.json"), []byte(unplugged), 0o644))
	const name = "Written after the backup"
	safekeeping := p.all(p.keys("ctrl+k"), p.seeing("Find anything"), p.typing("Safekeeping"), p.keys("Return"), p.seeing("Where backups go"))
	later := func(hours int) gesture {
		return func() { p.setClock(now.Add(time.Duration(hours) * time.Hour)) }
	}
	p.steps(
		p.startingAt(now), p.seeing("On the bench"), p.seeing("Today's backup failed"),
		p.keys("ctrl+2"), p.seeing("Harbour"), p.keys("ctrl+1"), p.seeing("See the backups"), p.picture("a-week-without"),
		p.pressing("See the backups"), p.seeing("Where backups go"), p.picture("unplugged"),
		p.pressing("Use the journal's own folder"), p.seeing("The journal is backed up."), p.seeing("checked"),
		p.keys("b"), p.counting("checked", 2), p.picture("backed-up"),
		later(1),
		p.keys("ctrl+1", "n"), p.seeing("What went in"), p.typing(name), p.keys("Tab"),
		safekeeping, p.pressing("Restore"), p.seeing("Go back to"), p.picture("asked"),
		p.keys("Return"), p.seeing("The journal is as it was on"), p.picture("restored"),
		p.keys("Return"), p.seeing("set aside before going back"), p.picture("set-aside"),
		p.keys("ctrl+k"), p.typing(name), p.seeing("Nothing here is called that."), p.keys("Escape", "Escape"),
		later(2),
		p.pressing("Settings"), p.pressing("dark"), safekeeping, p.picture("set-aside-dark"),
		p.pressing("Restore"), p.seeing("Go back to"), p.keys("Return"),
		p.seeing("The journal is as it was on"), p.keys("Return"),
		p.keys("ctrl+k"), p.typing(name), p.missing("Nothing here is called that."), p.keys("Escape", "Escape"),
	)
	p.quit()
	isWhole(folder, name)
}

// all makes several gestures one.
func (p *program) all(some ...gesture) gesture { return func() { p.steps(some...) } }

// isWhole opens a journal and looks for a bake in it and for anything wrong with it.
func isWhole(folder, name string) {
	inJournal(folder, isSound)
	failIf(!slices.ContainsFunc(records[journal.Bake](folder), func(b *journal.Bake) bool { return strings.Contains(b.Name, name) }), "%q is not in the journal", name)
}
