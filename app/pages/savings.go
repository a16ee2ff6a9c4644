package pages

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
)

// A Saving is one thing that can be saved of what a page shows.
type Saving struct {
	Title string // "As pages to print (PDF)"
	Name  string // of the file, with its ending
	Write func(io.Writer) error
	Show  bool // opens the file when it is saved, as with pages to print
}

// SaveOneOf asks which of some things to save; note, which may be empty, stands under
// them. It gives the dialog that asks.
func (e *Env) SaveOneOf(savings []Saving, note string) *kit.Dialog {
	var sheet *kit.Dialog
	list := kit.Stack(2)
	var keys []kit.Key
	for i, s := range savings {
		save := func() {
			sheet.Close()
			if s.Show {
				e.SaveAndOpen(s.Title, s.Name, s.Write)
			} else {
				e.SaveFile(s.Title, s.Name, s.Write)
			}
		}
		key := strconv.Itoa(i + 1)
		list.Add(kit.NewButton(s.Title, save).WithKey(key))
		keys = append(keys, kit.Key{Name: key, Doc: s.Title, Do: save})
	}
	if note != "" {
		list.Add(kit.Small(note))
	}
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{Title: lang.L("What to save?"), Content: list, Keys: keys,
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc"))}})
	return sheet
}

// saveFolder is the preference that keeps the folder a file was last saved in.
const saveFolder = "files.folder"

// SaveFile asks for a folder and a name, and has write make the file's content
// away from the main goroutine. A file appears whole or not at all. name is a
// suggestion with its ending.
func (e *Env) SaveFile(title, name string, write func(io.Writer) error) *kit.FilePicker {
	return e.SaveThen(title, name, write, func(string) {})
}

// SaveAndOpen is SaveFile, and shows the file with the program that the computer
// has for it.
func (e *Env) SaveAndOpen(title, name string, write func(io.Writer) error) *kit.FilePicker {
	return e.SaveThen(title, name, write, func(path string) {
		if err := e.App.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
			e.Fail(fmt.Errorf("showing %s: %w", filepath.Base(path), err))
		}
	})
}

// SaveThen is SaveFile, and calls then with where the file is.
func (e *Env) SaveThen(title, name string, write func(io.Writer) error, then func(path string)) *kit.FilePicker {
	prefs := e.App.Preferences()
	o := kit.SaveOptions{
		Title: title, Name: name, Start: prefs.String(saveFolder),
		OnChosen: func(path string) { e.save(path, write, then) },
		OnLeft:   func(dir string) { prefs.SetString(saveFolder, dir) },
	}
	if e.AskWhere != nil {
		e.AskWhere(o)
		return nil
	}
	return kit.SaveAs(e.Main, e.Window, o)
}

// A file that takes no longer than this to write is written without a word.
const (
	aMoment = 300 * time.Millisecond
	moments = 2
)

// save writes a file away from the main goroutine. If it takes its time, it is shown how
// much is written, with a way to stop; nothing of it is left then.
func (e *Env) save(path string, write func(io.Writer) error, then func(path string)) {
	var written atomic.Int64
	var bar *kit.Progress
	var sheet *kit.Dialog
	ctx, stop := context.WithCancel(context.Background())
	passed := 0
	still := e.Every(aMoment, func() {
		if passed++; passed == moments {
			bar, sheet = kit.ShowProgress(e.Window, lang.L("Saving {{.File}}", map[string]any{"File": filepath.Base(path)}), stop)
		}
		if bar != nil {
			bar.Working(SizeWords(written.Load(), e.Units()))
		}
	})
	Try(e, func(run context.Context) error {
		defer context.AfterFunc(run, stop)()
		return writeWhole(ctx, path, func(w io.Writer) error { return write(counting{w, &written}) })
	}, func(err error) {
		still()
		stop()
		if sheet != nil {
			sheet.Close()
		}
		switch {
		case errors.Is(err, context.Canceled):
			e.Say(lang.L("Stopped. Nothing was saved."), false)
		case err != nil:
			e.Fail(fmt.Errorf("saving %s: %w", filepath.Base(path), err))
		default:
			e.Say(lang.L("Saved as {{.Path}}.", map[string]any{"Path": path}), false)
			then(path)
		}
	})
}

// counting counts what is written.
type counting struct {
	w io.Writer
	n *atomic.Int64
}

func (c counting) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.n.Add(int64(n))
	return n, err
}

// writeWhole writes beside path and puts the file in its place when it is done.
func writeWhole(ctx context.Context, path string, write func(io.Writer) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".saving-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if err := errors.Join(write(stopping{ctx, f}), f.Sync(), f.Close()); err != nil {
		return err
	}
	if err := os.Chmod(f.Name(), 0o644); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// stopping writes until a context ends.
type stopping struct {
	ctx context.Context
	w   io.Writer
}

func (s stopping) Write(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.w.Write(p)
}
