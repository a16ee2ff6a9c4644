package kit

import (
	"os"
	"path/filepath"

	"fyne.io/fyne/v2/lang"
)

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
