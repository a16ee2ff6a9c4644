package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// named finds a colour by our own name or by Fyne's.
func (p Palette) named(name fyne.ThemeColorName) (color.Color, bool) {
	switch name {
	case ColorPaper, theme.ColorNameBackground:
		return p.Paper, true
	case ColorRaised, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground,
		theme.ColorNameInputBackground, theme.ColorNameHeaderBackground:
		return p.Raised, true
	case ColorInk, theme.ColorNameForeground:
		return p.Ink, true
	case ColorFaint, theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return p.Faint, true
	case ColorRule, theme.ColorNameSeparator, theme.ColorNameDisabledButton:
		return p.Rule, true
	case ColorEdge, theme.ColorNameInputBorder, theme.ColorNameScrollBar:
		return p.Edge, true
	case ColorCrust, ColorFocus, theme.ColorNameFocus, theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p.Crust, true
	case ColorOnCrust, theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return p.OnCrust, true
	case ColorField, theme.ColorNameSuccess:
		return p.Field, true
	case ColorEmber, theme.ColorNameError, theme.ColorNameWarning:
		return p.Ember, true
	case ColorNight:
		return p.Night, true
	case ColorVeil:
		return p.Veil, true
	case ColorWash, theme.ColorNameHover, theme.ColorNameButton:
		return p.Wash, true
	case theme.ColorNameSelection: // so light that faint text can still be read on it
		return withAlpha(p.Crust, 0x28), true
	case theme.ColorNamePressed:
		return withAlpha(p.Crust, 0x30), true
	case theme.ColorNameScrollBarBackground:
		return withAlpha(p.Rule, 0x60), true
	case theme.ColorNameShadow:
		// Fyne would draw it as a bar along a scroller's edge. What stands above a page has an
		// edge of its own instead.
		return withAlpha(p.Paper, 0), true
	case ColorDough:
		return p.Dough, true
	case ColorRest:
		return p.Rest, true
	}
	for i, c := range p.Series {
		if name == ColorSeries(i) {
			return c, true
		}
	}
	return nil, false
}

func withAlpha(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}
