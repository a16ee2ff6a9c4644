// Package paper makes pages to print: PDF with embedded fonts and real text, on A4 or
// Letter, all in one look. It is written from top to bottom; what does not fit begins
// the next page. Every word is handed in, so that it is in the baker's language, and
// what no font of ours holds is shown as a white square.
package paper
