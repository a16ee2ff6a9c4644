package formulas

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

func TestARecipeComesInAndLeaves(t *testing.T) {
	b := pagestest.New(t)
	dir := t.TempDir()
	b.Env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(filepath.Join(dir, o.Name)) }
	list := b.Show(Routes()[pages.Formulas], pages.Route{Name: pages.Formulas}).(*listPage)
	list.importRecipe(filepath.Join("..", "..", "journal", "recipe", "testdata", "plain.json"))
	b.Env.Wait()
	all, err := journal.All[journal.Formula](b.Journal)
	if err != nil || len(all) != 1 {
		t.Fatal(all, err)
	}
	f := all[0]
	if f.Name != "Tide loaf" || f.Loaves != 1 || len(f.Ingredients) != 3 || f.Ingredients[0].Grams != 450 || f.Ingredients[0].Role != formula.Flour || len(f.Steps) != 3 || f.Number != 1 {
		t.Errorf("imported %+v", f)
	}
	for _, want := range []string{"2 cups of rye flakes", "author: Jory", "nutrition: "} {
		if !strings.Contains(f.Notes, want) {
			t.Errorf("the notes do not keep %q: %q", want, f.Notes)
		}
	}
	p := b.Show(Routes()[pages.Formula], pages.At(pages.Formula, f.ID)).(*page)
	p.save()
	b.Env.Wait()
	out, err := os.ReadFile(filepath.Join(dir, "Tide loaf.jsonld"))
	if err != nil || !strings.Contains(string(out), `"450 g strong white flour"`) {
		t.Errorf("saved %s, %v", out, err)
	}
}

func TestAFileThatIsNoRecipeIsToldOf(t *testing.T) {
	b := pagestest.New(t)
	path := filepath.Join(t.TempDir(), "letter.html")
	if err := os.WriteFile(path, []byte("<p>Dear Ines"), 0o644); err != nil {
		t.Fatal(err)
	}
	var told error
	b.Env.Fail = func(err error) { told = err }
	list := b.Show(Routes()[pages.Formulas], pages.Route{Name: pages.Formulas}).(*listPage)
	for path, want := range map[string]string{
		path:                                    "“letter.html” cannot be read: the file is neither JSON nor a page with a recipe in it.",
		filepath.Join(t.TempDir(), "gone.json"): "“gone.json” cannot be read: that file or folder is not there.",
		filepath.Dir(path):                      "“" + filepath.Base(filepath.Dir(path)) + "” cannot be read: it is a folder, not a file.",
	} {
		list.importRecipe(path)
		b.Env.Wait()
		if told == nil || b.Units().ErrorText(told) != want {
			t.Errorf("told %v, not %q", told, want)
		}
	}
	if all, err := journal.All[journal.Formula](b.Journal); err != nil || len(all) != 0 {
		t.Errorf("%d formulas, %v", len(all), err)
	}
}
