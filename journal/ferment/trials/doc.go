// Package trials puts the forecasts of journal/ferment to the test on made-up
// cultures that live by other laws than the forecasts assume, beside simpler
// rules that a baker could reckon with.
//
// Nothing here is taken for how a real culture behaves. The laws differ from each
// other and from the forecast's on purpose: what holds on all of them may hold
// in a jar. What a forecast takes for granted was set on the first four laws; nothing was
// set on the last two, which judge the rest: a third form of a rise, flat before it gives
// way, was dropped because of them (with three looks and a log it took the fourth law from
// 0.93 to 0.46 of the simple rule, and the fifth from 0.64 to 1.29). That a culture's days are
// like the days before was thought of with the sixth law in sight, and kept for what it did on the
// first four.
//
// The floor that stands beside each forecast is what somebody would be off by who knew the law,
// the culture and the kitchen. An interval may hold eight times of ten over
// many cultures and not over those of one law, whose days vary more or less than is usual: a
// diary tells that slowly. To stretch it by how the culture's earlier forecasts fared
// (conformal prediction) brought the rows of the last two laws in which it holds 76 to 84 % from
// 54 to 54 to 60 of 96, with about 25 cultures in each, and no further than 68 if the true
// hours of the tops were told, so it was left out. To take a quarter of the guess from a simple rule
// made the error over theirs worse, from 0.62 to 0.63 and 0.66 in the geometric mean.
//
// That heights read at one moment count as one was asked for by pictures of
// jars of all six. One command prints the table:
//
//	go test -tags ci ./journal/ferment/trials -run TestTable -v -table
package trials
