package app

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"log"
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
	"twinloaf/app/outline"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
	"twinloaf/journal/journaltest"
)

// A tasting hangs on one bit: which of the two loaves takes which part. These
// tests make the same journal twice, but for that bit, and walk both through
// every page that the window has, from sealing to the last score. Whatever a
// person could see must be the same: each pixel, each word in or out of sight,
// titles, undo, what a search finds, what is logged, and every byte on the disk
// outside of the vault. The seal's fingerprint is the one thing that may
// differ; it is shown by a widget in which each digit has a cell of one width,
// and is hidden before the pictures are taken.

// oneBit flips the lowest bit of the first byte that is read after it is armed.
type oneBit struct {
	io.Reader
	armed bool
}

func (r *oneBit) Read(p []byte) (int, error) {
	n, err := r.Reader.Read(p)
	if r.armed && n > 0 {
		p[0] ^= 1
		r.armed = false
	}
	return n, err
}

// A leakWorld is a journal with a sealed tasting in it, and its window.
type leakWorld struct {
	t       *testing.T
	w       *Window
	j       *journal.Journal
	tasting journal.ID
	card    []blind.CardLine
	places  []room.Place
	log     bytes.Buffer
	seal    string
	pixels  bool // pictures are taken too
	seen    []sight
}

// A sight is what one screen tells.
type sight struct {
	name   string
	pixels [sha256.Size]byte
	words  []string
}

// newLeakWorld builds the journal in dir. Everything is drawn from one source;
// flip turns the one bit over.
func newLeakWorld(t *testing.T, dir string, method blind.Method, mode blind.Mode, flip bool) *leakWorld {
	t.Helper()
	random := &oneBit{Reader: journaltest.Random(11)}
	clock := new(journaltest.Clock)
	j, err := journal.Open(t.Context(), dir, journal.Options{Clock: clock.Now, Random: random, GatherFor: time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	lw := &leakWorld{t: t, j: j}
	bakes := lw.fill(clock.Now())
	lw.plan(bakes, method, mode)
	random.armed = flip
	plating, err := j.Plate(lw.tasting)
	if err != nil {
		t.Fatal(err)
	}
	card, err := plating.Card()
	if err != nil {
		t.Fatal(err)
	}
	if lw.card, err = card.Lines(); err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	rec, err := journal.Get[journal.Tasting](j, lw.tasting)
	if err != nil {
		t.Fatal(err)
	}
	lw.seal = rec.Commitment
	return lw
}

// fill puts two cultures, a formula, and a trial of two bakes with photos into
// the journal.
func (lw *leakWorld) fill(now time.Time) []*journal.Bake {
	lw.t.Helper()
	var bakes []*journal.Bake
	err := lw.j.Do("fill", func(tx *journal.Tx) error {
		var cultures []journal.ID
		for _, name := range []string{"Harbour", "Gorse"} {
			c := &journal.Culture{Name: name, Born: now.AddDate(0, -2, 0), Flours: []journal.FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}
			if err := journal.Put(tx, c); err != nil {
				return err
			}
			cultures = append(cultures, c.ID)
			lw.places = append(lw.places, room.At(room.Culture, c.ID))
		}
		f := &journal.Formula{Name: "Ferry loaf", Loaves: 1, Ingredients: []journal.Ingredient{
			{ID: "1", Name: "Strong white wheat flour", Role: formula.Flour, Grams: 450},
			{ID: "2", Name: "Water", Role: formula.Water, Grams: 340},
			{ID: "3", Name: "Salt", Role: formula.Salt, Grams: 10},
			{ID: "4", Name: "Culture", Role: formula.Culture, Grams: 90},
			{ID: "5", Name: "Sesame seeds", Role: formula.Seeds, Grams: 40},
		}, Steps: []journal.Step{{ID: "a", Kind: "mix", Planned: 15 * time.Minute}, {ID: "b", Kind: "bake covered", Planned: 45 * time.Minute}}}
		if err := journal.NewFormula(tx, f); err != nil {
			return err
		}
		trial, err := journal.NewTrial(tx, journal.TrialPlan{
			From: journal.RefOf(f), Name: "Harbour against Gorse", Varied: journal.VaryCulture, Values: []string{"Harbour", "Gorse"},
			Cultures: cultures, Marks: []string{"ring", "cross"}, At: now.Add(-20 * time.Hour),
		})
		if err != nil {
			return err
		}
		if bakes, err = journal.TrialBakes(tx, trial); err != nil {
			return err
		}
		for i, b := range bakes {
			b.State, b.Water.Dough = journal.Finished, new(formula.Celsius(24+float64(i)))
			b.Outcome.Scores = []journal.AttributeScore{{Attribute: journal.Overall, Score: 6 + i}}
			if err := journal.Put(tx, b); err != nil {
				return err
			}
			lw.places = append(lw.places, room.At(room.Bake, b.ID), room.At(room.BakeDay, b.ID))
		}
		lw.places = append(lw.places, room.At(room.Formula, f.ID), room.At(room.Trial, trial.ID),
			room.Place{Name: room.Compare, More: string(bakes[0].ID) + " " + string(bakes[1].ID)},
			room.Place{Name: room.Tasting, More: string(bakes[0].ID) + " " + string(bakes[1].ID)},
			room.Place{Name: room.Flour, More: journal.FlourKey("Strong white wheat flour")},
			room.Place{Name: room.Trial})
		return nil
	})
	if err != nil {
		lw.t.Fatal(err)
	}
	for i, b := range bakes {
		added, refused, err := lw.j.AddPictures(lw.t.Context(), "photo", journal.RefOf(b), journal.RoleCrumb, []journal.Picture{{
			Name: fmt.Sprintf("%d.png", i), Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(crumbPicture(uint8(i)))), nil },
		}}, nil)
		if err != nil || len(refused) > 0 {
			lw.t.Fatal(refused, err)
		}
		lw.places = append(lw.places, room.At(room.Photo, added[0]))
	}
	for _, name := range []string{room.Today, room.Cultures, room.Bakes, room.Formulas, room.Tastings, room.Shelf, room.Findings, room.Bin, room.Settings, room.Help} {
		lw.places = append(lw.places, room.Place{Name: name})
	}
	return bakes
}

// crumbPicture is a small picture, another for each shade.
func crumbPicture(shade uint8) []byte {
	img := image.NewRGBA(image.Rect(0, 0, 64, 48))
	for y := range 48 {
		for x := range 64 {
			img.Set(x, y, color.RGBA{200 - 60*shade, uint8(3 * x), uint8(4 * y), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err) // a buffer takes everything
	}
	return b.Bytes()
}

func (lw *leakWorld) plan(bakes []*journal.Bake, method blind.Method, mode blind.Mode) {
	lw.t.Helper()
	plan := blind.Plan{Method: method, Mode: mode, Tasters: []string{"Ines", "Jory"}, Rounds: 2}
	if mode == blind.Alone {
		plan.Tasters = plan.Tasters[:1]
	}
	if method == blind.Scaling {
		plan.Attributes = []blind.Attribute{{Name: "sour", Low: "not at all", High: "extremely"}, blind.Liking()}
	}
	rec := &journal.Tasting{Name: "After supper", At: lw.j.Now(), Trial: bakes[0].Trial}
	for i, b := range bakes {
		loaf, err := journal.LoafOf(lw.j, b)
		if err != nil {
			lw.t.Fatal(err)
		}
		plan.Loaves[i] = loaf
		rec.Bakes = append(rec.Bakes, b.ID)
	}
	if err := rec.SetSetting(blind.Setting{Plan: plan}); err != nil {
		lw.t.Fatal(err)
	}
	if err := lw.j.Do("plan a tasting", func(tx *journal.Tx) error { return journal.Put(tx, rec) }); err != nil {
		lw.t.Fatal(err)
	}
	lw.tasting = rec.ID
}

// look goes to a place and keeps what is to be seen there.
func (lw *leakWorld) look(name string, p room.Place) {
	lw.t.Helper()
	lw.w.Go(p)
	lw.keep(name)
}

// keep keeps what the window shows now: every widget and text with its place,
// in sight or not, the title, what undo and a search would tell, and, where
// pixels are asked for, the picture of it.
func (lw *leakWorld) keep(name string) {
	lw.t.Helper()
	c := lw.w.win.Canvas()
	hideSeals(c)
	lw.w.env.Wait()
	lw.w.env.Thumbs.Wait()
	// The test driver lays out on a change of size alone.
	lw.w.win.Resize(fyne.NewSize(1280, 801))
	lw.w.win.Resize(fyne.NewSize(1280, 800))
	s := sight{name: name}
	if lw.pixels {
		s.pixels = sha256.Sum256(pixelsOf(lw.picture()))
	}
	for _, thing := range outline.Of(lw.w.win) {
		s.words = append(s.words, fmt.Sprintf("%+v", thing))
	}
	undo, redo := lw.j.Steps()
	s.words = append(s.words, "title: "+lw.w.win.Title(), "undo: "+undo, "redo: "+redo)
	for _, f := range lw.w.everything() {
		s.words = append(s.words, fmt.Sprintf("found: %s %+v", f.words, f.place))
	}
	for i, words := range s.words {
		s.words[i] = strings.ReplaceAll(words, lw.seal, "SEAL")
	}
	lw.seen = append(lw.seen, s)
}

// picture draws the window, with its charts.
func (lw *leakWorld) picture() image.Image {
	c := lw.w.win.Canvas()
	img := c.Capture()
	if waitForCharts(c) { // they were asked for by the drawing
		hideSeals(c)
		img = c.Capture()
	}
	return img
}

func pixelsOf(img image.Image) []byte {
	if n, ok := img.(*image.NRGBA); ok {
		return n.Pix
	}
	b := img.Bounds()
	out := image.NewNRGBA(b)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			out.Set(x, y, img.At(x, y))
		}
	}
	return out.Pix
}

// everyObject calls fn for every object of a canvas.
func everyObject(c fyne.Canvas, fn func(fyne.CanvasObject)) {
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if o == nil {
			return
		}
		fn(o)
		switch o := o.(type) {
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child)
			}
		}
	}
	walk(c.Content())
	for _, o := range c.Overlays().List() {
		walk(o)
	}
}

func hideSeals(c fyne.Canvas) {
	everyObject(c, func(o fyne.CanvasObject) {
		if fmt.Sprintf("%T", o) == "*tastings.fingerprint" {
			o.Hide()
		}
	})
}

func waitForCharts(c fyne.Canvas) (any bool) {
	var frames []*kit.ChartFrame
	everyObject(c, func(o fyne.CanvasObject) {
		if f, ok := o.(*kit.ChartFrame); ok {
			frames = append(frames, f)
		}
	})
	for _, f := range frames {
		f.Wait()
	}
	return len(frames) > 0
}

// tour walks through the window while the tasting is sealed: every page once in
// the middle of the scoring, and the pages of the tasting at every step of it.
// With whole, pictures are taken of all of it; else of some.
func (lw *leakWorld) tour(a fyne.App, whole bool) {
	lw.t.Helper()
	logged, flags := log.Writer(), log.Flags()
	log.SetOutput(&lw.log)
	log.SetFlags(0)
	defer func() { log.SetOutput(logged); log.SetFlags(flags) }()
	lw.w = New(a, lw.j)
	lw.w.win.Resize(fyne.NewSize(1280, 800))
	defer lw.w.Close()
	lw.pixels = whole
	lw.look("the tasting, sealed", room.At(room.Tasting, lw.tasting))
	score := room.Place{Name: room.Tasting, ID: lw.tasting, More: "score"}
	for n := 0; ; n++ {
		lw.pixels = whole && n < 9 || n == 2 // a round of every kind of step
		lw.look(fmt.Sprintf("scoring, step %d", n), score)
		if n == 3 {
			lw.pixels = whole
			for _, p := range lw.places {
				if _, ok := lw.w.openers[p.Name]; !ok {
					lw.t.Errorf("there is no page %q", p.Name)
					continue
				}
				lw.look(fmt.Sprintf("%s %s %s", p.Name, p.ID, p.More), p)
			}
			lw.look("the plating page", room.Place{Name: room.Tasting, ID: lw.tasting, More: "plate"})
			lw.look("the tasting, half way", room.At(room.Tasting, lw.tasting))
			lw.sheet("Type in a sheet")
			lw.sheet("End early…")
		}
		if !lw.step() {
			break
		}
	}
	lw.pixels = true
	lw.look("the tasting, every score in", room.At(room.Tasting, lw.tasting))
	lw.pixels = whole
	lw.look("the list", room.Place{Name: room.Tastings})
	lw.undoing()
}

// sheet opens what lies behind a button and closes it again.
func (lw *leakWorld) sheet(button string) {
	lw.t.Helper()
	c := lw.w.win.Canvas()
	everyObject(c, func(o fyne.CanvasObject) {
		if b, ok := o.(*kit.Button); ok && b.Label() == button && c.Overlays().Top() == nil {
			b.Tapped(&fyne.PointEvent{})
		}
	})
	if top, ok := c.Overlays().Top().(*kit.Sheet); ok {
		lw.keep("behind " + button)
		top.Close()
	}
}

// undoing tries to undo past the seal: what it tells must be the same too.
func (lw *leakWorld) undoing() {
	lw.t.Helper()
	lw.w.undo()
	lw.keep("after an undo")
}

// step does the next step of the scoring, the same in both worlds; false when
// all is in.
func (lw *leakWorld) step() bool {
	lw.t.Helper()
	more := true
	err := lw.j.Score(lw.tasting, func(s *blind.Session) error {
		for taster := range s.Setting().Plan.Tasters {
			step, err := s.At(taster)
			if err != nil {
				return err
			}
			switch step.Phase {
			case blind.PhaseAllergens:
				return s.AllergensShown(taster)
			case blind.PhaseSample:
				for _, a := range s.Setting().Plan.Attributes {
					if err := s.Score(taster, a.Name, 3+step.Sample); err != nil {
						return err
					}
				}
				return s.Tasted(taster)
			case blind.PhaseRinse:
				return s.Rinsed(taster, step.Sample == 1)
			case blind.PhaseAnswer:
				if n := s.Setting().Plan.Method.Picks(); n > 0 {
					if err := s.Choose(taster, step.Serving.Samples[:n]...); err != nil {
						return err
					}
				}
				return s.HandIn(taster)
			}
		}
		more = false
		return nil
	})
	if err != nil {
		lw.t.Fatal(err)
	}
	return more
}

// onDisk reads everything that the journal's file holds outside of the vault,
// without the check sums of the envelopes and with the seal masked.
func onDisk(t *testing.T, dir, seal string) map[string]string {
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
				out[string(name)+"/"+string(k)] = strings.ReplaceAll(string(v), seal, "SEAL")
				return nil
			})
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestNothingTellsWhileSealed(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := test.NewTempApp(t)
	for _, tt := range []struct {
		method blind.Method
		mode   blind.Mode
		whole  bool // every page of the window is drawn, and every step of the scoring
	}{
		{blind.Triangle, blind.WithHelper, true},
		{blind.Triangle, blind.Alone, false},
		{blind.DuoTrio, blind.WithHelper, false},
		{blind.DuoTrio, blind.Alone, false},
		{blind.Paired, blind.WithHelper, false},
		{blind.Paired, blind.Alone, false},
		{blind.Tetrad, blind.WithHelper, false},
		{blind.Tetrad, blind.Alone, false},
		{blind.Scaling, blind.WithHelper, false},
		{blind.Scaling, blind.Alone, false},
	} {
		t.Run(fmt.Sprintf("%s %s", tt.method, tt.mode), func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "journal") // the settings show where it is
			var worlds [2]*leakWorld
			var disks [2]map[string]string
			for i, flip := range []bool{false, true} {
				worlds[i] = newLeakWorld(t, dir, tt.method, tt.mode, flip)
				worlds[i].tour(a, tt.whole)
				disks[i] = onDisk(t, dir, worlds[i].seal)
				if err := os.RemoveAll(dir); err != nil {
					t.Fatal(err)
				}
			}
			mustBeOpposite(t, worlds[0].card, worlds[1].card)
			mustLookAlike(t, worlds[0].seen, worlds[1].seen)
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
		})
	}
}

// mustBeOpposite makes sure that the two cards are the two assignments: the
// same codes, and on every plate the other loaf. Else the test would show
// nothing.
func mustBeOpposite(t *testing.T, one, other []blind.CardLine) {
	t.Helper()
	plates := 0
	for i, l := range one {
		for k, p := range l.Plates {
			o := other[i].Plates[k]
			open := p.Label == blind.ReferenceLabel && p.Loaf == o.Loaf // a reference set out openly is no secret
			if p.Label != o.Label || p.Loaf == o.Loaf && !open {
				t.Fatalf("plate %s is loaf %d, and %s is loaf %d", p.Label, p.Loaf, o.Label, o.Loaf)
			}
			plates++
		}
	}
	if plates == 0 || len(one) != len(other) {
		t.Fatal("there are no plates")
	}
}

func mustLookAlike(t *testing.T, one, other []sight) {
	t.Helper()
	if len(one) != len(other) || len(one) < 8 {
		t.Fatalf("%d screens, and %d", len(one), len(other))
	}
	for i, s := range one {
		if !slices.Equal(s.words, other[i].words) {
			t.Errorf("%s tells by words:\n%q\n%q", s.name, s.words, other[i].words)
		}
		if s.pixels != other[i].pixels {
			t.Errorf("%s tells by pixels", s.name)
		}
	}
}

// The same walk after unsealing must tell the two apart, or it would look at
// nothing.
func TestUnsealedTheTwoAreToldApart(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := test.NewTempApp(t)
	dir := filepath.Join(t.TempDir(), "journal")
	var seen [2]sight
	for i, flip := range []bool{false, true} {
		lw := newLeakWorld(t, dir, blind.Paired, blind.WithHelper, flip)
		for lw.step() {
		}
		if err := lw.j.Unseal(lw.tasting); err != nil {
			t.Fatal(err)
		}
		lw.w = New(a, lw.j)
		lw.w.win.Resize(fyne.NewSize(1280, 800))
		lw.pixels = true
		lw.look("the verdict", room.At(room.Tasting, lw.tasting))
		seen[i] = lw.seen[0]
		lw.w.Close()
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
	}
	if seen[0].pixels == seen[1].pixels || slices.Equal(seen[0].words, seen[1].words) {
		t.Errorf("the verdicts of the two assignments look the same: %q", seen[0].words)
	}
}
