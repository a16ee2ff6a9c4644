package look_test

import (
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"

	"twinloaf/assets"
)

// foreign are the rooms that know signs which others write: those are read there, and
// shown as they came.
var foreign = []string{"journal/shorthand", "journal/table", "journal/templog", "journal/recipe"}

// unseen are the signs that are compared or put into files, and drawn nowhere; the paper
// draws its own box to tick.
const unseen = "\ufeff\ufffd。！？।□"

// A computer need not have another face that knows a tick: each sign that the program
// writes, in whatever language, is in its own.
func TestFacesHoldEverySign(t *testing.T) {
	written := map[rune]string{}
	write := func(text, where string) {
		for _, r := range text {
			if r >= ' ' && !strings.ContainsRune(unseen, r) {
				written[r] = where
			}
		}
	}
	for _, root := range []string{"app", "charts", "journal", "cmd/twinloaf", "assets/words/catalogue"} {
		read := func(path string, d fs.DirEntry, err error) error {
			for _, room := range foreign {
				if err == nil && path == filepath.Join("../..", room) {
					return fs.SkipDir
				}
			}
			switch {
			case err != nil || d.IsDir():
				return err
			case strings.HasSuffix(path, ".json"):
				b, err := os.ReadFile(path)
				write(string(b), path)
				return err
			case !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
				return nil
			}
			return literals(path, write)
		}
		if err := filepath.WalkDir(filepath.Join("../..", root), read); err != nil {
			t.Fatal(err)
		}
	}
	if len(written) < 100 {
		t.Fatalf("only %d signs were found", len(written))
	}
	for name, file := range map[string][]byte{
		"regular": assets.TextRegular, "italic": assets.TextItalic, "bold": assets.TextBold, "bold italic": assets.TextBoldItalic,
	} {
		face, err := sfnt.Parse(file)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		var buf sfnt.Buffer
		for r, where := range written {
			if glyph, err := face.GlyphIndex(&buf, r); err != nil || glyph == 0 {
				t.Errorf("%s: %q, written in %s, is not in it (%v)", name, r, where, err)
			}
		}
	}
}

// literals reads the strings and characters of a source file.
func literals(path string, read func(text, where string)) error {
	src, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	var s scanner.Scanner
	s.Init(token.NewFileSet().AddFile(path, -1, len(src)), src, nil, 0)
	for {
		_, tok, lit := s.Scan()
		switch tok {
		case token.EOF:
			return nil
		case token.STRING, token.CHAR:
			text, err := strconv.Unquote(lit)
			if err != nil {
				return err
			}
			read(text, path)
		}
	}
}
