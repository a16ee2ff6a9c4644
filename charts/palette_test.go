package charts

import "image/color"

// LightPalette is ink on warm paper. The series colours are those of Okabe and
// Ito, "Color Universal Design" (2008), which stay apart for colour-blind eyes.
func LightPalette() Palette {
	return Palette{
		Paper:  rgb(0xFBF7EF),
		Ink:    rgb(0x2A211A),
		Faint:  rgb(0x6B5E50),
		Rule:   rgb(0xE4DACA),
		Accent: rgb(0x9A4F1C),
		Series: []color.NRGBA{rgb(0x0072B2), rgb(0xD55E00), rgb(0x009E73), rgb(0xCC79A7), rgb(0x56B4E9), rgb(0xE69F00)},
	}
}

// DarkPalette is the same set lightened for dark paper.
func DarkPalette() Palette {
	return Palette{
		Paper:  rgb(0x1E1A16),
		Ink:    rgb(0xF1E9DB),
		Faint:  rgb(0xB4A692),
		Rule:   rgb(0x3B342B),
		Accent: rgb(0xE0975A),
		Series: []color.NRGBA{rgb(0x4AA8E0), rgb(0xF58A42), rgb(0x35C495), rgb(0xE39CC4), rgb(0x9AD4F5), rgb(0xF2BE4E)},
	}
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}
