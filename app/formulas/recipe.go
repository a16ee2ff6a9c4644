package formulas

import (
	"io"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/plainfile"
	"twinloaf/journal/recipe"
)

// save writes the version as a recipe for other programs.
func (p *page) save() {
	f, err := p.read()
	if p.env.Failed(err) {
		return
	}
	p.env.SaveFile(lang.L("Save as a recipe"), pages.FileName(f.Name, lang.L("formula"), ".jsonld"), func(w io.Writer) error {
		return dough.WriteRecipe(w, f.Name, f.Notes, dough.SideOfFormula(f), p.units)
	})
}

// recipeFolder is the preference that keeps the folder a recipe was last taken from.
const recipeFolder = "recipes.folder"

// pickRecipe lets the baker choose a file with a recipe in it.
func (p *listPage) pickRecipe() {
	prefs := p.env.App.Preferences()
	kit.PickFiles(p.env.Main, p.env.Window, kit.PickOptions{
		Title: lang.L("Import a recipe"), Yes: lang.L("Import"), Endings: []string{".jsonld", ".json", ".html", ".htm"},
		Start:    prefs.String(recipeFolder),
		OnChosen: func(paths []string) { p.importRecipe(paths[0]) },
		OnLeft:   func(dir string) { prefs.SetString(recipeFolder, dir) },
	})
}

// importRecipe makes a formula of each recipe in a file and shows the first, saying what
// could not be weighed.
func (p *listPage) importRecipe(path string) {
	var all []recipe.Recipe
	var err error
	p.env.Think(func() { all, err = readRecipes(path) }, func() {
		if err != nil {
			p.env.Fail(err)
			return
		}
		p.keepRecipes(all)
	})
}

func (p *listPage) keepRecipes(all []recipe.Recipe) {
	made := make([]*journal.Formula, len(all))
	left := 0
	for i, r := range all {
		f, n, err := dough.ReadRecipe(p.env.Journal, r)
		if p.env.Failed(err) {
			return
		}
		made[i] = f
		left += n
	}
	if !p.env.Do(lang.L("importing a recipe"), func(tx *journal.Tx) error {
		for _, f := range made {
			if err := journal.NewFormula(tx, f); err != nil {
				return err
			}
		}
		return nil
	}) {
		return
	}
	p.env.Go(pages.At(pages.Formula, made[0].ID))
	if left > 0 {
		p.env.Say(lang.L("Imported. Ingredients without a weight stand in the notes: {{.N}}.", map[string]any{"N": left}), true)
		return
	}
	p.env.Say(lang.L("Imported."), true)
}

func readRecipes(path string) (all []recipe.Recipe, err error) {
	f, err := plainfile.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if all, err = recipe.Read(f); err != nil {
		return nil, plainfile.Refuse(path, err)
	}
	return all, nil
}
