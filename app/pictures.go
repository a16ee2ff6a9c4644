package app

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/clipboard"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// drop hands files that were dropped on the window to the page that is shown.
func (w *window) drop(files []fyne.URI) {
	var paths []string
	for _, f := range files {
		if f.Scheme() == "file" {
			paths = append(paths, f.Path())
		}
	}
	w.take(paths)
}

// paste takes from the clipboard the files that it names, as file managers put them
// there, or else the picture that it holds.
func (w *window) paste() {
	if paths := pastedPaths(w.env.App.Clipboard().Content()); len(paths) > 0 {
		w.take(paths)
		return
	}
	var kind string
	var data []byte
	var err error
	w.env.Run(func(ctx context.Context) { kind, data, err = w.clipboard(ctx, pastedKinds...) }, func() {
		switch {
		case errors.Is(err, clipboard.ErrTooLarge):
			w.say(lang.L("What is on the clipboard is too large: save it as a file, and add that."), false)
		case err != nil:
			w.say(notPasted(clipboard.Pictures()), false)
		case kind == "text/uri-list":
			w.take(pastedPaths(string(data)))
		default:
			w.takePasted(kind, data)
		}
	})
}

// notPasted says why nothing was pasted: where pictures can be read from the clipboard,
// there is none on it.
func notPasted(can bool) string {
	if can {
		return lang.L("There is no picture on the clipboard.")
	}
	return lang.L("On this system pictures cannot be pasted, only files. Drop the picture on the window.")
}

// pastedKinds are what is looked for on the clipboard, the best first.
var pastedKinds = []string{"text/uri-list", "image/png", "image/jpeg", "image/webp"}

// takePasted hands the page a picture that has no file.
func (w *window) takePasted(kind string, data []byte) {
	taker, ok := w.here.page.(pages.PictureTaker)
	if !ok {
		w.say(lang.L("Open a bake or a culture first, then paste the picture."), false)
		return
	}
	name := lang.L("pasted") + "." + strings.TrimPrefix(kind, "image/")
	taker.TakePictures([]journal.Picture{{Name: name, Open: func() (io.ReadCloser, error) {
		return io.NopCloser(bytes.NewReader(data)), nil
	}}})
}

// take hands the files, and those in folders among them, to the page. An archive is
// looked at instead: nothing comes in before the baker says so.
func (w *window) take(paths []string) {
	if len(paths) == 0 {
		return
	}
	if i := slices.IndexFunc(paths, isArchive); i >= 0 {
		w.Go(pages.Route{Name: pages.BringIn, More: paths[i]})
		return
	}
	taker, ok := w.here.page.(pages.PictureTaker)
	if !ok {
		w.say(lang.L("Open a bake or a culture first, then drop the pictures on it."), false)
		return
	}
	var pictures []journal.Picture
	w.env.Think(func() { // a folder on a slow disk takes its time
		for _, p := range paths {
			for _, file := range filesAt(p) {
				pictures = append(pictures, journal.Picture{Name: filepath.Base(file), Path: file})
			}
		}
	}, func() { taker.TakePictures(pictures) })
}

// isArchive tells by its name a file that is not for the page but for the journal.
func isArchive(path string) bool { return strings.EqualFold(filepath.Ext(path), pages.ArchiveEnding) }

// filesAt gives path itself, or, when it is a folder, the files in it.
func filesAt(path string) []string {
	entries, err := os.ReadDir(path)
	if err != nil {
		return []string{path} // a file, or something whose error names it when it is read
	}
	var out []string
	for _, e := range entries {
		if e.Type().IsRegular() && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, filepath.Join(path, e.Name()))
		}
	}
	return out
}

// pastedPaths finds the files named by the text of a clipboard: file URIs or
// absolute paths, one a line.
func pastedPaths(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		switch u, err := url.Parse(line); {
		case line == "" || line == "copy" || line == "cut" || strings.HasPrefix(line, "#"): // a comment, by RFC 2483
		case err == nil && u.Scheme == "file":
			out = append(out, filepath.FromSlash(u.Path))
		case filepath.IsAbs(line):
			out = append(out, line)
		default:
			return nil // ordinary text
		}
	}
	return out
}
