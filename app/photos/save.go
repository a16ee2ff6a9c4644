package photos

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/photo"
)

// save asks in which of two ways the photo leaves the journal: without what tells
// where and with what it was taken, or whole.
func (p *photoPage) save() {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	var sheet *kit.Dialog
	save := func(write func(io.Writer) error) func() {
		return func() {
			sheet.Close()
			p.env.SaveFile(lang.L("Save the photo"), fileName(ph), write)
		}
	}
	stripped, whole := save(func(w io.Writer) error { return writeStripped(p.env.Journal, ph, w) }),
		save(func(w io.Writer) error { return writeOriginal(p.env.Journal, ph, w) })
	sheet = kit.ShowDialog(p.env.Window, kit.DialogOptions{
		Title: lang.L("Save the photo"), OnEnter: stripped,
		Content: kit.Stack(3,
			kit.Body(lang.L("Without place and camera, the file no longer says where it was taken, with what and by whom. The picture itself stays as sharp, and when it was taken stays.")),
			kit.Body(lang.L("The original is the file as you added it, with all that it tells."))),
		Buttons: []fyne.CanvasObject{
			kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc")),
			kit.NewButton(lang.L("Save the original"), whole),
			kit.PrimaryButton(lang.L("Save without place and camera"), stripped).WithKey(lang.L("Enter")),
		},
		Width: 640,
	})
}

// fileName suggests the name that the photo came with, with the ending that it should
// have.
func fileName(ph *journal.Photo) string {
	name := strings.TrimSuffix(ph.Name, filepath.Ext(ph.Name))
	ending := filepath.Ext(ph.Name)
	for _, f := range []photo.Format{photo.JPEG, photo.PNG, photo.WebP, photo.HEIC} {
		if f.String() == ph.Format {
			ending = f.Ext()
		}
	}
	return pages.FileName(name, lang.L("photo"), ending)
}

func writeStripped(j *journal.Journal, ph *journal.Photo, w io.Writer) error {
	r, _, err := j.OpenOriginal(ph.Hash)
	if err != nil {
		return err
	}
	defer r.Close()
	return photo.Strip(w, ph.Name, r, photo.Limits{})
}

func writeOriginal(j *journal.Journal, ph *journal.Photo, w io.Writer) error {
	r, _, err := j.OpenOriginal(ph.Hash)
	if err != nil {
		return err
	}
	defer r.Close()
	if _, err := io.Copy(w, r); err != nil {
		return fmt.Errorf("copying %s: %w", ph.Name, err)
	}
	return nil
}
