// Package dough shows and edits what goes into a dough: the tables of its
// lines in grams and percent, its levains, what it comes to, how much of it, what
// allergens it holds, and the steps of its day. Formulas and plans both stand on
// it. What it edits lies behind a [Holder]; it keeps no copy.
package dough
