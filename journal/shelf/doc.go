// Package shelf finds, counts, groups and orders bakes. It is handed rows and
// knows neither where they come from nor how they are shown.
//
// A [Shelf] is built once from its rows. Each part of a [Filter] then becomes a
// set of rows, one bit for each; what the whole filter lets through is what all
// of the sets hold, and what a choice beside the filter would leave is counted
// from the same sets without going through the filter again.
package shelf
