// Package words holds the catalogue of every word that the window shows. The
// key of an entry is the English itself; a second language is a second file.
package words

import (
	"embed"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
)

//go:embed catalogue/*.json
var catalogue embed.FS

// Load makes the catalogue known to Fyne. Call it once, before the window is made.
func Load() error {
	files, err := catalogue.ReadDir(".")
	if err != nil {
		return err
	}
	for _, f := range files {
		b, err := catalogue.ReadFile(f.Name())
		if err != nil {
			return err
		}
		if err := lang.AddTranslations(fyne.NewStaticResource(f.Name(), b)); err != nil {
			return fmt.Errorf("reading %s: %w", f.Name(), err)
		}
	}
	return nil
}
