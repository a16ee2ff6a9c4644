package bakes

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/formula"
	"twinloaf/journal/paper/papertest"
	"twinloaf/journal/photo/phototest"
	"twinloaf/journal/plan"
)

// rich is a finished bake with everything that can be printed, and five photos that
// tell where they were taken.
func rich(t *testing.T) (p *bakePage, dir string) {
	t.Helper()
	b := bench(t)
	at := b.Clock.Add(-30 * time.Hour)
	bake := &journal.Bake{Name: "Ferry loaf with a name that is so long that it needs more than a line of the page", At: at, State: journal.Finished, Loaves: 2, Notes: "For the early boat."}
	id := func() journal.ID {
		id, err := b.Journal.NewID()
		if err != nil {
			t.Fatal(err)
		}
		return id
	}
	add := func(name string, role formula.Role, g formula.Grams) {
		bake.Ingredients = append(bake.Ingredients, journal.Ingredient{ID: id(), Name: name, Role: role, Grams: g})
	}
	add("Strong white flour", formula.Flour, 800)
	add("Water", formula.Water, 600)
	add("Salt", formula.Salt, 18)
	for i := range 40 {
		add(fmt.Sprintf("Seed %d, toasted, from the mill behind the second harbour wall and soaked overnight", i), formula.Seeds, 5)
	}
	bake.Levains = []journal.LevainBuild{{Name: "Levain", Lines: []journal.Ingredient{{ID: id(), Name: "Harbour", Role: formula.Culture, Grams: 20}, {ID: id(), Name: "Rye", Role: formula.Flour, Grams: 100}}}}
	for i, k := range []plan.Kind{plan.Mix, plan.Bulk, plan.BakeCovered} {
		bake.Steps = append(bake.Steps, journal.Step{ID: id(), Kind: string(k), At: at.Add(time.Duration(i) * 2 * time.Hour), End: at.Add(time.Duration(i)*2*time.Hour + time.Hour), Note: "as it should be", Dough: new(formula.Celsius(24 + i))})
	}
	bake.Outcome = journal.Outcome{DoughWeight: new(formula.Grams(1738)), LoafWeight: new(formula.Grams(1520)), Notes: "Open and mild.", Scores: []journal.AttributeScore{{Attribute: journal.Overall, Score: 8}}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	for i := range 5 {
		data := phototest.JPEG(phototest.Scene(300, 200+40*i), phototest.EXIF{Orientation: 1 + i, Make: "SECRET-CAMERA", GPS: "SECRET-PLACE"})
		_, refused, err := b.Journal.AddPictures(t.Context(), "photos", journal.RefOf(bake), journal.RoleCrust,
			[]journal.Picture{{Name: "loaf.jpg", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}}, nil)
		if err != nil || len(refused) > 0 {
			t.Fatal(err, refused)
		}
	}
	photos, err := journal.Photos(b.Journal, bake.ID)
	if err != nil {
		t.Fatal(err)
	}
	s := crumb.Summary{Method: crumb.MethodVersion, PxPerMM: 8, Counted: 40, Sizes: []crumb.SizeClass{
		{From: 0.5, To: 0.63, Count: 30, Area: 12}, {From: 0.63, To: 0.8, Count: 10, Area: 6.5}, {From: 0.8, To: 1, Count: 4, Area: 6}}}
	for _, d := range crumb.Definitions() {
		s.Figures = append(s.Figures, crumb.Measurement{ID: d.ID, Value: 2.5, Trust: crumb.Good})
	}
	if kept, err := b.Journal.KeepCrumb(photos[2], s); err != nil || !kept {
		t.Fatal(kept, err)
	}
	dir = t.TempDir()
	b.Env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(filepath.Join(dir, o.Name)) }
	return open(b, bake.ID), dir
}

// saved presses W and a figure on the sheet that asks, and reads what was written.
func saved(t *testing.T, p interface{ save() }, env *pages.Env, dir, key, ending string) []byte {
	t.Helper()
	p.save()
	env.Window.Canvas().OnTypedRune()([]rune(key)[0])
	env.Wait()
	names, err := filepath.Glob(filepath.Join(dir, "*"+ending))
	if err != nil || len(names) != 1 {
		t.Fatalf("files %v, %v", names, err)
	}
	out, err := os.ReadFile(names[0])
	if err != nil {
		t.Fatal(err)
	}
	if look := os.Getenv("TWINLOAF_LOOK"); look != "" { // for a person to look at
		if err := os.WriteFile(filepath.Join(look, "bake"+ending), out, 0o644); err != nil {
			t.Error(err)
		}
	}
	return out
}

func TestABakeIsPrinted(t *testing.T) {
	p, dir := rich(t)
	pdf := saved(t, p, p.env, dir, "1", ".pdf")
	if !bytes.HasPrefix(pdf, []byte("%PDF-")) || bytes.Contains(pdf, []byte("SECRET")) {
		t.Fatal("it is no PDF, or tells where the photos were taken")
	}
	if n := bytes.Count(pdf, []byte("/Subtype /Image")); n != 5 {
		t.Errorf("%d pictures, want 5", n)
	}
	if n := bytes.Count(pdf, []byte("/FontFile2")); n != 3 {
		t.Errorf("%d fonts are embedded, want 3", n)
	}
	text := papertest.Text(pdf)
	for _, want := range []string{"Ferry loaf with a name", "Strong white flour", "800", "Harbour", "Seed 39, toasted", "For the early boat.", "Open and mild.", "12.5", "8 of 9", "as it should be", "Temperature", "Cells of each size", "equivalent diameter"} {
		if !strings.Contains(text, want) {
			t.Errorf("there is no %q in\n%s", want, text)
		}
	}
}

// The paper is the one that the settings say, whatever degrees the baker reads.
func TestABakeIsPrintedOnThePaperThatIsSet(t *testing.T) {
	for paper, box := range map[string]string{"letter": "612.00 792.00", "a4": "595.28 841.89"} { // ANSI/ASME Y14.1 and ISO 216, in points
		p, dir := rich(t)
		if err := p.env.Journal.Set("paper", func(s *journal.Settings) { s.Paper, s.Temperature = paper, "F" }); err != nil {
			t.Fatal(err)
		}
		pdf := saved(t, p, p.env, dir, "1", ".pdf")
		if !bytes.Contains(pdf, []byte(box)) {
			t.Errorf("%s: no page is %s large", paper, box)
		}
		if look := os.Getenv("TWINLOAF_LOOK"); look != "" {
			if err := os.WriteFile(filepath.Join(look, "bake-"+paper+".pdf"), pdf, 0o644); err != nil {
				t.Error(err)
			}
		}
	}
}

func TestABakeLeavesAsARecipe(t *testing.T) {
	p, dir := rich(t)
	out := saved(t, p, p.env, dir, "2", ".jsonld")
	for _, want := range []string{`"@type": "Recipe"`, `"800 g Strong white flour"`, `"20 g Harbour (Levain)"`, `"HowToStep"`} {
		if !bytes.Contains(out, []byte(want)) {
			t.Errorf("there is no %s in\n%s", want, out)
		}
	}
}
