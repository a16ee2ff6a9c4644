// Package assets holds what is built into the program: its typefaces and its icon.
//
// The typefaces are under the SIL Open Font License 1.1; each licence lies beside
// the files in the fonts folder.
package assets

import _ "embed"

// The typefaces, as TrueType files. Text is set in Atkinson Hyperlegible Next, whose
// figures all have one width; headings are set in Fraunces.
var (
	//go:embed fonts/AtkinsonHyperlegibleNext-Regular.ttf
	TextRegular []byte
	//go:embed fonts/AtkinsonHyperlegibleNext-Italic.ttf
	TextItalic []byte
	//go:embed fonts/AtkinsonHyperlegibleNext-SemiBold.ttf
	TextBold []byte
	//go:embed fonts/AtkinsonHyperlegibleNext-SemiBoldItalic.ttf
	TextBoldItalic []byte
	//go:embed fonts/Fraunces-SemiBold.ttf
	Heading []byte
)

// Icon is the program's own drawing, two loaves side by side, as SVG.
//
//go:embed icon.svg
var Icon []byte
