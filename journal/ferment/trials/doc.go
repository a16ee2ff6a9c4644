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
// The floor that stands beside each forecast is what somebody would be off by who knew the
// law, the culture and the kitchen. A learner, asked for by a flag since it takes some
// minutes, knows the law, and has to learn the rest from the same diary, without a
// thermometer. With three looks at each feeding of the fifth law's cultures it was off by
// 0.75, 0.75 and 0.53 of what the simple rules are off by after 0, 2 and 4 hours, where the
// forecast is off by 1.02, 1.02 and 0.97 of that; with eight looks by 0.92, 0.85 and 0.56, and
// the forecast by 0.99, 0.98 and 0.87. Chance moves these by 0.07 to 0.10; the learner's own
// intervals held 77 to 85 %. What is missing could be had by one who knows the law, then,
// though with eight looks hardly before the fourth hour. On the sixth law, with eight looks,
// it was off by 0.91, 0.81 and 0.61 and the forecast by 0.95, 0.89 and 0.79; there its
// intervals are too wide, with 92, 88 and 79 %, so that the normal approximation may cost it
// something.
//
// An interval may hold eight times in ten over many cultures and not over those of one law,
// whose days vary more or less than is usual: a diary tells that slowly. With 80 cultures for
// each row it holds 83 to 90 % in each of the fifth law with none, three or eight looks, which
// is too often. To stretch it by how the culture's earlier forecasts fared (conformal
// prediction) brought the rows of the last two laws in which it holds 76 to 84 % from 54 to 54
// to 60 of 96, with about 25 cultures in each, and no further than 68 if the true hours of the
// tops were told, so it was left out. Nor does anything else in a diary tell whose intervals
// are too wide: by quantile regression (Koenker & Bassett 1978, Econometrica 46:33) the spread
// that holds eight in ten was sought from how far off past tops were, how far readings lay off
// their curves and how much of the spread came of days, warmth and form, on five laws for the
// sixth, and then 75 to 130 of all 288 rows held 76 to 84 %, where 140 did without. With 24
// cultures chance alone leaves little more: stretched for each culture by how far off the very
// tops were that were foretold, which nobody can know before, they held in 219, and by one
// factor for each law in 221. To have the form of a rise change half as much from feeding to
// feeding took the error on the fourth law to 0.92 of what it was and what its intervals hold
// from 72 to 77 %, and made the fifth worse by 2 %, so that was left out, too. To take a
// quarter of the guess from a simple rule made the error over theirs worse, from 0.62 to 0.63
// and 0.66 in the geometric mean.
//
// That heights read at one moment count as one was asked for by pictures of
// jars of all six. One command prints the table:
//
//	go test -tags ci ./journal/ferment/trials -run TestTable -v -table
package trials
