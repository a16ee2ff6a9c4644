// Package formula does the arithmetic a baker does before mixing: baker's
// percentages and scaling, the levain built beforehand, the water temperature
// that gives the wanted dough temperature, how much water flours want, the dough
// that a tin takes, flour types by ash, and the allergens that the names of
// ingredients give away.
//
// It is pure: numbers go in, numbers come out. It opens no file, reads no
// clock and draws no random number.
//
// # What is 100 percent, and where the culture belongs
//
// A baker's percentage is a weight per hundred of flour. In print the seed
// culture is treated in three ways: its flour and water are counted with the
// rest; it is a line of its own and counted with neither; or all of a levain,
// its fresh flour included, is left out of the flour. Ours is the first. A
// culture is flour and water in the proportion its hydration says, so 100
// percent is all the flour in the dough: what is weighed for the final dough,
// what is weighed for its levains, and what the seed cultures bring with them.
// Water is counted in the same way.
//
// Because many formulas are written the second way, every percentage can also
// be had with the cultures left out ([WithoutCulture]): then 100 percent is
// the flour that was weighed as flour, be it for the dough or for a levain,
// and a culture is a line beside it. [Metrics] holds the hydration by both.
//
// Inoculation is the one figure that always looks at one bowl: culture or ripe
// levain per hundred of the fresh flour it is put with.
//
// Seeds and the water they are soaked in stay out of hydration, unless the
// line of soaking water says that it counts ([Ingredient.Counts]).
package formula
