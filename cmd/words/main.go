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
	said, err := gather(filepath.Join(root, "app"))
	if err != nil {
		return err
	}
	said.addEngines()
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

// words are what is said, and whether each has a plural.
type words map[string]bool

// gather finds the first argument of every call of lang.L and lang.N below dir.
func gather(dir string) (words, error) {
	said := words{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			name, ok := langCall(call)
			if !ok {
				return true
			}
			// What is not written out, such as the name of a month, comes from
			// a list that is said elsewhere.
			if s, ok := literal(call.Args[0]); ok {
				said[s] = said[s] || name == "N"
			}
			return true
		})
		return nil
	})
	return said, err
}

// langCall tells whether a call is lang.L or lang.N.
func langCall(call *ast.CallExpr) (name string, ok bool) {
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	pkg, ok := sel.X.(*ast.Ident)
	if !ok || pkg.Name != "lang" || (sel.Sel.Name != "L" && sel.Sel.Name != "N") {
		return "", false
	}
	return sel.Sel.Name, true
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
		if said[s] {
			e.One = cmp.Or(ones[s], s)
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
