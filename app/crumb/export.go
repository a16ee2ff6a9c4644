package crumb

import (
	"image"
	"image/png"
	"io"
	"regexp"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/crumb"
)

// A saving is one thing that can be saved of what was measured.
type saving struct {
	title, name string
	write       func(io.Writer) error
}

// savings lists what can be saved of a result; stem begins the files' names, and full
// is the photo's size.
func savings(stem string, r *crumb.Result, full image.Point) []saving {
	out := []saving{{lang.L("The figures, as a table (CSV)"), stem + "-figures.csv", func(w io.Writer) error { return crumb.WriteMeasures(w, r.Summary) }}}
	if len(r.Outline) > 0 {
		out = append(out,
			saving{lang.L("Every cell, as a table (CSV)"), stem + "-cells.csv", func(w io.Writer) error { return crumb.WriteCells(w, r) }},
			saving{lang.L("The mask of the cells, as a picture (PNG)"), stem + "-mask.png", func(w io.Writer) error {
				return png.Encode(w, r.MaskOver(image.Rectangle{Max: full}))
			}})
	}
	return out
}

var notInNames = regexp.MustCompile(`[^\pL\pN]+`)

// fileStem makes a file's name of what a bake is called.
func fileStem(name string) string {
	if s := strings.Trim(notInNames.ReplaceAllString(strings.ToLower(name), "-"), "-"); s != "" {
		return s + "-crumb"
	}
	return "crumb"
}

// export asks what to save.
func (p *measurePage) export() {
	if p.picture.result == nil && p.summary != nil && p.broken == nil {
		// The figures were kept, the cells are still being found.
		p.saveNext = true
		p.told.SetText(lang.L("The cells are being found; then you are asked what to save."))
		return
	}
	p.saveNext = false
	if p.picture.result == nil || p.asked == nil {
		p.env.Say(lang.L("There is nothing to save yet: the crumb is not measured."), false)
		return
	}
	all := savings(fileStem(ownerName(p.env.Journal, p.asked)), p.picture.result, p.picture.full)
	var sheet *kit.Sheet
	list := kit.Stack(2)
	var keys []kit.Key
	for i, s := range all {
		save := func() {
			sheet.Close()
			p.env.SaveFile(s.title, s.name, s.write)
		}
		key := string(rune('1' + i))
		list.Add(kit.NewButton(s.title, save).WithKey(key))
		keys = append(keys, kit.Key{Name: key, Doc: s.title, Do: save})
	}
	list.Add(kit.Small(lang.L("Figures that are withheld are left empty; doubtful ones say why.")))
	sheet = kit.ShowSheet(p.env.Window, kit.SheetOptions{Title: lang.L("What to save?"), Content: list, Keys: keys,
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc"))}})
}
