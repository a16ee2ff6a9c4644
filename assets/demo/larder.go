package demo

import (
	"fmt"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// The flours of the ship's larder. Their figures are invented, within the
// ranges that such flours have.
const (
	strongWhite = "Strong white wheat"
	wholeWheat  = "Whole wheat"
	fineWhite   = "Fine white wheat"
	lightSpelt  = "Light spelt"
	wholeSpelt  = "Whole spelt"
	darkRye     = "Dark rye"
	wholeEmmer  = "Whole emmer"
)

type flourFacts struct {
	name         string
	grain, kind  string
	whole        float64
	protein, ash float64 // 0: not on the bag
	perKilo      float64
	sack         float64 // grams
	every        int     // days between two sacks
	note         string
}

var larder = []flourFacts{
	{strongWhite, "wheat", "550", 0, 13.1, 0.56, 1.35, 10000, 40, "The everyday flour. Comes aboard on the Tuesday sailing."},
	{wholeWheat, "wheat", "", 100, 12.4, 1.60, 1.70, 5000, 55, "Stone ground; thirsty. Keep it cold in summer."},
	{fineWhite, "wheat", "00", 0, 11.2, 0.50, 1.60, 3000, 75, ""},
	{lightSpelt, "spelt", "630", 0, 12.0, 0.63, 2.40, 5000, 60, "Slackens if it is worked too long."},
	{wholeSpelt, "spelt", "", 100, 12.8, 0, 2.60, 3000, 70, ""},
	{darkRye, "rye", "1150", 0, 8.9, 1.15, 1.45, 5000, 45, "What Harbour is fed with."},
	{wholeEmmer, "emmer", "", 100, 13.6, 1.80, 3.90, 2500, 80, "From the mill on the north island. Sweet, short, worth it."},
}

func (s *story) larder() {
	for _, f := range larder {
		rec := &journal.Flour{Name: f.name, Notes: f.note, Facts: f.facts()}
		for ago := 121 - s.rng.IntN(6); ago > 0; ago -= f.every + s.rng.IntN(9) - 4 {
			at := s.day(ago, 8)
			price := f.perKilo * f.sack / 1000 * (1 + 0.0006*float64(121-ago))
			rec.Lots = append(rec.Lots, journal.FlourLot{
				ID: s.id(at), Mark: fmt.Sprintf("L%02d%02d-%d", at.YearDay()/7+1, at.Year()%100, 1+s.rng.IntN(8)),
				Bought: at, Grams: formula.Grams(f.sack), Price: round(price, 0.05),
			})
		}
		put(s, s.day(122, 12), rec)
		s.flours[f.name] = rec
	}
}

func (f flourFacts) facts() journal.FlourFacts {
	out := journal.FlourFacts{Grain: f.grain, Wholegrain: formula.Percent(f.whole), Type: f.kind}
	if f.protein > 0 {
		out.Protein = new(formula.Percent(f.protein))
	}
	if f.ash > 0 {
		out.Ash = new(formula.Percent(f.ash))
	}
	return out
}

// lot is the mark of the sack that was open at a time.
func (s *story) lot(flour string, at time.Time) string {
	f, mark := s.flours[flour], ""
	if f == nil {
		return ""
	}
	for _, l := range f.Lots {
		if mark == "" || l.Bought.Before(at) {
			mark = l.Mark
		}
	}
	return mark
}
