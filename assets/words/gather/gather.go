// Package gather finds every word that the window shows: in the calls that say
// something, and in the tables of the computing rooms.
package gather

import (
	"cmp"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
)

// Words are what is said, by its English, and the form for a count of one of what
// has a plural.
type Words map[string]Forms

// Forms of what is said.
type Forms struct {
	Plural bool
	One    string // empty where only the catalogue has it
}

// From gathers all that the program in the repository root says.
func From(root string) (Words, error) {
	said, err := calls(filepath.Join(root, "app"), filepath.Join(root, "journal"), filepath.Join(root, "charts"))
	if err != nil {
		return nil, err
	}
	said.addEngines()
	said.addCalendar()
	return said, nil
}

// calls finds the words in every call of lang.L and lang.N, and of say.Of, say.N and
// say.NewError, below the folders.
func calls(dirs ...string) (Words, error) {
	said := Words{}
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
func (w Words) add(called string, args []ast.Expr) {
	text := func(i int) string {
		if i >= len(args) {
			return ""
		}
		s, _ := literal(args[i])
		return s
	}
	key, f := "", Forms{}
	switch called {
	case "lang.L", "say.Of", "say.NewError":
		key = text(0)
	case "lang.N":
		key, f = text(0), Forms{Plural: true}
	case "say.N":
		key, f = text(1), Forms{Plural: true, One: text(0)}
	}
	if key == "" {
		return
	}
	known := w[key]
	w[key] = Forms{Plural: known.Plural || f.Plural, One: cmp.Or(known.One, f.One)}
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
