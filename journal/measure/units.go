// Package measure reads, writes and says quantities, money and times as a baker has them:
// records keep grams, degrees Celsius, millimetres, millilitres and instants, and Units say
// how these are shown and typed. It knows no window.
package measure

import (
	"strings"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
)

// Units are the faces put on quantities that are kept in degrees Celsius, grams,
// millimetres and millilitres. The zero value is metric, with a 24 hour clock, the
// day before the month and a decimal point.
type Units struct {
	Fahrenheit   bool `json:"fahrenheit,omitempty"`
	Ounces       bool `json:"ounces,omitempty"` // ounces, inches and fluid ounces
	TwelveHour   bool `json:"twelveHour,omitempty"`
	MonthFirst   bool `json:"monthFirst,omitempty"`
	DecimalComma bool `json:"decimalComma,omitempty"`
	// DoughYield has the Teigausbeute of German-speaking bakers stand beside a dough's
	// hydration: what 100 of flour and its water weigh together.
	DoughYield bool `json:"doughYield,omitempty"`
	// Letter says that paper is US Letter and not A4.
	Letter bool `json:"letter,omitempty"`
	// Currency is the code of the money in use, such as "GBP"; empty where it is not known.
	Currency string `json:"currency,omitempty"`
}

// LocaleUnits gives the units usual where a locale such as "en-GB" or "de_AT.UTF-8"
// is spoken; what it does not know is metric. The lists follow the measurement, clock, paper
// and number data of the Unicode CLDR, from memory.
func LocaleUnits(locale string) Units {
	locale, _, _ = strings.Cut(locale, ".") // "en_US.UTF-8"
	tag, err := language.Parse(locale)
	if err != nil {
		return Units{}
	}
	base, _ := tag.Base()
	reg, _ := tag.Region()
	lang, region := base.String(), reg.String()
	coin := ""
	if money, ok := currency.FromRegion(reg); ok {
		coin = money.String()
	}
	return Units{
		Currency:     coin,
		Fahrenheit:   fahrenheitRegions[region],
		Ounces:       region == "US" || region == "PR",
		TwelveHour:   twelveHourRegions[region] && lang != "fr",
		MonthFirst:   monthFirstRegions[region],
		DoughYield:   lang == "de",
		Letter:       letterRegions[region],
		DecimalComma: (commaLanguages[lang] && !pointRegions[region]) || region == "ZA",
	}
}

var (
	letterRegions     = set("US", "PR", "CA", "MX", "BZ", "CL", "CO", "CR", "GT", "NI", "PA", "PH", "SV", "VE")
	fahrenheitRegions = set("US", "PR", "BS", "BZ", "KY", "PW", "FM", "MH", "GU", "VI", "AS", "MP", "LR")
	twelveHourRegions = set("US", "PR", "CA", "AU", "NZ", "IN", "PK", "BD", "PH", "MY", "EG", "SA", "JO", "CO", "MX", "KR", "SG", "HK")
	monthFirstRegions = set("US", "PR", "PH", "GU", "VI", "AS", "MP", "FM", "MH", "PW")
	pointRegions      = set("CH", "LI", "MX", "GT", "HN", "NI", "PA", "PR", "SV", "DO", "US", "CU", "PE")
	commaLanguages    = set("bg", "ca", "cs", "da", "de", "el", "es", "et", "eu", "fi", "fr", "gl", "hr", "hu", "id", "is",
		"it", "lt", "lv", "nb", "nl", "nn", "no", "pl", "pt", "ro", "ru", "sk", "sl", "sr", "sv", "tr", "uk", "vi")
)

func set(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}
