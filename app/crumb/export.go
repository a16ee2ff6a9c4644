package crumb

import (
	"image"
	"image/png"
	"io"
	"regexp"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal/crumb"
)

// savings lists what can be saved of a result; stem begins the files' names, and full
// is the photo's size.
func savings(stem string, r *crumb.Result, full image.Point) []pages.Saving {
	out := []pages.Saving{{Title: lang.L("The figures, as a table (CSV)"), Name: stem + "-figures.csv", Write: func(w io.Writer) error { return crumb.WriteMeasures(w, r.Summary) }}}
	if len(r.Outline) > 0 {
		out = append(out,
			pages.Saving{Title: lang.L("Every cell, as a table (CSV)"), Name: stem + "-cells.csv", Write: func(w io.Writer) error { return crumb.WriteCells(w, r) }},
			pages.Saving{Title: lang.L("The mask of the cells, as a picture (PNG)"), Name: stem + "-mask.png", Write: func(w io.Writer) error {
				return png.Encode(w, r.MaskOver(image.Rectangle{Max: full}))
			}})
		if r.Straightened {
			out = append(out, pages.Saving{Title: lang.L("The straightened picture (PNG)"), Name: stem + "-straight.png", Write: func(w io.Writer) error { return png.Encode(w, r.Picture()) }})
		}
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
	p.env.SaveOneOf(savings(fileStem(ownerName(p.env.Journal, p.asked)), p.picture.result, p.picture.full),
		lang.L("Figures that are withheld are left empty; doubtful ones say why."))
}
