package journal

import (
	"cmp"
	"slices"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/jar"
)

// A Series is a row of pictures that a camera took by itself of one or two jars, from
// which comes the curve of what rises in them (see journal/jar). Its pictures are
// small photos that belong to it under [RoleFrame], one for each moment; of some the original
// as the camera wrote it is kept, too, a photo that belongs to its frame.
type Series struct {
	Head
	Name  string    `json:"name,omitzero"` // of the folder that they came from
	Added time.Time `json:"added"`
	From  time.Time `json:"from"` // when the first was taken
	// Ahead is by how much the camera's clock was ahead of the true time.
	Ahead time.Duration `json:"ahead,omitzero"`
	Jars  []SeriesJar   `json:"jars,omitempty"`
	// Whole says that every original is kept, not only some.
	Whole bool `json:"whole,omitzero"`
	// Folder and Files say what is to be read while some of it still waits.
	Folder string   `json:"folder,omitzero"`
	Files  []string `json:"files,omitempty"`
	// Refused are the files that could not be read, or were of another size than the first.
	Refused []string `json:"refused,omitempty"`
}

func (*Series) kind() Kind { return KindSeries }

// Reading says that some of its files may still wait to be read.
func (s *Series) Reading() bool { return len(s.Files) > 0 }

// A SeriesJar is one jar in the pictures of a series, and what is in it: the feeding of a
// culture, or the dough of a bake.
type SeriesJar struct {
	Culture ID `json:"culture,omitzero"`
	Feeding ID `json:"feeding,omitzero"`
	Bake    ID `json:"bake,omitzero"`
	// Sides and lines, on the first picture, as shares of its width from the left and of
	// its height from the top. Without them it was not said yet where the jar is.
	Left   float64 `json:"left,omitzero"`
	Right  float64 `json:"right,omitzero"`
	Bottom float64 `json:"bottom,omitzero"`
	Level  float64 `json:"level,omitzero"`
	Top    float64 `json:"top,omitzero"`
	// Known is a line at a height over the bottom that is known, KnownMM: both or neither.
	Known   float64  `json:"known,omitzero"`
	KnownMM *float64 `json:"knownMM,omitzero" limit:"length"`
	// Found says that the lines were found by the program and that the baker has not said
	// yet whether they lie right.
	Found bool `json:"found,omitzero"`
	// Drawn are heights that the baker drew.
	Drawn []DrawnRise    `json:"drawn,omitempty"`
	Rest  jsontext.Value `json:",embed"`
}

// A DrawnRise is how high it stood on one picture, as the baker drew it.
type DrawnRise struct {
	Photo ID             `json:"photo"`
	Rise  float64        `json:"rise" limit:"rise"`
	Rest  jsontext.Value `json:",embed"`
}

// Marks are where the jar is.
func (s SeriesJar) Marks() jar.Marks {
	return jar.Marks{Left: s.Left, Right: s.Right, Bottom: s.Bottom, Level: s.Level, Top: s.Top}
}

// SetMarks says where it is.
func (s *SeriesJar) SetMarks(m jar.Marks) {
	s.Left, s.Right, s.Bottom, s.Level, s.Top = m.Left, m.Right, m.Bottom, m.Level, m.Top
}

// Marked says that it is known where the jar is.
func (s SeriesJar) Marked() bool { return s.Marks().Check() == nil }

// LevelMM is how high the level lies over the bottom, in millimetres; false where no height
// is known.
func (s SeriesJar) LevelMM() (float64, bool) {
	if s.KnownMM == nil || !s.Marked() || !(s.Bottom-s.Known > 0.01) {
		return 0, false
	}
	return *s.KnownMM * (s.Bottom - s.Level) / (s.Bottom - s.Known), true
}

// Draw keeps a height drawn on a picture in place of an earlier one; a rise of 0 takes it
// away again.
func (s *SeriesJar) Draw(photo ID, rise float64) {
	s.Drawn = slices.DeleteFunc(s.Drawn, func(d DrawnRise) bool { return d.Photo == photo })
	if rise > 0 {
		s.Drawn = append(s.Drawn, DrawnRise{Photo: photo, Rise: rise})
	}
}

// TakenAt is the true time of one of its pictures: that of the camera less what its clock
// was ahead, or that of the file where the camera did not say.
func (s *Series) TakenAt(p *Photo) time.Time {
	if p.Taken.IsZero() {
		return p.When()
	}
	return p.Taken.Add(-s.Ahead)
}

// Frames are the pictures of a series in the order of their true times, of one moment one.
func Frames(r Reader, s *Series) ([]*Photo, error) {
	photos, err := Photos(r, s.ID)
	if err != nil {
		return nil, err
	}
	photos = slices.DeleteFunc(photos, func(p *Photo) bool { return p.Role != RoleFrame })
	slices.SortStableFunc(photos, func(a, b *Photo) int {
		return cmp.Or(s.TakenAt(a).Compare(s.TakenAt(b)), cmp.Compare(a.Name, b.Name))
	})
	return slices.CompactFunc(photos, func(a, b *Photo) bool { return s.TakenAt(a).Equal(s.TakenAt(b)) }), nil
}

// SeriesOf lists the series of a culture, a feeding or a bake, the earliest first.
func SeriesOf(r Reader, owner ID) ([]*Series, error) { return Linked[Series](r, owner) }
