// Package bulk foretells when the bulk fermentation of a dough will be over: when it has
// risen as far as the baker lets it rise before shaping.
//
// What is learned from is what bakers write down: how warm the dough was, how much of its
// flour came in with the levain, salt and whole grain, how far it had risen at some hours,
// when it was shaped, and how the bread was judged. The rise over the start grows like a
// power of thermal time,
//
//	ln(rise - 1) = a + p ln(θ) + effects of inoculation, salt, whole grain and warmth
//	               + those of its culture and its style + its own,
//
// where θ is the hours since mixing, each counted at the pace of yeast at its temperature.
// That is a linear mixed model: effects common to all doughs, random ones of each culture
// and dough (intercept and slope), by Laird & Ware 1982, Biometrics 38:963. All of it has
// beliefs before it, and so have how far the baker lets a dough rise and how warm one is
// that nobody measured: our own guesses from common practice, no source. So it tells
// something of the first dough; the spread of the doughs is learned by expectation and
// maximisation (Dempster, Laird & Rubin 1977, J R Stat Soc B 39:1).
//
// The power law is a shape that fits and no law of fermentation. What is said of a time
// is approximate, and its interval is made to hold it eight times in ten.
//
// The package is pure: it opens no file, reads no clock and draws no random number.
package bulk
