package measure

import (
	"cmp"
	"math"
	"strings"
)

// symbols are how the money of a currency's code is written where it is the coin of the
// country (CLDR, from memory); other codes are written as they are.
var symbols = map[string]string{
	"GBP": "£", "EUR": "€", "USD": "$", "CAD": "$", "AUD": "$", "NZD": "$", "JPY": "¥", "CNY": "¥", "INR": "₹",
	"SEK": "kr", "NOK": "kr", "DKK": "kr", "ISK": "kr", "PLN": "zł", "CZK": "Kč", "HUF": "Ft",
}

// Money writes a price as the country of the units does: £25.40, $25.40, 25,40 €, 25,40 £.
// Where a comma parts the decimals the money comes after the number, as in most such
// countries (CLDR, from memory; Austria and the Netherlands put it before). The currency is
// what the baker wrote, a sign or a code; empty, it is the computer's.
func (u Units) Money(v float64, currency string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	sign := cmp.Or(strings.TrimSpace(currency), u.Currency)
	sign = cmp.Or(symbols[strings.ToUpper(sign)], sign)
	s := u.FixedNumber(math.Abs(v), 2)
	minus := ""
	if v < 0 && strings.Trim(s, "0.,") != "" {
		minus = "−"
	}
	switch {
	case sign == "":
		return minus + s
	case u.DecimalComma, strings.Contains(" kr zł Kč Ft ", " "+sign+" "):
		return minus + s + "\u00a0" + sign
	case strings.ContainsAny(sign, "£$€¥₹"):
		return minus + sign + s
	}
	return minus + sign + "\u00a0" + s
}
