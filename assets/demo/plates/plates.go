// Package plates holds the photos of the demonstration journal, drawn beforehand by
// cmd/demopictures and embedded as JPEG, with what is known of each because it was
// drawn: how wide a slice is, how far a jar has risen.
package plates

import (
	"embed"
	"encoding/json"
	"fmt"

	"twinloaf/journal"
)

// A Plate is one picture.
type Plate struct {
	File string       `json:"file"`
	Role journal.Role `json:"role"`
	Of   string       `json:"of"` // what it shows: a bread, a dough, a culture
	// Level tells apart the pictures of one thing: the score for openness of a cut
	// face, the rise of a jar, and else a number from 0.
	Level  float64 `json:"level"`
	Pixels [2]int  `json:"pixels"`          // across and down
	Width  *Width  `json:"width,omitempty"` // of a cut face
	// Open is the share of a cut face's crumb, three millimetres inside its contour and
	// deeper, at which the cut opened a bubble.
	Open float64 `json:"open,omitempty"`
	// Lines are the heights of the floor, of the band and of the culture now, of a jar.
	Lines *[3]float64 `json:"lines,omitempty"`
}

// A Width is how wide a slice is, as if a ruler had lain by: from one pixel to another
// of a row, and in millimetres.
type Width struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
	Row  float64 `json:"row"`
	MM   float64 `json:"mm"`
}

// Index is the name of the file that lists the plates beside their pictures.
const Index = "index.json"

//go:embed index.json *.jpg
var files embed.FS

// All gives every plate, in the order in which they were drawn.
func All() ([]Plate, error) {
	text, err := files.ReadFile(Index)
	if err != nil {
		return nil, err
	}
	var out []Plate
	if err := json.Unmarshal(text, &out); err != nil {
		return nil, fmt.Errorf("reading the list of the demonstration's pictures: %w", err)
	}
	return out, nil
}

// JPEG is the picture itself.
func (p Plate) JPEG() ([]byte, error) { return files.ReadFile(p.File) }
