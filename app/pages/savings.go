package pages

import (
	"io"
	"strconv"

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
