// Words gathers every word that the window shows into the catalogue
// assets/words/catalogue/en.json, from which other languages are translated. Run it from the
// root of the repository: go run ./cmd/words. With -check it alters nothing and
// fails if the catalogue is not up to date.
package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

const catalogue = "assets/words/catalogue/en.json"

func main() {
	check := flag.Bool("check", false, "only say whether the catalogue is up to date")
	flag.Parse()
	if err := run(".", *check); err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
}

func run(root string, check bool) error {
	path := filepath.Join(root, filepath.FromSlash(catalogue))
	kept, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	said, err := gather(filepath.Join(root, "app"), filepath.Join(root, "journal"), filepath.Join(root, "charts"))
	if err != nil {
		return err
	}
	said.addEngines()
	said.addCalendar()
	fresh, err := update(kept, said)
	if err != nil {
		return fmt.Errorf("reading %s: %w", catalogue, err)
	}
	switch {
	case bytes.Equal(kept, fresh):
		return nil
	case check:
		return fmt.Errorf("%s is not up to date: run go run ./cmd/words", catalogue)
	}
	return os.WriteFile(path, fresh, 0o644)
}

// words are what is said, and the form for a count of one of what has a plural.
type words map[string]forms

// forms of what is said.
type forms struct {
	plural bool
	one    string // empty where only the catalogue has it
}

// gather finds the words in every call of lang.L and lang.N, of say.Of, say.N and
// say.Wrong, and of the charts' tell and tellCount, below the folders.
func gather(dirs ...string) (words, error) {
	said := words{}
	for _, dir := range dirs {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if call, ok := n.(*ast.CallExpr); ok {
					said.add(called(call, file.Name.Name), call.Args)
				}
				return true
			})
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return said, nil
}

// add adds what a call says. What is not written out, such as the name of a
// month, comes from a list that is said elsewhere.
func (w words) add(called string, args []ast.Expr) {
	text := func(i int) string {
		if i >= len(args) {
			return ""
		}
		s, _ := literal(args[i])
		return s
	}
	key, f := "", forms{}
	switch called {
	case "lang.L", "say.Of", "say.Wrong":
		key = text(0)
	case "lang.N":
		key, f = text(0), forms{plural: true}
	case "say.N":
		key, f = text(1), forms{plural: true, one: text(0)}
	case "charts.tell":
		key = text(1)
	case "charts.tellCount":
		key, f = text(2), forms{plural: true, one: text(1)}
	}
	if key == "" {
		return
	}
	known := w[key]
	w[key] = forms{plural: known.plural || f.plural, one: cmp.Or(known.one, f.one)}
}

// called gives a call's function with its package, "lang.L".
func called(call *ast.CallExpr, here string) string {
	switch fun := call.Fun.(type) {
	case *ast.SelectorExpr:
		if pkg, ok := fun.X.(*ast.Ident); ok {
			return pkg.Name + "." + fun.Sel.Name
		}
	case *ast.Ident:
		return here + "." + fun.Name
	}
	return ""
}

// literal gives the value of a string literal or of a sum of them.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind != token.STRING {
			return "", false
		}
		s, err := strconv.Unquote(e.Value)
		return s, err == nil
	case *ast.BinaryExpr:
		a, ok := literal(e.X)
		if !ok || e.Op != token.ADD {
			return "", false
		}
		b, ok := literal(e.Y)
		return a + b, ok
	}
	return "", false
}

// An entry is one message of the catalogue. A list of entries, unlike an object
// whose keys are the words, may hold the words "One" and "Other".
type entry struct {
	ID    string `json:"id"`
	One   string `json:"one,omitempty"`
	Other string `json:"other"`
}

// update brings a catalogue up to what is said: entries no longer said go, new
// ones come, and a plural keeps the form for one that somebody has written.
func update(kept []byte, said words) ([]byte, error) {
	var old []entry
	if err := json.Unmarshal(kept, &old); err != nil {
		return nil, err
	}
	ones := map[string]string{}
	for _, e := range old {
		ones[e.ID] = e.One
	}
	fresh := []entry{}
	for _, s := range slices.Sorted(maps.Keys(said)) {
		e := entry{ID: s, Other: s}
		if f := said[s]; f.plural {
			e.One = cmp.Or(f.one, ones[s], s)
		}
		fresh = append(fresh, e)
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err := enc.Encode(fresh)
	return out.Bytes(), err
}
