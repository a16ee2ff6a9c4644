// Package assets holds what is built into the program: its typefaces and its icon.
//
// The typefaces are under the SIL Open Font License 1.1; each licence lies beside
// the files in the fonts folder.
package assets

import _ "embed"

// The typefaces, as TrueType files, made by fonts/faces.py from Atkinson Hyperlegible
// Next (text) and Fraunces (headings). All digits of the text faces and of HeadingCount
// have one width; the zero of Code is slashed.
var (
	//go:embed fonts/TwinloafText-Regular.ttf
	TextRegular []byte
	//go:embed fonts/TwinloafText-Italic.ttf
	TextItalic []byte
	//go:embed fonts/TwinloafText-SemiBold.ttf
	TextBold []byte
	//go:embed fonts/TwinloafText-SemiBoldItalic.ttf
	TextBoldItalic []byte
	//go:embed fonts/TwinloafHeading.ttf
	Heading []byte
	//go:embed fonts/TwinloafHeadingCount.ttf
	HeadingCount []byte
	//go:embed fonts/original/AtkinsonHyperlegibleNext-Regular.ttf
	Code []byte
)

// Icon is the program's own drawing, two loaves side by side: icon.svg as PNG, since a
// window would draw the SVG anew at each start.
//
//go:embed icon.png
var Icon []byte
