// Words keeps assets/words/catalogue/en.json, the forms of what is counted in English:
// everything else is its own key, and needs no entry. Run it from the root of the
// repository after adding a sentence with a count: go run ./cmd/words. With -check it
// alters nothing and fails if the file is not up to date; with -all it prints every
// sentence of the program, for who translates it; with -missing what each other language
// still lacks, and what it has that is no longer said.
package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"twinloaf/assets/words/gather"
)

const catalogue = "assets/words/catalogue/en.json"

func main() {
	check := flag.Bool("check", false, "only say whether the catalogue is up to date")
	all := flag.Bool("all", false, "print every sentence of the program")
	gaps := flag.Bool("missing", false, "print what each language lacks, and what it has for nothing")
	flag.Parse()
	var err error
	switch {
	case *all:
		err = list(os.Stdout, ".")
	case *gaps:
		err = missing(os.Stdout, ".")
	default:
		err = run(".", *check)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
}

// run writes the plurals of the program in the folder root, or only checks them.
func run(root string, check bool) error {
	path := filepath.Join(root, filepath.FromSlash(catalogue))
	kept, said, err := read(root)
	if err != nil {
		return err
	}
	maps.DeleteFunc(said, func(_ string, f gather.Forms) bool { return !f.Plural })
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

// list writes every sentence of the program in the folder root.
func list(w io.Writer, root string) error {
	kept, said, err := read(root)
	if err != nil {
		return err
	}
	full, err := update(kept, said)
	if err != nil {
		return fmt.Errorf("reading %s: %w", catalogue, err)
	}
	_, err = w.Write(full)
	return err
}

// read gives the catalogue as it is, and what the program says.
func read(root string) (kept []byte, said gather.Words, err error) {
	kept, err = os.ReadFile(filepath.Join(root, filepath.FromSlash(catalogue)))
	if err != nil {
		return nil, nil, err
	}
	said, err = gather.From(root)
	return kept, said, err
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
func update(kept []byte, said gather.Words) ([]byte, error) {
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
		if f := said[s]; f.Plural {
			e.One = cmp.Or(f.One, ones[s], s)
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
