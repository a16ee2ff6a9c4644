package jar

import (
	"fmt"

	"twinloaf/journal/say"
)

// Marks say where a jar is in the first picture of a series, in parts of the
// picture's width from the left and of its height from the top.
type Marks struct {
	Left  float64 `json:"left"`  // the inner sides of the jar
	Right float64 `json:"right"` // at the level
	// Bottom is where the dough begins, Level where it stood when it was fed, Top as
	// high as it can be seen.
	Bottom float64 `json:"bottom"`
	Level  float64 `json:"level"`
	Top    float64 `json:"top"`
}

// ErrMarks is wrapped by what is wrong with marks.
var ErrMarks = say.NewError("these lines lie too close together for a jar to be followed between them")

// Check says why the marks are no jar: sides from left to right, lines from the
// bottom up, each a little apart.
func (m Marks) Check() error {
	const apart = 0.01
	switch {
	case m.Left < 0 || m.Right > 1 || m.Right-m.Left < apart:
		return fmt.Errorf("%w: sides at %.3f and %.3f", ErrMarks, m.Left, m.Right)
	case m.Top < 0 || m.Bottom > 1 || m.Bottom-m.Level < apart || m.Level-m.Top < apart:
		return fmt.Errorf("%w: bottom at %.3f, level at %.3f, top at %.3f", ErrMarks, m.Bottom, m.Level, m.Top)
	}
	return nil
}

// Height is the place of a rise in the first picture, in parts of its height from
// the top: 1 is the level.
func (m Marks) Height(rise float64) float64 { return m.Bottom - rise*(m.Bottom-m.Level) }

// Rise is the rise at a place in the first picture.
func (m Marks) Rise(height float64) float64 { return (m.Bottom - height) / (m.Bottom - m.Level) }
