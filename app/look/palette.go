package look

import "image/color"

// Palette holds every colour of one variant. Text colours (Ink, Faint, Crust,
// Field, Ember) reach a contrast of at least 4.5 to 1 on Paper and on Raised.
type Palette struct {
	Paper   color.NRGBA // the page
	Raised  color.NRGBA // sheets, menus, keys: a step above the page
	Ink     color.NRGBA // text
	Faint   color.NRGBA // text that stands back: labels, origins, units
	Rule    color.NRGBA // thin lines
	Edge    color.NRGBA // outlines of things that can be pressed
	Crust   color.NRGBA // the main action, links, what is chosen
	OnCrust color.NRGBA // text on Crust
	Field   color.NRGBA // good, ready
	Ember   color.NRGBA // needs you
	Night   color.NRGBA // the night hours behind a time line
	Veil    color.NRGBA // over a page that a dialog lies on
	Wash    color.NRGBA // a light stain of crust: hover, selection, bands
	Dough   color.NRGBA // a dough at work
	Rest    color.NRGBA // a dough resting in the cold
	// Series are for data, in this order. They are the colours of Okabe and Ito,
	// "Color Universal Design" (2008), made to be told apart by colour-blind
	// readers; the dark variant lightens the two darkest.
	Series [6]color.NRGBA
}

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff}
}

// Light is the palette of day: ink on floury paper.
func Light() Palette {
	return Palette{
		Paper:   rgb(0xFBF7EF),
		Raised:  rgb(0xFFFFFF),
		Ink:     rgb(0x2A211A),
		Faint:   rgb(0x6B5E50),
		Rule:    rgb(0xE4DACA),
		Edge:    rgb(0x948168),
		Crust:   rgb(0x9A4F1C),
		OnCrust: rgb(0xFFFFFF),
		Field:   rgb(0x4F6B2F),
		Ember:   rgb(0xB3341E),
		Night:   rgb(0xEFE9DF),
		Veil:    withAlpha(rgb(0x2A211A), 0x38),
		Wash:    rgb(0xF3E6D6),
		Dough:   rgb(0xE0B486),
		Rest:    rgb(0xBCD0E0),
		Series: [6]color.NRGBA{
			rgb(0x0072B2), rgb(0xD55E00), rgb(0x009E73),
			rgb(0xCC79A7), rgb(0x56B4E9), rgb(0xE69F00),
		},
	}
}

// Dark is the palette of the early morning: warm light on a dark bench.
func Dark() Palette {
	return Palette{
		Paper:   rgb(0x1E1A16),
		Raised:  rgb(0x28231D),
		Ink:     rgb(0xF1E9DB),
		Faint:   rgb(0xB4A692),
		Rule:    rgb(0x3B342B),
		Edge:    rgb(0x82766A),
		Crust:   rgb(0xE0975A),
		OnCrust: rgb(0x241609),
		Field:   rgb(0xA3BE78),
		Ember:   rgb(0xF08A72),
		Night:   rgb(0x171411),
		Veil:    withAlpha(rgb(0x0C0A08), 0xA0), // darker than the page: what is light stands above
		Wash:    rgb(0x3A2C20),
		Dough:   rgb(0x8A6238),
		Rest:    rgb(0x3F5566),
		Series: [6]color.NRGBA{
			rgb(0x5AAEE0), rgb(0xF0803C), rgb(0x3CC79C),
			rgb(0xDDA0C2), rgb(0x8CCDF2), rgb(0xF0B840),
		},
	}
}
