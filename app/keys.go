package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
)

// everywhere are the keys that work on every page.
func (w *window) everywhere() []kit.Key {
	keys := []kit.Key{
		{Name: "Ctrl+K", Doc: lang.L("Find anything"), Do: w.find},
		{Name: "Ctrl+Z", Doc: lang.L("Undo"), Do: w.undo},
		{Name: "Shift+Ctrl+Z", Doc: lang.L("Redo"), Do: w.redo},
		{Name: "Ctrl+Y", Doc: lang.L("Redo"), Do: w.redo, Hidden: true},
		{Name: "Alt+Left", Doc: lang.L("Back"), Do: w.back},
		{Name: "Alt+Right", Doc: lang.L("Forward"), Do: w.forward},
		{Name: "F1", Doc: lang.L("Every key"), Do: w.listKeys},
		{Name: "?", Doc: lang.L("Every key"), Do: w.listKeys, Hidden: true},
		{Name: "Ctrl+Q", Doc: lang.L("Close"), Do: w.Close, Always: true},
		{Name: "Ctrl+Plus", Doc: lang.L("Larger text"), Do: func() { w.stepTextSize(1) }, Always: true},
		{Name: "Ctrl+Equal", Do: func() { w.stepTextSize(1) }, Always: true, Hidden: true},
		{Name: "Shift+Ctrl+Equal", Do: func() { w.stepTextSize(1) }, Always: true, Hidden: true},
		{Name: "Shift+Ctrl+Plus", Do: func() { w.stepTextSize(1) }, Always: true, Hidden: true},
		{Name: "Ctrl+Minus", Doc: lang.L("Smaller text"), Do: func() { w.stepTextSize(-1) }, Always: true},
		{Name: "Ctrl+0", Doc: lang.L("Text as large as usual"), Do: func() { w.stepTextSize(0) }, Always: true},
		{Name: "Ctrl+Enter", Doc: lang.L("Do what the main button of a sheet says"), Always: true, Do: func() { kit.SubmitDialog(w.win.Canvas()) }},
		{Name: "Ctrl+V", Doc: lang.L("Paste pictures"), Do: w.paste, Hidden: true},
	}
	for _, key := range []struct {
		name string
		key  fyne.KeyName
	}{{"Page down", fyne.KeyPageDown}, {"Page up", fyne.KeyPageUp}, {"Down", fyne.KeyDown}, {"Up", fyne.KeyUp}, {"Home", fyne.KeyHome}, {"End", fyne.KeyEnd}} {
		keys = append(keys, kit.Key{Name: key.name, Do: func() { w.scroll(key.key) }, Hidden: true})
	}
	for i, d := range doors() {
		keys = append(keys, kit.Key{
			Name: "Ctrl+" + string(rune('1'+i)), Doc: d.word(),
			Do: func() { w.Go(pages.Route{Name: d.name}) },
		})
	}
	return keys
}
