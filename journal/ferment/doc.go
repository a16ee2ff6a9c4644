// Package ferment does the arithmetic of a living culture: what a feeding
// leaves, how fast it grows at a temperature, how high and how fast it rose,
// when it will be ripe next, whether it is ready to bake with, and how to build
// a given weight of it for a given hour.
//
// The package is pure. It opens no file, reads no clock and draws no random
// number: times are handed in, and what is measured comes as plain structs
// ([Feeding], [Reading], [TempPoint], put together in a [Course]).
//
// Published growth rates give only the shape of the answer. The yeasts of the
// papers are not the yeasts of every jar, so whatever rests on them is
// approximate and its result says so; the culture's own past feedings take
// over as they come in.
package ferment
