// Package words holds the catalogue of every word that the window shows. The
// key of an entry is the English itself; a second language is a second file.
package words

import (
	"embed"
	"encoding/json"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
)

//go:embed catalogue/*.json
var catalogue embed.FS

// Load makes the catalogue known to Fyne. Call it once, before the window is made.
func Load() error {
	files, err := catalogue.ReadDir("catalogue")
	if err != nil {
		return err
	}
	for _, f := range files {
		b, err := catalogue.ReadFile("catalogue/" + f.Name())
		if err != nil {
			return err
		}
		if b, err = listed(b); err != nil {
			return fmt.Errorf("reading %s: %w", f.Name(), err)
		}
		if err := lang.AddTranslations(fyne.NewStaticResource(f.Name(), b)); err != nil {
			return fmt.Errorf("reading %s: %w", f.Name(), err)
		}
	}
	return nil
}

// listed turns a catalogue into the form in which each entry tells its own key.
// In the other form some words, such as "few" and "other", cannot be keys: they
// name the plurals of a language.
func listed(b []byte) ([]byte, error) {
	var entries map[string]json.RawMessage
	if err := json.Unmarshal(b, &entries); err != nil {
		return nil, err
	}
	out := make([]map[string]string, 0, len(entries))
	for key, said := range entries {
		entry := map[string]string{}
		if err := json.Unmarshal(said, &entry); err != nil {
			var word string
			if err := json.Unmarshal(said, &word); err != nil {
				return nil, fmt.Errorf("%q: %w", key, err)
			}
			entry["other"] = word
		}
		entry["id"] = key
		out = append(out, entry)
	}
	return json.Marshal(out)
}
