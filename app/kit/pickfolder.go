package kit

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"fyne.io/fyne/v2/lang"
)

// pictureEndings are those of files that the program takes for pictures.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif"}

// PictureEndings gives the endings of files that may be pictures of a bake.
func PictureEndings() []string { return slices.Clone(pictureEndings) }

// pickEntry is a file or folder as the picker lists it.
type pickEntry struct {
	name   string
	path   string
	folder bool
	when   time.Time
}

// readFolder lists a folder: sub-folders first by name, then the files with one of
// the endings (any, when there are none), newest first when byTime is set. Hidden
// ones are left out. It stops when ctx ends.
func readFolder(ctx context.Context, dir string, endings []string, byTime bool) ([]pickEntry, error) {
	f, err := os.Open(dir)
	if err != nil {
		return nil, fmt.Errorf("opening the folder %s: %w", dir, err)
	}
	defer f.Close()
	var out []pickEntry
	for {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		batch, err := f.ReadDir(512)
		for _, d := range batch {
			if e, ok := pickable(dir, d, endings, byTime); ok {
				out = append(out, e)
			}
		}
		if err != nil || len(batch) == 0 {
			break // io.EOF; what could be read is shown
		}
	}
	slices.SortFunc(out, func(a, b pickEntry) int {
		if a.folder != b.folder {
			if a.folder {
				return -1
			}
			return 1
		}
		if byTime && !a.folder && !a.when.Equal(b.when) {
			return b.when.Compare(a.when)
		}
		return compareNames(a.name, b.name)
	})
	return out, nil
}

func pickable(dir string, d os.DirEntry, endings []string, byTime bool) (pickEntry, bool) {
	name := d.Name()
	if strings.HasPrefix(name, ".") {
		return pickEntry{}, false
	}
	e := pickEntry{name: name, path: filepath.Join(dir, name), folder: d.IsDir()}
	if d.Type()&os.ModeSymlink != 0 {
		info, err := os.Stat(e.path)
		if err != nil {
			return pickEntry{}, false
		}
		e.folder = info.IsDir()
	}
	if e.folder {
		return e, true
	}
	if len(endings) > 0 && !slices.Contains(endings, strings.ToLower(filepath.Ext(name))) {
		return pickEntry{}, false
	}
	if byTime {
		if info, err := d.Info(); err == nil {
			e.when = info.ModTime()
		}
	}
	return e, true
}

// compareNames orders names without regard to case, and numbers in them by value:
// loaf 2 before loaf 10.
func compareNames(a, b string) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	i, j := 0, 0
	for i < len(x) && j < len(y) {
		if unicode.IsDigit(x[i]) && unicode.IsDigit(y[j]) {
			p, q := digitsFrom(x, &i), digitsFrom(y, &j)
			if c := cmp.Or(cmp.Compare(len(p), len(q)), strings.Compare(p, q)); c != 0 {
				return c
			}
			continue
		}
		if x[i] != y[j] {
			return cmp.Compare(x[i], y[j])
		}
		i++
		j++
	}
	return cmp.Or(cmp.Compare(len(x)-i, len(y)-j), strings.Compare(a, b))
}

// digitsFrom takes the digits at *i, without leading zeros.
func digitsFrom(r []rune, i *int) string {
	start := *i
	for *i < len(r) && unicode.IsDigit(r[*i]) {
		*i++
	}
	return strings.TrimLeft(string(r[start:*i]), "0")
}

// Place is a folder that the picker offers to begin at.
type Place struct{ Name, Dir string }

// existing keeps the places that are there.
func existing(places []Place) []Place {
	var out []Place
	for _, p := range places {
		if info, err := os.Stat(p.Dir); err == nil && info.IsDir() {
			out = append(out, p)
		}
	}
	return out
}

// tapped opens a folder, or chooses a file; a second tap on a single one accepts.
func (p *FilePicker) tapped(i int) {
	e := p.entries[i]
	if e.folder {
		p.Go(e.path)
		return
	}
	if p.chosen.chosen[i] && len(p.chosen.chosen) == 1 && !p.o.Many {
		p.Accept()
		return
	}
	if p.o.Many {
		p.chosen.toggle(i) // with many, each tap adds or takes away
	} else {
		p.chosen.tap(i, 0)
	}
	p.took(i)
}

// entered opens a folder, or accepts what is chosen: the file at the keyboard's place
// when nothing is.
func (p *FilePicker) entered(i int) {
	if p.entries[i].folder {
		p.Go(p.entries[i].path)
		return
	}
	if len(p.chosen.chosen) == 0 {
		p.chosen.tap(i, 0)
		p.took(i)
	}
	p.Accept()
}

func (p *FilePicker) choose(i int) {
	if p.entries[i].folder {
		return
	}
	if mod := modifiers(); mod != 0 {
		p.chosen.tap(i, mod)
	} else {
		p.chosen.toggle(i)
	}
	p.took(i)
}

func (p *FilePicker) took(i int) {
	if p.name != nil {
		p.name.SetText(p.entries[i].name)
	}
	p.update()
	p.grid.Refresh()
}

// Accept hands the choice over and closes. A file that would be written over is
// asked about first.
func (p *FilePicker) Accept() {
	paths := p.Chosen()
	if len(paths) == 0 {
		return
	}
	if p.o.save {
		if _, err := os.Stat(paths[0]); err == nil {
			ConfirmLoss(p.win, lang.L("Replace the file?"),
				lang.L("“{{.Name}}” is there already. What it holds now would be lost.",
					map[string]any{"Name": filepath.Base(paths[0])}),
				lang.L("Replace it"), func() { p.hand(paths) })
			return
		}
	}
	p.hand(paths)
}

func (p *FilePicker) hand(paths []string) {
	p.sheet.Close()
	tell(p.o.OnChosen, paths)
}
