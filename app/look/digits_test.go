package look_test

import (
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"twinloaf/assets"
)

// Columns of figures line up, and a countdown does not tremble, only if all digits
// are of one width.
func TestDigitsOfTextAndOfCountsAreOfOneWidth(t *testing.T) {
	for name, file := range map[string][]byte{
		"regular": assets.TextRegular, "italic": assets.TextItalic, "bold": assets.TextBold,
		"bold italic": assets.TextBoldItalic, "count": assets.HeadingCount,
	} {
		parsed, err := opentype.Parse(file)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: 100, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		zero, _ := face.GlyphAdvance('0')
		for d := '1'; d <= '9'; d++ {
			if w, ok := face.GlyphAdvance(d); !ok || w != zero {
				t.Errorf("%s: %c is %v wide, the zero %v", name, d, w, zero)
			}
			if face.Kern('1', d) != 0 || face.Kern(d, '7') != 0 {
				t.Errorf("%s: %c is kerned to another digit", name, d)
			}
		}
	}
}
