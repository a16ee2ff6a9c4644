// Licences writes assets/licences/licences.json: every module that is linked into the program
// on Linux, macOS or Windows, with its licence as it lies in the module cache, and what else
// of others the program carries: the standard library, typefaces, decoders. Run it from the
// root of the repository after a library was added or raised: go run ./cmd/licences. With -check it
// alters nothing and fails if the file is not up to date.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"twinloaf/assets/licences"
)

const out = "assets/licences/licences.json"

func main() {
	check := flag.Bool("check", false, "only say whether the list is up to date")
	flag.Parse()
	if err := run(".", *check); err != nil {
		fmt.Fprintln(os.Stderr, "licences:", err)
		os.Exit(1)
	}
}

// run writes the list of the repository at root, or only compares it.
func run(root string, check bool) error {
	list, err := gather(root)
	if err != nil {
		return err
	}
	fresh, err := json.MarshalIndent(list, "", " ")
	if err != nil {
		return err
	}
	fresh = append(fresh, '\n')
	path := filepath.Join(root, filepath.FromSlash(out))
	if !check {
		return os.WriteFile(path, fresh, 0o644)
	}
	kept, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if !bytes.Equal(kept, fresh) {
		return fmt.Errorf("%s is not up to date: go run ./cmd/licences", out)
	}
	return nil
}

// A module is one that the program is linked with.
type module struct{ Path, Version, Dir string }

// systems are those that the README has a command for.
var systems = []string{"linux", "darwin", "windows"}

// linked lists the modules of which a package is linked into the program on any system, by
// their paths, without the program's own.
func linked(root string) ([]module, error) {
	all := map[string]module{}
	for _, system := range systems {
		cmd := exec.Command("go", "list", "-deps", "-tags", "nodynamic",
			"-f", `{{with .Module}}{{if not .Main}}{"Path":{{printf "%q" .Path}},"Version":{{printf "%q" .Version}},"Dir":{{printf "%q" .Dir}}}{{end}}{{end}}`, "./cmd/twinloaf")
		cmd.Dir, cmd.Env = root, append(os.Environ(), "GOOS="+system, "CGO_ENABLED=1")
		said, err := cmd.Output()
		if err != nil {
			return nil, fmt.Errorf("listing the modules for %s: %w", system, err)
		}
		for line := range strings.Lines(string(said)) {
			if strings.TrimSpace(line) == "" {
				continue
			}
			var m module
			if err := json.Unmarshal([]byte(line), &m); err != nil {
				return nil, fmt.Errorf("listing the modules for %s: %w", system, err)
			}
			all[m.Path] = m
		}
	}
	var list []module
	for _, m := range all {
		list = append(list, m)
	}
	slices.SortFunc(list, func(a, b module) int { return strings.Compare(a.Path, b.Path) })
	return list, nil
}

// gather makes the list.
func gather(root string) (licences.List, error) {
	modules, err := linked(root)
	if err != nil {
		return licences.List{}, err
	}
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return licences.List{}, fmt.Errorf("asking where Go is: %w", err)
	}
	var l licences.List
	add := func(name, version, file string) error {
		text, err := os.ReadFile(file)
		if err != nil {
			return fmt.Errorf("reading the licence of %s: %w", name, err)
		}
		spdx := kind(string(text))
		if spdx == "" {
			return fmt.Errorf("which licence is that of %s, in %s?", name, file)
		}
		said := strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n"))
		at := slices.Index(l.Texts, said)
		if at < 0 {
			at, l.Texts = len(l.Texts), append(l.Texts, said)
		}
		l.Parts = append(l.Parts, licences.Part{Name: name, Version: version, Licence: spdx, Text: at})
		return nil
	}
	if err := add("Go", "", filepath.Join(strings.TrimSpace(string(goroot)), "LICENSE")); err != nil {
		return licences.List{}, err
	}
	for _, m := range modules {
		files, err := own(m)
		if err != nil {
			return licences.List{}, err
		}
		for _, file := range files {
			if err := add(m.Path, m.Version, file); err != nil {
				return licences.List{}, err
			}
		}
		for _, inside := range within[m.Path] {
			if err := add(inside.name, "", filepath.Join(m.Dir, filepath.FromSlash(inside.file))); err != nil {
				return licences.List{}, err
			}
		}
	}
	for _, f := range faces {
		if err := add(f.name, "", filepath.Join(root, filepath.FromSlash(f.file))); err != nil {
			return licences.List{}, err
		}
	}
	return l, nil
}

// A piece is something with a licence of its own that lies inside of something else.
type piece struct{ name, file string }

// within are the pieces that modules carry under other terms than their own.
var within = map[string][]piece{
	"fyne.io/fyne/v2": {
		{"Noto Sans (in Fyne)", "theme/font/LICENSE.txt"},
		{"Inter Symbols (in Fyne)", "theme/font/LICENSE_Inter.txt"},
		{"EmojiOne Color (in Fyne)", "theme/font/LICENSE_EmojiOneColor.txt"},
		{"DejaVu Sans Mono Powerline (in Fyne)", "theme/font/LICENSE_DejaVu-Powerline.txt"},
	},
	"github.com/gen2brain/heic": {
		{"libheif (HEIC, as WebAssembly)", "lib/LICENSE.libheif"},
		{"libde265 (HEVC, as WebAssembly)", "lib/LICENSE.libde265"},
	},
	"github.com/go-gl/glfw/v3.3/glfw": {{"GLFW", "glfw/LICENSE.md"}},
	"github.com/go-text/typesetting":  {{"HarfBuzz (in go-text)", "harfbuzz/LICENSE"}},
	"github.com/golang/freetype":      {{"FreeType (its licence)", "licenses/ftl.txt"}},
	"codeberg.org/go-pdf/fpdf":        {{"sRGB profile (in fpdf)", "icc/LICENSE.color.org"}},
	"gonum.org/v1/gonum":              {{"Cephes (in Gonum)", "THIRD_PARTY_LICENSES/Cephes-LICENSE"}, {"Boost (in Gonum)", "THIRD_PARTY_LICENSES/Boost-LICENSE"}, {"MT19937 (in Gonum)", "THIRD_PARTY_LICENSES/MT19937-LICENSE"}, {"MT19937-64 (in Gonum)", "THIRD_PARTY_LICENSES/MT19937-64-LICENSE"}},
	"github.com/tetratelabs/wazero":   {{"wazero (its notice)", "NOTICE"}},
	"gopkg.in/yaml.v3":                {{"yaml (its notice)", "NOTICE"}},
}

// faces are the program's own typefaces, made from others'.
var faces = []piece{
	{"Fraunces (the headings)", "assets/fonts/Fraunces-OFL.txt"},
	{"Atkinson Hyperlegible Next (the text)", "assets/fonts/AtkinsonHyperlegibleNext-OFL.txt"},
}

// own gives the files of a module's own licence.
func own(m module) ([]string, error) {
	entries, err := os.ReadDir(m.Dir)
	if err != nil {
		return nil, fmt.Errorf("looking for the licence of %s (go mod download brings it): %w", m.Path, err)
	}
	var files []string
	for _, e := range entries {
		name := strings.ToLower(e.Name())
		if !e.IsDir() && (strings.HasPrefix(name, "license") || strings.HasPrefix(name, "licence") || strings.HasPrefix(name, "copying")) {
			files = append(files, filepath.Join(m.Dir, e.Name()))
		}
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s has no licence", m.Path)
	}
	return files, nil
}

// kinds are the sentences by which a licence is known, the more particular first.
var kinds = []struct {
	spdx  string
	marks []string
}{
	{"Unlicense OR BSD-3-Clause", []string{"SPDX-License-Identifier: Unlicense OR BSD-3-Clause"}},
	{"FTL OR GPL-2.0-or-later", []string{"Use of the Freetype-Go software is subject to your choice"}},
	{"FTL", []string{"The FreeType Project LICENSE"}},
	{"MIT AND Apache-2.0", []string{"two different licenses: MIT and Apache"}},
	{"OFL-1.1", []string{"SIL OPEN FONT LICENSE"}},
	{"LGPL-3.0", []string{"GNU LESSER GENERAL PUBLIC LICENSE"}},
	{"Apache-2.0", []string{"Apache License"}},
	{"BSL-1.0", []string{"Boost Software License"}},
	{"Zlib", []string{"misrepresented as being the original software"}},
	{"ICC", []string{"International Color Consortium"}},
	{"Bitstream-Vera", []string{"Bitstream Vera"}},
	{"BSD-3-Clause", []string{"Redistributions in binary form", "endorse or promote"}},
	{"BSD-2-Clause", []string{"Redistributions in binary form"}},
	{"ISC", []string{"Permission to use, copy, modify, and"}},
	{"MIT", []string{"Permission is hereby granted, free of charge"}},
	{"notice", []string{"Copyright"}},
}

// kind tells which licence a text is; empty where it is none that is known.
func kind(text string) string {
	flat := strings.Join(strings.Fields(text), " ")
	for _, k := range kinds {
		all := true
		for _, mark := range k.marks {
			all = all && strings.Contains(flat, mark)
		}
		if all {
			return k.spdx
		}
	}
	return ""
}
