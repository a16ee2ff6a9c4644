// Package licences tells under which terms that stands which others made and which is part of
// the program: libraries, typefaces, decoders. The list is made by go run ./cmd/licences.
package licences

import (
	_ "embed"
	"encoding/json"
	"fmt"
)

// A Part is something that others made.
type Part struct {
	Name    string `json:"name"` // a module's path, or a typeface's name
	Version string `json:"version,omitempty"`
	Licence string `json:"licence"` // as SPDX names it: "MIT", "BSD-3-Clause"
	Text    int    `json:"text"`    // which of the texts
}

// A List is every part with the texts of their licences.
type List struct {
	Parts []Part   `json:"parts"`
	Texts []string `json:"texts"`
}

// Of gives the text that a part stands under.
func (l List) Of(p Part) string { return l.Texts[p.Text] }

//go:embed licences.json
var made []byte

// Read gives the list that the program carries.
func Read() (List, error) {
	var l List
	if err := json.Unmarshal(made, &l); err != nil {
		return List{}, fmt.Errorf("reading the licences: %w", err)
	}
	for _, p := range l.Parts {
		if p.Text < 0 || p.Text >= len(l.Texts) {
			return List{}, fmt.Errorf("reading the licences: %s has no text", p.Name)
		}
	}
	return l, nil
}
