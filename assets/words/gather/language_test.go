package gather

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"twinloaf/assets/words"
)

var name = regexp.MustCompile(`\{\{\.(\w+)\}\}`)

// names gives the names that the program fills in a text, each once.
func names(text string) []string {
	var out []string
	for _, m := range name.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// A translation that loses a name loses a figure, and one that invents a name says nothing in
// its place. What is missing altogether is said in English, and listed by
// go run ./cmd/words -missing.
func TestTranslationsFillTheSameNames(t *testing.T) {
	said, err := From("../../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range words.Languages()[1:] {
		data, err := os.ReadFile(filepath.Join("..", "catalogue", l.Tag+".json"))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := words.Read(l.Tag, data); err != nil {
			t.Fatal(err)
		}
		var list []map[string]string
		if err := json.Unmarshal(data, &list); err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, e := range list {
			id := e["id"]
			if seen[id] {
				t.Errorf("%s: %q stands there twice", l.Tag, id)
			}
			seen[id] = true
			want := names(id)
			for form, text := range e {
				if form == "id" || text == "" {
					continue
				}
				got := names(text)
				if form != "other" { // "one loaf" need not say the figure, nor a list of one that it is one
					if one := names(said[id].One); said[id].Plural && len(one) > 0 {
						want = append(slices.Clone(want), one...)
					}
					for _, n := range got {
						if !slices.Contains(want, n) {
							t.Errorf("%s, %s of %q: {{.%s}} is filled by nobody", l.Tag, form, id, n)
						}
					}
					continue
				}
				if !slices.Equal(got, names(id)) {
					t.Errorf("%s: %q fills %v, the English %v", l.Tag, id, got, names(id))
				}
			}
			if said[id].Plural && l.Tag == "de" && e["one"] == "" {
				t.Errorf("%s: %q has no form for one", l.Tag, id)
			}
		}
		lacks := 0
		for s := range said {
			if !seen[s] {
				lacks++
			}
		}
		t.Logf("%s: %d of %d sentences are missing", l.Tag, lacks, len(said))
	}
}
