package app

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/carry"
	"twinloaf/journal/formula"
	"twinloaf/journal/journaltest"
)

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
	w       *window
	saved   string          // the folder that files are saved in
	kinds   map[string]bool // what was saved, by its ending, or copied
	j       *journal.Journal
	tasting journal.ID
	card    []blind.CardLine
	places  []pages.Route // one of each page; of the two loaves, that of the first
	log     bytes.Buffer
	loop    *maintest.Loop // all that other goroutines hand over waits, so that both walks go the same way
	height  int            // of the window
	paints  bool           // what is drawn is painted, to the pixel
	seal    string
	locked  string // the hash of the locked assignment, where its key is on a paper
	seen    []sight
}

// newLeakWorld builds the journal in dir. Everything is drawn from one source;
// flip turns the one bit over.
func newLeakWorld(t *testing.T, dir string, plan blind.Plan, flip bool) *leakWorld {
	t.Helper()
	random := &oneBit{Reader: journaltest.Random(11)}
	clock := new(journaltest.Clock)
	j, err := journal.Open(t.Context(), dir, journal.Options{Clock: clock.Now, Random: random, GatherFor: time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	lw := &leakWorld{t: t, j: j, saved: filepath.Join(filepath.Dir(dir), "saved"), kinds: map[string]bool{}}
	if err := os.MkdirAll(lw.saved, 0o700); err != nil {
		t.Fatal(err)
	}
	bakes := lw.fill(clock.Now())
	lw.plan(bakes, plan)
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
	lw.seal, lw.locked = rec.Commitment, rec.Locked
	lw.places = append(lw.places, pages.Route{Name: pages.BringIn, More: lw.pack(filepath.Join(filepath.Dir(dir), "taken away.zip"))})
	return lw
}

// pack takes the whole journal away, sealed as it is, into the file path.
func (lw *leakWorld) pack(path string) string {
	lw.t.Helper()
	p, err := carry.Pack(lw.t.Context(), lw.j)
	if err != nil {
		lw.t.Fatal(err)
	}
	var out bytes.Buffer
	if _, err := p.Write(lw.t.Context(), &out, nil); err != nil {
		lw.t.Fatal(err)
	}
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		lw.t.Fatal(err)
	}
	return path
}

// fill puts into the journal what a tasting hangs on and what the other pages
// show, and gives the two bakes to taste.
func (lw *leakWorld) fill(now time.Time) []*journal.Bake {
	lw.t.Helper()
	var bakes []*journal.Bake
	err := lw.j.Do("fill", func(tx *journal.Tx) error {
		cultures, err := lw.fillCultures(tx, now)
		if err != nil {
			return err
		}
		bakes, err = lw.fillBakes(tx, now, cultures)
		return err
	})
	if err != nil {
		lw.t.Fatal(err)
	}
	lw.fillPhotos(bakes)
	for _, name := range []string{
		pages.Today, pages.Cultures, pages.Bakes, pages.Formulas, pages.Tastings, pages.Trial, pages.Shelf, pages.Crumb,
		pages.Findings, pages.Bin, pages.Settings, pages.Safekeeping, pages.Help, pages.About,
	} {
		lw.places = append(lw.places, pages.Route{Name: name})
	}
	return bakes
}

// fillCultures makes two cultures that were fed and read.
func (lw *leakWorld) fillCultures(tx *journal.Tx, now time.Time) (cultures []journal.ID, err error) {
	for _, name := range []string{"Harbour", "Gorse"} {
		c := &journal.Culture{Name: name, Born: now.AddDate(0, -2, 0), Flours: []journal.FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}
		if err := journal.Put(tx, c); err != nil {
			return nil, err
		}
		fed := &journal.Feeding{Culture: c.ID, At: now.Add(-5 * time.Hour), Kept: 20, Flour: 40, Water: 40}
		if err := journal.Put(tx, fed); err != nil {
			return nil, err
		}
		if err := journal.Put(tx, &journal.Reading{Culture: c.ID, At: now.Add(-time.Hour), Rise: new(2.1)}); err != nil {
			return nil, err
		}
		row := &journal.Series{Name: "stack of books", Added: now, From: fed.At, Jars: []journal.SeriesJar{{Culture: c.ID, Feeding: fed.ID}}}
		if err := journal.Put(tx, row); err != nil {
			return nil, err
		}
		if len(cultures) == 0 {
			lw.places = append(lw.places, pages.At(pages.Culture, c.ID), pages.At(pages.History, c.ID), pages.At(pages.Feeding, fed.ID), pages.At(pages.Series, row.ID))
		}
		cultures = append(cultures, c.ID)
	}
	return cultures, nil
}

// fillBakes makes a formula, a trial of two bakes, a bake that is planned and one
// that is under way.
func (lw *leakWorld) fillBakes(tx *journal.Tx, now time.Time, cultures []journal.ID) ([]*journal.Bake, error) {
	f := &journal.Formula{Name: "Ferry loaf", Loaves: 1, Ingredients: []journal.Ingredient{
		{ID: "1", Name: "Strong white wheat flour", Role: formula.Flour, Grams: 450},
		{ID: "2", Name: "Water", Role: formula.Water, Grams: 340},
		{ID: "3", Name: "Salt", Role: formula.Salt, Grams: 10},
		{ID: "4", Name: "Culture", Role: formula.Culture, Grams: 90},
		{ID: "5", Name: "Sesame seeds", Role: formula.Seeds, Grams: 40},
	}, Steps: []journal.Step{{ID: "a", Kind: "mix", Planned: 15 * time.Minute}, {ID: "b", Kind: "bake covered", Planned: 45 * time.Minute}}}
	if err := journal.NewFormula(tx, f); err != nil {
		return nil, err
	}
	trial, err := journal.NewTrial(tx, journal.TrialPlan{
		From: journal.RefOf(f), Name: "Harbour against Gorse", Varied: journal.VaryCulture, Values: []string{"Harbour", "Gorse"},
		Cultures: cultures, Marks: []string{"ring", "cross"}, At: now.Add(-20 * time.Hour),
	})
	if err != nil {
		return nil, err
	}
	bakes, err := journal.TrialBakes(tx, trial)
	if err != nil {
		return nil, err
	}
	both := string(bakes[0].ID) + " " + string(bakes[1].ID)
	for i, b := range bakes {
		b.State, b.Water.Dough = journal.Finished, new(formula.Celsius(24+float64(i)))
		b.Outcome.Scores = []journal.AttributeScore{{Attribute: journal.Overall, Score: 6 + i}}
		if err := journal.Put(tx, b); err != nil {
			return nil, err
		}
	}
	for _, state := range []journal.BakeState{journal.Planned, journal.Running} {
		b := bakes[0].Again()
		b.State, b.At = state, now
		if err := journal.Put(tx, b); err != nil {
			return nil, err
		}
		lw.places = append(lw.places, pages.At(pages.BakeDay, b.ID))
	}
	lw.places = append(lw.places, pages.At(pages.Bake, bakes[0].ID), pages.At(pages.BakeDay, bakes[0].ID),
		pages.At(pages.Formula, f.ID), pages.At(pages.Trial, trial.ID),
		pages.Route{Name: pages.Compare, More: both}, pages.Route{Name: pages.Compare, More: string(bakes[0].ID)}, pages.Route{Name: pages.Tasting, More: both},
		pages.Route{Name: pages.Flour, More: journal.FlourKey("Strong white wheat flour")},
		pages.Route{Name: pages.Shelf, More: fmt.Sprintf("year %d", now.Year())})
	return bakes, nil
}

// fillPhotos adds a photo of the crumb to each bake.
func (lw *leakWorld) fillPhotos(bakes []*journal.Bake) {
	lw.t.Helper()
	var photos []journal.ID
	for i, b := range bakes {
		added, refused, err := lw.j.AddPictures(lw.t.Context(), "photo", journal.RefOf(b), journal.RoleCrumb, []journal.Picture{{
			Name: fmt.Sprintf("%d.png", i), Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(crumbPicture(uint8(i)))), nil },
		}}, nil)
		if err != nil || len(refused) > 0 {
			lw.t.Fatal(refused, err)
		}
		photos = append(photos, added...)
	}
	for _, name := range []string{pages.Photo, pages.Crumb} {
		lw.places = append(lw.places, pages.At(name, photos[0]), pages.Route{Name: name, ID: photos[0], More: string(photos[1])})
	}
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

// planOf is a tasting of one round by a method.
func planOf(method blind.Method, mode blind.Mode) blind.Plan {
	plan := blind.Plan{Method: method, Mode: mode, Tasters: []string{"Ines", "Jory"}, Rounds: 1}
	if mode == blind.Alone {
		plan.Tasters = plan.Tasters[:1]
	}
	if method == blind.ThreeAFC {
		plan.Attribute, plan.Expected = "sour", 1
	}
	if method == blind.Scaling {
		plan.Attributes = []blind.Attribute{{Name: "sour", Low: "not at all", High: "extremely"}, blind.Liking()}
	}
	return plan
}

func (lw *leakWorld) plan(bakes []*journal.Bake, plan blind.Plan) {
	lw.t.Helper()
	if err := lw.j.Do("plan a tasting", func(tx *journal.Tx) error {
		rec, err := journal.NewTasting(tx, journal.TastingPlan{Name: "After supper", At: lw.j.Now(), Bakes: [2]journal.ID{bakes[0].ID, bakes[1].ID}, Plan: plan})
		if err == nil {
			lw.tasting = rec.ID
		}
		return err
	}); err != nil {
		lw.t.Fatal(err)
	}
}

// step does the next step of the scoring, the same in both worlds; alone, the
// slips are turned over at the end. It is false when all is in.
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
		if wanted := s.SlipsWanted(); len(wanted) > 0 {
			serving, _ := s.Setting().Serving(0, wanted[0])
			slips := slices.Sorted(slices.Values(serving.Slips))
			return s.EnterSlips(wanted[0], slips[:len(serving.Samples)]...)
		}
		more = false
		return nil
	})
	if err != nil {
		lw.t.Fatal(err)
	}
	return more
}
