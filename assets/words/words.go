// Package words holds the catalogue of every word that the window shows. The
// key of an entry is the English itself; a second language is a second file.
package words

import (
	"embed"

	"fyne.io/fyne/v2/lang"
)

//go:embed catalogue/*.json
var catalogue embed.FS

// Load makes the catalogue known to Fyne. Call it once, before the window is made.
func Load() error { return lang.AddTranslationsFS(catalogue, "catalogue") }
