package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"twinloaf/assets"
)

// Mode says which palette is used.
type Mode int

const (
	FollowSystem Mode = iota // light or dark as the desktop is
	AlwaysLight
	AlwaysDark
)

// Theme is Twinloaf's Fyne theme. Make one with New; it is safe for concurrent use.
type Theme struct {
	mode        Mode
	light, dark Palette
}

// New makes the theme for a mode. To change the mode of a running program, set a
// new theme: app.Settings().SetTheme(look.New(look.AlwaysDark)).
func New(mode Mode) *Theme {
	return &Theme{mode: mode, light: Light(), dark: Dark()}
}

// Mode gives the mode the theme was made with.
func (t *Theme) Mode() Mode { return t.mode }

// Palette gives the colours in use when the desktop asks for the given variant.
func (t *Theme) Palette(v fyne.ThemeVariant) Palette {
	if t.isDark(v) {
		return t.dark
	}
	return t.light
}

// isDark says whether the dark palette is used when the desktop asks for v.
func (t *Theme) isDark(v fyne.ThemeVariant) bool {
	switch t.mode {
	case AlwaysLight:
		return false
	case AlwaysDark:
		return true
	}
	return v == theme.VariantDark
}

// Current gives the palette in use now, for what is drawn outside Fyne, such as a
// chart. Dark reports which one it is. Without a running app it is the light one.
func Current() (p Palette, dark bool) {
	app := fyne.CurrentApp()
	if app == nil {
		return Light(), false
	}
	v := app.Settings().ThemeVariant()
	if t, ok := app.Settings().Theme().(*Theme); ok {
		return t.Palette(v), t.isDark(v)
	}
	if v == theme.VariantDark {
		return Dark(), true
	}
	return Light(), false
}

// Color gives the colour for one of our own names or of Fyne's.
func (t *Theme) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	dark := t.isDark(v)
	if c, ok := t.Palette(v).named(name); ok {
		return c
	}
	base := theme.VariantLight
	if dark {
		base = theme.VariantDark
	}
	return theme.DefaultTheme().Color(name, base)
}

// Icon gives Fyne's own icon: the few we use are drawn in the text colour.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	return theme.DefaultTheme().Icon(name)
}

// Size keeps Fyne's widgets on our grid and scale.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return TextBody
	case theme.SizeNameCaptionText:
		return TextSmall
	case theme.SizeNameSubHeadingText:
		return TextLarge
	case theme.SizeNameHeadingText:
		return TextTitle
	case theme.SizeNamePadding, theme.SizeNameLineSpacing:
		return Space(1)
	case theme.SizeNameInnerPadding:
		return Space(2)
	case theme.SizeNameInputBorder, theme.SizeNameSeparatorThickness:
		return 1
	case theme.SizeNameInputRadius:
		return Radius
	case theme.SizeNameSelectionRadius:
		return Space(1)
	case theme.SizeNameScrollBar:
		return Space(2)
	case theme.SizeNameScrollBarSmall:
		return Space(1)
	}
	return theme.DefaultTheme().Size(name)
}

var (
	textRegular    = fyne.NewStaticResource("TwinloafText-Regular.ttf", assets.TextRegular)
	textItalic     = fyne.NewStaticResource("TwinloafText-Italic.ttf", assets.TextItalic)
	textBold       = fyne.NewStaticResource("TwinloafText-SemiBold.ttf", assets.TextBold)
	textBoldItalic = fyne.NewStaticResource("TwinloafText-SemiBoldItalic.ttf", assets.TextBoldItalic)
	heading        = fyne.NewStaticResource("TwinloafHeading.ttf", assets.Heading)
	headingCount   = fyne.NewStaticResource("TwinloafHeadingCount.ttf", assets.HeadingCount)
	code           = fyne.NewStaticResource("AtkinsonHyperlegibleNext-Regular.ttf", assets.Code)
	icon           = fyne.NewStaticResource("twinloaf.png", assets.Icon)
)

// Font gives the text face. Fyne's symbol and monospace faces are kept.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace, s.Symbol:
		return theme.DefaultTheme().Font(s)
	case s.Bold && s.Italic:
		return textBoldItalic
	case s.Bold:
		return textBold
	case s.Italic:
		return textItalic
	}
	return textRegular
}

// Serif is the face of headings and great figures, for a text's FontSource.
func Serif() fyne.Resource { return heading }

// SerifCount is the same face with digits of one width, for what counts down.
func SerifCount() fyne.Resource { return headingCount }

// Code is the text face with a slashed zero, for digits that are compared one by one.
func Code() fyne.Resource { return code }

// AppIcon is the program's icon.
func AppIcon() fyne.Resource { return icon }

// ChartFaces gives the text face, regular and bold, as TrueType files for what is
// drawn outside Fyne.
func ChartFaces() (regular, bold []byte) { return assets.TextRegular, assets.TextBold }
