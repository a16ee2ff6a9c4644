package look_test

import (
	"image/color"
	"math"
)

// contrast is the contrast ratio of two opaque colours, from 1 (alike) to 21
// (black on white), as defined in the Web Content Accessibility Guidelines 2.2,
// W3C 2023, "contrast ratio" and "relative luminance". Text wants 4.5 or more.
func contrast(a, b color.Color) float64 {
	la, lb := luminance(a), luminance(b)
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

func luminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}
