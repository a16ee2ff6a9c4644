// Package trials puts the forecasts of journal/ferment to the test on made-up
// cultures that live by other laws than the forecasts assume, beside simpler
// rules that a baker could reckon with.
//
// Nothing here is taken for how a real culture behaves. The laws differ from each
// other and from the forecast's on purpose: what holds on all of them may hold
// in a jar. One command prints the table:
//
//	go test -tags ci ./journal/ferment/trials -run TestTable -v -table
package trials
