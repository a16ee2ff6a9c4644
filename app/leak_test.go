package app

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/journal/blind"
	"twinloaf/journal/journaltest/race"
)

// A tasting hangs on one bit: which of the two loaves takes which part. These
// tests make the same journal twice, but for that bit, and walk both through
// every page that the window has, from sealing to the last score, for every
// method, with a helper and alone. Whatever a person could see must be the
// same: all that is drawn of each page, for one method painted to the pixel, each
// word in or out of sight, titles, keys, undo, what a search finds, what is saved
// or copied, what is reminded of, what is logged, and every byte on the disk
// outside of the vault. The seal's
// fingerprint is the one thing that may differ; it is shown by a widget in which
// each digit has a cell of one width, and is hidden before the pictures are
// taken.

// tour walks through the window while the tasting is sealed: the pages of the
// tasting at every step of it, and every other page when every score is in. What
// does not hang on the method is done where twice is up: every page in the middle
// of the scoring too, for its words, and everything saved that can be.
func (lw *leakWorld) tour(a fyne.App, twice bool) {
	lw.t.Helper()
	defer lw.listen()()
	lw.show(a)
	defer lw.w.Close()
	lw.look("the tasting, sealed", pages.At(pages.Tasting, lw.tasting))
	for n := 0; ; n++ {
		lw.scoring(n)
		if n == 3 {
			if twice {
				lw.glance()
			}
			lw.look("the tasting, half way", pages.At(pages.Tasting, lw.tasting))
			lw.export("the tasting, half way")
			lw.sheet("Type in a sheet")
			lw.sheet("End early…")
		}
		if !lw.step() {
			break
		}
	}
	lw.everywhere(twice)
	lw.search()
	lw.ring()
	lw.w.undo()
	lw.keep("after an undo")
}

// scoring keeps the page of the scoring, with the screens that it has before
// the step itself: whose turn it is, and how the plates are laid out.
func (lw *leakWorld) scoring(n int) {
	lw.t.Helper()
	lw.w.Go(pages.Route{Name: pages.Tasting, ID: lw.tasting, More: "score"})
	for k := 0; k < 20; k++ {
		lw.keep(fmt.Sprintf("scoring, step %d, screen %d", n, k))
		things := outline.Of(lw.w.win)
		_, handover := outline.Find(things, "I am ")
		_, laying := outline.Find(things, "Step ")
		if !handover && !laying {
			return
		}
		lw.w.keys.Press("Enter")
	}
	lw.t.Fatalf("step %d does not come: %q", n, outline.Texts(outline.Of(lw.w.win)))
}

// glance goes to every page while the scoring is under way.
func (lw *leakWorld) glance() {
	lw.t.Helper()
	for _, p := range lw.everyPlace() {
		lw.w.Go(p)
		lw.keepWords(fmt.Sprintf("%s %s %s, half way", p.Name, p.ID, p.More))
	}
}

// everyPlace lists a place for each page.
func (lw *leakWorld) everyPlace() []pages.Route {
	return append(slices.Clone(lw.places), pages.Route{Name: pages.Tasting, ID: lw.tasting, More: "plate"}, pages.At(pages.Tasting, lw.tasting))
}

// everywhere goes to every page when all is known but sealed, and may save what
// can be saved there.
func (lw *leakWorld) everywhere(export bool) {
	lw.t.Helper()
	visited := map[string]bool{}
	for _, p := range lw.everyPlace() {
		visited[p.Name] = true
		name := fmt.Sprintf("%s %s %s", p.Name, p.ID, p.More)
		lw.look(name, p)
		if lw.w.here.place != p {
			lw.t.Errorf("%+v leads to %+v", p, lw.w.here.place)
		}
		if export {
			lw.export(name)
		}
	}
	for name := range lw.w.openers {
		if !visited[name] {
			lw.t.Errorf("the page %q was not looked at", name)
		}
	}
}

// sheet opens what lies behind a button and closes it again; what is said
// instead is kept as well.
func (lw *leakWorld) sheet(button string) {
	lw.t.Helper()
	for _, b := range buttons(lw.w.win.Content()) {
		if b.Label() == button {
			b.OnTapped()
			lw.keep("behind " + button)
			if top, ok := lw.w.win.Canvas().Overlays().Top().(*kit.Dialog); ok {
				top.Close()
			}
			lw.w.frame.HideToast()
			return
		}
	}
	lw.t.Errorf("there is no button %q", button)
}

func TestNothingTellsWhileSealed(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := maintest.App(t)
	for _, method := range methods() {
		for _, mode := range []blind.Mode{blind.WithHelper, blind.Alone} {
			t.Run(fmt.Sprintf("%s %s", method, mode), func(t *testing.T) { bothTell(t, a, planOf(method, mode)) })
		}
	}
	t.Run("key on paper", func(t *testing.T) {
		plan := planOf(blind.Tetrad, blind.WithHelper)
		plan.KeyOnPaper = true
		bothTell(t, a, plan)
	})
}

// methods are all ways of tasting, and one of them under the race detector.
func methods() []blind.Method {
	if race.Enabled {
		return []blind.Method{blind.DuoTrio}
	}
	return blind.Methods()
}

// bothTell walks both worlds of a tasting and reports what tells them apart.
func bothTell(t *testing.T, a fyne.App, plan blind.Plan) {
	dir := filepath.Join(t.TempDir(), "journal") // the settings show where it is
	var worlds [2]*leakWorld
	var disks [2]map[string]string
	twice := plan.Method == blind.Triangle
	for i, flip := range []bool{false, true} {
		worlds[i] = newLeakWorld(t, dir, plan, flip)
		worlds[i].paints = twice
		worlds[i].tour(a, twice)
		disks[i] = onDisk(t, dir, worlds[i])
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
	}
	mustBeOpposite(t, plan.Method, worlds[0].card, worlds[1].card)
	for _, told := range tells(worlds[0].seen, worlds[1].seen) {
		t.Error(told)
	}
	if one, other := worlds[0].log.String(), worlds[1].log.String(); one != other {
		t.Errorf("the log tells: %q, %q", one, other)
	}
	if len(disks[0]) != len(disks[1]) || len(disks[0]) == 0 {
		t.Errorf("%d records on the disk, and %d", len(disks[0]), len(disks[1]))
	}
	for key, value := range disks[0] {
		if disks[1][key] != value {
			t.Errorf("%s tells:\n%s\n%s", key, value, disks[1][key])
		}
	}
	for _, kind := range []string{".pdf", ".ics", ".csv", ".png", ".svg", "clipboard"} {
		if twice && !worlds[0].kinds[kind] {
			t.Errorf("nothing was saved as %s: %v", kind, worlds[0].kinds)
		}
	}
}

// mustBeOpposite makes sure that the two cards are the two assignments: the
// same codes, and on every plate the other loaf; in a 3-AFC, where the loaf that
// stands alone is no secret, it stands elsewhere. Else the test would show
// nothing.
func mustBeOpposite(t *testing.T, method blind.Method, one, other []blind.CardLine) {
	t.Helper()
	plates := 0
	for i, l := range one {
		same := 0
		for k, p := range l.Plates {
			o := other[i].Plates[k]
			open := p.Label == blind.ReferenceLabel && p.Loaf == o.Loaf // a reference set out openly is no secret
			if p.Label != o.Label {
				t.Fatalf("plate %s is plate %s", p.Label, o.Label)
			}
			if p.Loaf == o.Loaf && !open {
				same++
			}
			plates++
		}
		if want := map[blind.Method]int{blind.ThreeAFC: 1}[method]; same != want {
			t.Fatalf("%d plates of a round hold the same loaf in both", same)
		}
	}
	if plates == 0 || len(one) != len(other) {
		t.Fatal("there are no plates")
	}
}
