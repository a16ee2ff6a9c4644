package shorthand

import "strings"

// A Rise is how far something has risen, in one of two ways of saying it.
type Rise struct {
	Times float64 // against its start: 1.8; 0 where a height was said
	MM    float64 // above the bottom of the jar; 0 where a ratio was said
}

// bareTimes is up to which a number without a unit is taken for a ratio: no culture
// rises to six times its height.
const bareTimes = 6

var riseWords = map[string]float64{
	"doubled": 2, "double": 2, "tripled": 3, "triple": 3, "trebled": 3, "half as much again": 1.5, "half again": 1.5, "by half": 1.5, "not at all": 1,
	"verdoppelt": 2, "doppelt": 2, "verdreifacht": 3, "dreifach": 3, "um die hälfte": 1.5, "gar nicht": 1,
}

// Rise reads a rise: "1.8", "1.8x", "×1.8" or "1,8-fach" is a ratio to the start, "80 %"
// or "+80 percent" what is over it, "92 mm" or "9.2 cm" the height above the bottom of
// the jar. A bare number from six on is millimetres. "doubled" and the like are ratios.
func (s Style) Rise(text string) (Rise, error) {
	low := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	if len(low) > longest {
		return Rise{}, ErrHeight
	}
	if v, ok := riseWords[low]; ok {
		return Rise{Times: v}, nil
	}
	if v, ok := riseWords[s.lowWord("doubled", low)]; ok {
		return Rise{Times: v}, nil
	}
	for _, unit := range []string{"%", "percent", "per cent", "prozent"} {
		if bare, found := strings.CutSuffix(low, unit); found {
			v, err := s.Number(strings.TrimPrefix(strings.TrimSpace(strings.TrimPrefix(bare, "um ")), "+"))
			if err != nil || v <= -100 {
				return Rise{}, ErrHeight
			}
			return Rise{Times: 1 + v/100}, nil
		}
	}
	for _, sign := range []string{"×", "x", "-fach", "fach", "mal", "times", "-fold", "fold"} {
		bare, found := strings.CutSuffix(low, sign)
		if !found && (sign == "×" || sign == "x") {
			bare, found = strings.CutPrefix(low, sign)
		}
		if found {
			return times(s.Number(bare))
		}
	}
	if v, err := s.Number(low); err == nil {
		if v < bareTimes {
			return times(v, nil)
		}
		return Rise{MM: v}, nil
	}
	v, err := s.Length(low, "mm")
	if err != nil || v <= 0 {
		return Rise{}, ErrHeight
	}
	return Rise{MM: v}, nil
}

// lowWord gives the English word when text is what the baker's language calls it.
func (s Style) lowWord(english, text string) string {
	if text == strings.ToLower(s.word(english)) {
		return english
	}
	return ""
}

func times(v float64, err error) (Rise, error) {
	if err != nil || v <= 0 {
		return Rise{}, ErrHeight
	}
	return Rise{Times: v}, nil
}

// Ratio reads the ratio of a feeding, "1:2:2", as parts kept, of flour and of water: it
// may also be written "1/2/2", "1 2 2", "1 to 2 to 2" or "1 zu 2 zu 2". With two numbers,
// "1:2", water weighs as much as flour. The first is above 0, none is negative.
func (s Style) Ratio(text string) (kept, flour, water float64, err error) {
	if len(text) > longest {
		return 0, 0, 0, ErrRatio
	}
	low := strings.ToLower(strings.TrimSpace(text))
	low = strings.NewReplacer(" to ", ":", " zu ", ":", " : ", ":").Replace(low)
	parted := func(r rune) bool { return r == ':' || r == '/' }
	if strings.TrimFunc(low, parted) != low || strings.Contains(low, "::") || strings.Contains(low, "//") { // half typed: "1:2:"
		return 0, 0, 0, ErrRatio
	}
	parts := strings.FieldsFunc(low, func(r rune) bool { return parted(r) || r == ' ' })
	if len(parts) < 2 || len(parts) > 3 {
		return 0, 0, 0, ErrRatio
	}
	var v [3]float64
	for i, p := range parts {
		if v[i], err = s.Number(p); err != nil || v[i] < 0 {
			return 0, 0, 0, ErrRatio
		}
	}
	if len(parts) == 2 {
		v[2] = v[1]
	}
	if v[0] <= 0 {
		return 0, 0, 0, ErrRatio
	}
	return v[0], v[1], v[2], nil
}
