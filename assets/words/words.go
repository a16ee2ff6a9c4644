// Package words holds the catalogue of what the window says. The key of an entry is
// the English itself, so that English needs entries only for what is counted; a
// second language is a second file, with an entry for each line of go run ./cmd/words -all.
package words

import (
	"embed"

	"fyne.io/fyne/v2/lang"
)

//go:embed catalogue/*.json
var catalogue embed.FS

// Load makes the catalogue known to Fyne. Call it once, before the window is made.
func Load() error { return lang.AddTranslationsFS(catalogue, "catalogue") }
