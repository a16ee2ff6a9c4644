package app

import (
	"crypto/sha256"
	"fmt"
	"log"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	bolt "go.etcd.io/bbolt"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/remind"
	"twinloaf/journal"
)

// saving are the words of what saves or prints, on buttons and of keys.
var saving = []string{"save", "print", "calendar", "kitchen sheet"}

func saves(words string) bool {
	for _, s := range saving {
		if strings.Contains(strings.ToLower(words), s) {
			return true
		}
	}
	return false
}

// export saves everything that the page in the window offers to save: by its
// buttons, its keys, and the menus of its charts.
func (lw *leakWorld) export(page string) {
	lw.t.Helper()
	for _, k := range lw.w.here.page.Keys() {
		if saves(k.Doc) {
			lw.ask(page, k.Do)
		}
	}
	for _, b := range buttons(lw.w.win.Content()) {
		if saves(b.Label()) {
			lw.ask(page, b.OnTapped)
		}
	}
	everyObject(lw.w.win.Canvas(), func(o fyne.CanvasObject) {
		f, ok := o.(*kit.ChartFrame)
		if !ok {
			return
		}
		for _, item := range f.Menu() {
			lw.w.env.App.Clipboard().SetContent("")
			item.Action()
			lw.keepFiles(page + ", " + item.Label)
		}
	})
}

// ask does what offers to save. Where it asks what to save, everything is.
func (lw *leakWorld) ask(page string, do func()) {
	lw.t.Helper()
	for i := 0; ; i++ {
		do()
		lw.keepFiles(page)
		sheet, ok := lw.w.win.Canvas().Overlays().Top().(*kit.Dialog)
		if !ok {
			return
		}
		var kinds []*kit.Button
		for _, b := range buttons(sheet) {
			if strings.HasSuffix(b.Label(), ")") {
				kinds = append(kinds, b)
			}
		}
		if i >= len(kinds) {
			sheet.Close()
			return
		}
		kinds[i].OnTapped()
		lw.keepFiles(page)
	}
}

// buttons lists the buttons under an object.
func buttons(root fyne.CanvasObject) (out []*kit.Button) {
	everyUnder(root, func(o fyne.CanvasObject) {
		if b, ok := o.(*kit.Button); ok && b.OnTapped != nil {
			out = append(out, b)
		}
	})
	return out
}

// keepFiles keeps what was saved or copied, and takes it away again.
func (lw *leakWorld) keepFiles(page string) {
	lw.t.Helper()
	lw.settle()
	files, err := os.ReadDir(lw.saved)
	if err != nil {
		lw.t.Fatal(err)
	}
	for _, f := range files {
		path := filepath.Join(lw.saved, f.Name())
		b, err := os.ReadFile(path)
		if err != nil {
			lw.t.Fatal(err)
		}
		if err := os.Remove(path); err != nil {
			lw.t.Fatal(err)
		}
		lw.kinds[filepath.Ext(f.Name())] = true
		if f.Name() == "score sheets.pdf" {
			// It bears the fingerprint of the sealing, which may differ. That it tells
			// nothing else is TestScoreSheetsTellNothing, byte for byte.
			b = nil
		}
		lw.note(sight{name: "saved from " + page, words: []string{f.Name(), fmt.Sprintf("%x", sha256.Sum256(b))}})
	}
	if said := lw.w.frame.ToastText(); said != "" { // it would go by itself after a while
		lw.note(sight{name: "said on " + page, words: []string{said}})
		lw.w.frame.HideToast()
	}
	clip := lw.w.env.App.Clipboard()
	if text := clip.Content(); text != "" {
		lw.kinds["clipboard"] = true
		lw.note(sight{name: "copied from " + page, words: []string{text}})
		clip.SetContent("")
	}
}

// listen keeps what is logged until stop is called.
func (lw *leakWorld) listen() (stop func()) {
	logged, flags := log.Writer(), log.Flags()
	log.SetOutput(&lw.log)
	log.SetFlags(0)
	return func() { log.SetOutput(logged); log.SetFlags(flags) }
}

// ring keeps what the reminders tell in the next days.
func (lw *leakWorld) ring() {
	var told []string
	watcher := remind.For(lw.w.env, &remind.Cultures{Env: lw.w.env})
	watcher.Memory = new(memory)
	watcher.Tell = func(r remind.Reminder) { told = append(told, fmt.Sprintf("%+v", r)) }
	watcher.Ring = func() {}
	watcher.Look(lw.j.Now().AddDate(0, 0, 3))
	if len(told) == 0 {
		lw.t.Error("there is nothing to remind of")
	}
	lw.note(sight{name: "the reminders", words: told})
}

// memory remembers what was told as long as the test lasts.
type memory []string

func (m *memory) Told() []string        { return *m }
func (m *memory) SetTold(keys []string) { *m = keys }

// search asks the window and the shelf for every code on the card and for the
// loaves.
func (lw *leakWorld) search() {
	lw.t.Helper()
	asked := map[string]bool{"Harbour": true, "Gorse": true}
	for _, line := range lw.card {
		for _, plate := range line.Plates {
			asked[plate.Label] = true
		}
	}
	for _, text := range slices.Sorted(maps.Keys(asked)) {
		var words []string
		for _, f := range search(lw.w.everything(), text) {
			words = append(words, fmt.Sprintf("%s %+v", f.words, f.place))
		}
		lw.note(sight{name: "searched for " + text, words: words})
	}
	code := lw.card[0].Plates[0].Label
	lw.w.find()
	test.Type(lw.w.win.Canvas().Focused(), "Harbour")
	lw.keep("the search for Harbour")
	test.Type(lw.w.win.Canvas().Focused(), code)
	lw.keepWords("the search for " + code)
	lw.w.win.Canvas().Overlays().Top().(*kit.Dialog).Close()
	for _, text := range []string{"Harbour", code} {
		lw.w.Go(pages.Route{Name: pages.Shelf, More: fmt.Sprintf(`look {"filter":{"text":%q}}`, text)})
		lw.keepWords("the shelf, searched for " + text)
	}
}

// onDisk reads everything that the journal's file holds outside of the vault,
// without the check sums of the envelopes and with the seal masked, and the hash of
// the locked assignment.
func onDisk(t *testing.T, dir string, lw *leakWorld) map[string]string {
	t.Helper()
	db, err := bolt.Open(filepath.Join(dir, journal.FileName), 0o600, &bolt.Options{ReadOnly: true, Timeout: time.Second})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	out := map[string]string{}
	err = db.View(func(tx *bolt.Tx) error {
		return tx.ForEach(func(name []byte, b *bolt.Bucket) error {
			if string(name) == "vault" {
				return nil
			}
			return b.ForEach(func(k, v []byte) error {
				if len(v) > 5 {
					v = v[5:]
				}
				masked := strings.ReplaceAll(string(v), lw.seal, "SEAL")
				if lw.locked != "" {
					masked = strings.ReplaceAll(masked, lw.locked, "LOCKED")
				}
				out[string(name)+"/"+string(k)] = masked
				return nil
			})
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
