package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/crumb"
)

// A Photo is a picture that belongs to a bake, a culture, a reading, a series or a frame of one.
// Its original lies in photos/ under its hash; several photos may share one.
type Photo struct {
	Head
	Owner Ref `json:"owner"`
	// Hash is the SHA-256 of the original file, in lower-case hexadecimal.
	Hash   string    `json:"hash"`
	Bytes  int64     `json:"bytes"`
	Format string    `json:"format"` // JPEG, PNG, WebP, HEIC
	Width  int       `json:"w"`      // upright, in pixels
	Height int       `json:"h"`
	Name   string    `json:"name,omitzero"` // of the file it came from
	Taken  time.Time `json:"taken,omitzero"`
	// Filed is when its file was last written, of a frame of a series that says nothing else.
	Filed   time.Time `json:"filed,omitzero"`
	Added   time.Time `json:"added"`
	Role    Role      `json:"role,omitzero"`
	Caption string    `json:"caption,omitzero"`
	// Slice is what the baker said of the cut face, for measuring its crumb.
	Slice *Slice `json:"slice,omitzero"`
}

func (*Photo) kind() Kind { return KindPhoto }

// When is when the photo was taken, or else its file written, or else added.
func (p *Photo) When() time.Time {
	switch {
	case !p.Taken.IsZero():
		return p.Taken
	case !p.Filed.IsZero():
		return p.Filed
	}
	return p.Added
}

// A Role says what a photo shows.
type Role string

// The roles of a photo.
const (
	RoleOther Role = ""
	RoleDough Role = "dough"
	RoleCrust Role = "crust"
	RoleCrumb Role = "crumb"
	RoleJar   Role = "jar"
	RoleFrame Role = "frame" // a small picture of a series
)

// A Slice is a cut face on a photo: where it is, how long a known length is,
// and how sensitively to look. Places are in pixels of the upright picture.
type Slice struct {
	Outline []Spot `json:"outline,omitempty"`
	Drawn   bool   `json:"drawn,omitzero"` // by hand, rather than found
	// CrumbOnly says that the outline lies within the crumb: no crust is left out.
	CrumbOnly bool `json:"crumbOnly,omitzero"`
	// From, To and LengthMM give the scale: the true length between two spots, or,
	// where they are the same, of the slice from its left to its right.
	From     Spot    `json:"from,omitzero"`
	To       Spot    `json:"to,omitzero"`
	LengthMM float64 `json:"lengthMM,omitzero" limit:"length"`
	// Corners are the four of a rectangle that lies with the slice, one after another, and
	// WideMM and HighMM the true lengths of its side from the first to the second and of the next. They
	// give the scale in place of LengthMM, and take out the tilt.
	Corners     []Spot  `json:"corners,omitempty"`
	WideMM      float64 `json:"wideMM,omitzero" limit:"length"`
	HighMM      float64 `json:"highMM,omitzero" limit:"length"`
	Sensitivity float64 `json:"sensitivity,omitzero"` // -1 to 1
	// LargeFromMM is how wide a cell counts as large; 0 as the program has it.
	LargeFromMM float64 `json:"largeFromMM,omitzero" limit:"length"`
	// Strokes are corrections of the cells, in the order in which they were made.
	Strokes []CellStroke `json:"strokes,omitempty"`
	// Same names the photo of the same slice of which this is a retake.
	Same ID             `json:"same,omitzero"`
	Rest jsontext.Value `json:",embed"`
}

// A CellStroke is one correction of the cells of a crumb by hand.
type CellStroke struct {
	// Do is what it does: erase, join, cut or paint. What it does not know, the program
	// passes over.
	Do   crumb.CorrectionKind `json:"do"`
	Path []Spot               `json:"path"`
	Rest jsontext.Value       `json:",embed"`
}

// A Spot is a place on a picture, in pixels from its upper left corner.
type Spot struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}
