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
// forecast is off by 0.91, 0.90 and 0.88 of that; with eight looks by 0.92, 0.85 and 0.56, and
// the forecast by 0.96, 1.00 and 0.87; with none by 1.03, and the forecast by 1.00. Chance moves
// these by 0.07 to 0.10; the learner's own intervals held 77 to 85 %. What is missing could be
// had by one who knows the law, then, though with eight looks hardly before the fourth hour. On
// the sixth law, with eight looks, it was off by 0.91, 0.81 and 0.61 and the forecast by 0.90,
// 0.90 and 0.75; there its intervals are too wide, with 92, 88 and 79 %, so that the normal
// approximation may cost it something.
//
// What helped was to look for what the forecast was off by on all of the first four laws alike:
// feedings of another ratio than the culture's usual one, and such as came after two days. With
// the time to the top depending on both as it does now (see PeakHours, in journal/ferment) the
// error two hours after a feeding is smaller by 5 % in the middle and 6 % in the mean, on those
// laws as on the two that judge (there by 0.5 % more or less).
//
// An interval may hold eight times in ten over many cultures and not over those of one law,
// whose days vary more or less than is usual: a diary tells that slowly. Two hours after a feeding,
// with 80 cultures for each row, it holds 81 to 90 % of the fifth law's tops and 74 to 88 % of the
// sixth's: of these 32 rows 17 hold 76 to 84 %, where 20 did before the above, with intervals that
// scored worse by 8 % (width and misses taken together; Gneiting & Raftery 2007, J Am Stat Assoc
// 102:359). Were each right in truth, chance alone would keep one from it, and five with 24
// cultures, since those of one law differ (in the share that is held by 0.09 to 0.23). By way of keeping a diary, whatever the law, it holds 77 to 86 % on the
// first four. Before the above was done, to stretch it by how the culture's earlier forecasts
// fared (conformal prediction) brought the rows of the last two laws in which it holds 76 to
// 84 % from 54 to 54 to 60 of 96, with about 25 cultures in each, and no further than 68 if the
// true hours of the tops were told; and by quantile regression (Koenker & Bassett 1978, Econometrica 46:33) the
// spread that holds eight in ten was sought from how far off past tops were, how far readings
// lay off their curves and how much of the spread came of days, warmth and form, on five laws
// for the sixth, and then 75 to 130 of all 288 rows held 76 to 84 %, where 140 did without.
// Stretched for each culture by how far off the very tops were that were foretold, which nobody
// can know before, they held in 219, and by one factor for each law in 221. With the above: to
// count what readings are off by out of how far off tops were, before a spread is learned from
// that, brought what the intervals hold from 5.1 to 4.2 points off 80 in the mean on the first
// four laws, and from 4.5 to 5.0 on the last two.
//
// Nor did it help to have the form of a rise change less from feeding to feeding, for every
// culture or as one more thing that the mixture learns (the error was 1.02 and 1.00 of what it
// was, at twice the filters); to take the hour that is noted of a top as right to so many minutes
// rather than to a share (1.01 to 1.02); to let the ratio bend as each culture's tops say (1.00);
// or to blend in the simple rules. Of those, a tenth made the error 1.01 of what it was and a
// fifth 1.04; by weights that go by how each blend fared with the culture's past tops
// (exponential weights; Cesa-Bianchi & Lugosi 2006, Prediction, Learning, and Games) it was 1.02,
// better with three or eight looks on the fourth law alone, and worse by up to 0.4 where one
// height is read of each feeding.
//
// That heights read at one moment count as one was asked for by pictures of
// jars of all six. One command prints the table:
//
//	go test -tags ci ./journal/ferment/trials -run TestTable -v -table
package trials
