package measure_test

import (
	"strings"
	"testing"

	"twinloaf/journal/measure"
)

// As the Unicode CLDR's patterns for money have it (en-GB, en-IE, en-US, de, fr, sv, de-CH
// for the franc; from memory).
func TestMoneyIsWrittenAsItsCountryDoes(t *testing.T) {
	for _, c := range []struct {
		locale, currency string
		v                float64
		want             string
	}{
		{"en-GB", "", 25.4, "£25.40"},
		{"en-GB", "£", 25.4, "£25.40"},
		{"en-IE", "", 25.4, "€25.40"},
		{"en-US", "", 0.5, "$0.50"},
		{"de-DE", "", 25.4, "25,40 €"},
		{"de-DE", "€", 25.4, "25,40 €"},
		{"de-DE", "£", 55.34, "55,34 £"},
		{"de-DE", "USD", 55.34, "55,34 $"},
		{"en-GB", "EUR", 55.34, "€55.34"},
		{"fr-FR", "EUR", 3, "3,00 €"},
		{"sv-SE", "", 25.4, "25,40 kr"},
		{"de-CH", "", 25.4, "CHF 25.40"},
		{"en-GB", "kr", -1.5, "−1.50 kr"},
		{"", "", 25.4, "25.40"},
	} {
		if got := strings.ReplaceAll(measure.LocaleUnits(c.locale).Money(c.v, c.currency), "\u00a0", " "); got != c.want {
			t.Errorf("%v %q in %q: %q, want %q", c.v, c.currency, c.locale, got, c.want)
		}
	}
}
