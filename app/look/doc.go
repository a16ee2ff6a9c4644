// Package look is how Twinloaf appears: its colours in light and dark, its
// typefaces, its sizes and its spaces, as a Fyne theme.
//
// Widgets ask for a colour by name (theme.Color(look.ColorCrust)) each time they
// refresh, so that a change from light to dark reaches everything on screen.
// Sizes come from one scale (TextSmall to TextHeading) and distances from a grid
// of four points (Space).
package look
