package blind

import (
	"strings"

	"twinloaf/journal/blind/draw"
	"twinloaf/journal/say"
)

// ErrCode: what was typed is not the code on the helper's paper.
var ErrCode = say.NewError("that is not the code on the helper's paper")

// The code on the helper's paper is ten letters and digits of thirty-two: fifty
// bits. Whoever has a copy of the journal can try codes as fast as his machines
// allow; package vault makes each try cost 64 MiB of memory and about a tenth of a
// second. A machine that tries ten thousand a second would on average need 1 800
// years (2^49 tries); somebody who wants to know which loaf was which has an easier
// way to the bread.
const (
	paperCodeLength = 10
	paperLetters    = "0123456789ABCDEFGHJKMNPQRSTVWXYZ" // without I, L, O and U, which are misread
)

// drawPaperCode draws a code in two groups of five.
func drawPaperCode(source *draw.Source) (string, error) {
	var b strings.Builder
	for i := range paperCodeLength {
		if i == paperCodeLength/2 {
			b.WriteByte('-')
		}
		k, err := source.Below(len(paperLetters))
		if err != nil {
			return "", err
		}
		b.WriteByte(paperLetters[k])
	}
	return b.String(), nil
}

// TidyCode writes a code as it is meant: what was typed, in capitals, without gaps
// and dashes, and with the digits that a misread letter stands for.
func TidyCode(typed string) string {
	var b strings.Builder
	for _, r := range strings.ToUpper(typed) {
		switch r {
		case 'O':
			r = '0'
		case 'I', 'L':
			r = '1'
		}
		if strings.ContainsRune(paperLetters, r) {
			b.WriteRune(r)
		}
	}
	return b.String()
}
