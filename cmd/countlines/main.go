// Countlines counts the lines of Go of each room, tests left out and beside:
//
//	go run ./cmd/countlines [folder]
//
// To see what a change saved, count in two checkouts of the repository.
package main

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// count is what one room has.
type count struct{ lines, tests int }

func main() {
	flag.Parse()
	root := cmp.Or(flag.Arg(0), ".")
	if err := run(os.Stdout, os.DirFS(root)); err != nil {
		fmt.Fprintln(os.Stderr, "countlines:", err)
		os.Exit(1)
	}
}

// run writes a table of every folder of a tree that holds Go, and their sum.
func run(w io.Writer, tree fs.FS) error {
	rooms, err := countIn(tree)
	if err != nil {
		return err
	}
	var all count
	row := func(name string, c count) { fmt.Fprintf(w, "%-32s %7d %7d\n", name, c.lines, c.tests) }
	fmt.Fprintf(w, "%-32s %7s %7s\n", "room", "lines", "tests")
	for _, name := range slices.Sorted(maps.Keys(rooms)) {
		row(name, rooms[name])
		all.lines += rooms[name].lines
		all.tests += rooms[name].tests
	}
	row("all", all)
	return nil
}

func countIn(tree fs.FS) (map[string]count, error) {
	rooms := map[string]count{}
	err := fs.WalkDir(tree, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if d.IsDir() || filepath.Ext(path) != ".go" {
			return nil
		}
		text, err := fs.ReadFile(tree, path)
		if err != nil {
			return err
		}
		room := filepath.ToSlash(filepath.Dir(path))
		c, n := rooms[room], bytes.Count(text, []byte("\n"))
		if strings.HasSuffix(path, "_test.go") {
			c.tests += n
		} else {
			c.lines += n
		}
		rooms[room] = c
		return nil
	})
	return rooms, err
}
