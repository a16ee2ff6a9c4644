package app

import (
	"errors"
	"log"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/journaltest/race"
)

// A leak is a page made to tell which loaf lies on the first plate.
type leak struct {
	fakePage
	object fyne.CanvasObject
}

func (p *leak) Object() fyne.CanvasObject { return p.object }

// spot is the smallest thing that could tell: a dot in a colour of the palette.
func spot(loaf int) fyne.CanvasObject {
	dot := canvas.NewRectangle(theme.Color(look.ColorSeries(loaf)))
	dot.SetMinSize(fyne.NewSquareSize(2))
	return container.NewHBox(dot)
}

// The walk must see what it is there to see: each way in which a page could tell
// is tried, and must be reported, and a page that tells nothing must not be.
func TestALeakIsSeen(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := maintest.App(t)
	names := []string{"", "Harbour", "Gorse"}
	for _, tt := range race.Few([]struct {
		name string
		page func(lw *leakWorld, loaf int) *leak
		want string // begins what is reported; nothing for none
	}{
		{"nothing", func(*leakWorld, int) *leak { return &leak{object: spot(1)} }, ""},
		{"a dot's colour", func(_ *leakWorld, loaf int) *leak { return &leak{object: spot(loaf)} }, "leak tells by what is drawn"},
		{"a dot below the fold", func(_ *leakWorld, loaf int) *leak {
			return &leak{object: container.NewVScroll(kit.Stack(0, kit.Gap(600), spot(loaf)))}
		}, "leak tells by what is drawn"},
		{"a word that is hidden by what lies over it", func(_ *leakWorld, loaf int) *leak {
			return &leak{object: container.NewStack(kit.Body(names[loaf]), canvas.NewRectangle(theme.Color(theme.ColorNameBackground)))}
		}, "leak tells by words"},
		{"the title", func(_ *leakWorld, loaf int) *leak {
			return &leak{object: kit.Gap(1), fakePage: fakePage{name: names[loaf]}}
		}, "leak tells by words"},
		{"a key", func(_ *leakWorld, loaf int) *leak {
			return &leak{object: kit.Gap(1), fakePage: fakePage{keys: []kit.Key{{Name: "X", Doc: names[loaf]}}}}
		}, "leak tells by words"},
		{"undo", func(lw *leakWorld, loaf int) *leak {
			if err := lw.j.Do("plated "+names[loaf], func(tx *journal.Tx) error { return journal.Put(tx, new(journal.Culture)) }); err != nil {
				t.Fatal(err)
			}
			return &leak{object: kit.Gap(1)}
		}, "leak tells by words"},
	}, 2) {
		sees := func(t *testing.T, paints bool) {
			var seen [2][]sight
			inBothWorlds(t, blind.Paired, func(i int, lw *leakWorld) {
				lw.paints = paints
				lw.show(a)
				defer lw.w.Close()
				page := tt.page(lw, lw.card[0].Plates[0].Loaf)
				page.notes = new([]string)
				lw.w.openers["leak"] = func(*pages.Env, pages.Route) (pages.Page, error) { return page, nil }
				lw.look("leak", pages.Route{Name: "leak"})
				seen[i] = lw.seen
			})
			got := tells(seen[0], seen[1])
			if tt.want == "" && len(got) > 0 || tt.want != "" && (len(got) == 0 || !strings.HasPrefix(got[0], tt.want)) {
				t.Errorf("reported: %q, want %q", got, tt.want)
			}
		}
		t.Run(tt.name, func(t *testing.T) { sees(t, false) })
		t.Run(tt.name+", painted", func(t *testing.T) { sees(t, true) })
	}
}

// What is logged and saved is looked at as well.
func TestALeakIsHeardAndRead(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := maintest.App(t)
	var seen [2][]sight
	var logs [2]string
	inBothWorlds(t, blind.Paired, func(i int, lw *leakWorld) {
		lw.show(a)
		defer lw.w.Close()
		loaf := lw.card[0].Plates[0].LoafName
		stop := lw.listen()
		log.Print(loaf)
		fyne.LogError("plating", errors.New(loaf))
		stop()
		if err := os.WriteFile(filepath.Join(lw.saved, "sheet.csv"), []byte(loaf), 0o600); err != nil {
			t.Fatal(err)
		}
		lw.keepFiles("leak")
		lw.w.env.App.Clipboard().SetContent(loaf)
		lw.keepFiles("leak")
		seen[i], logs[i] = lw.seen, lw.log.String()
	})
	if got := tells(seen[0], seen[1]); len(got) != 2 || logs[0] == logs[1] || logs[0] == "" {
		t.Errorf("reported: %q; logged %q, %q", got, logs[0], logs[1])
	}
}

// inBothWorlds makes the two worlds of a tasting with a helper, one after the
// other.
func inBothWorlds(t *testing.T, method blind.Method, do func(i int, lw *leakWorld)) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "journal")
	for i, flip := range []bool{false, true} {
		do(i, newLeakWorld(t, dir, planOf(method, blind.WithHelper), flip))
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
	}
}

// The same walk after unsealing must tell the two apart, or it would look at
// nothing.
func TestUnsealedTheTwoAreToldApart(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := maintest.App(t)
	var seen [2][]sight
	inBothWorlds(t, blind.Paired, func(i int, lw *leakWorld) {
		for lw.step() {
		}
		if err := lw.j.Unseal(lw.tasting, ""); err != nil {
			t.Fatal(err)
		}
		lw.show(a)
		defer lw.w.Close()
		lw.look("the verdict", pages.At(pages.Tasting, lw.tasting))
		seen[i] = lw.seen
	})
	got := tells(seen[0], seen[1])
	if len(got) != 2 || !strings.HasPrefix(got[0], "the verdict tells by words") || got[1] != "the verdict tells by what is drawn" {
		t.Errorf("the verdicts of the two assignments differ in %q", got)
	}
}
