package cultures

import (
	"math"
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

func TestParseRatio(t *testing.T) {
	for _, c := range []struct {
		text         string
		kept         float64
		flour, water float64
		ok           bool
	}{
		{"1:2:2", 30, 60, 60, true},
		{"1:5:4", 10, 50, 40, true},
		{"1 2 2", 25, 50, 50, true},
		{"2:3:3", 20, 30, 30, true},
		{"1:1", 40, 40, 40, true}, // flour and water alike
		{"1:0.5:0,5", 40, 20, 20, true},
		{"1:", 30, 0, 0, false},
		{"0:1:1", 30, 0, 0, false},
		{"feed", 30, 0, 0, false},
		{"1:2:3:4", 30, 0, 0, false},
		{"1:2:", 30, 0, 0, false}, {"1:", 30, 0, 0, false}, {":1:2", 30, 0, 0, false}, {"1::2", 30, 0, 0, false},
		{"1:-2:2", 30, 0, 0, false},
	} {
		flour, water, err := parseRatio(c.text, c.kept, measure.Units{})
		if (err == nil) != c.ok || math.Abs(flour-c.flour) > 1e-9 || math.Abs(water-c.water) > 1e-9 {
			t.Errorf("%q of %v: %v, %v, %v", c.text, c.kept, flour, water, err)
		}
	}
}

func TestFeedFormArithmetic(t *testing.T) {
	u := measure.Units{}
	before := ferment.State{Mix: ferment.Mix{Flour: 60, Water: 60}, Original: 1}
	life := &histories.CultureHistory{Culture: &journal.Culture{Hydration: new(formula.Percent(100))}}
	f := feedForm{kept: 30, flour: 60, water: 30, discarded: 90}
	if got := f.ratio(u); got != "1:2:1" {
		t.Errorf("ratio %q", got)
	}
	after := f.after(life, before)
	// 15+60 g of flour and 15+30 g of water: 60 %; a quarter of 120 g is left of the first.
	if math.Abs(after.Mix.Hydration()-0.6) > 1e-9 || math.Abs(after.Original-0.25) > 1e-9 || math.Abs(float64(after.Mix.Total())-120) > 1e-9 {
		t.Errorf("after: %+v", after)
	}
	words := afterWords(f, life, before, u)
	for _, want := range []string{"120\u00a0g", "60 % hydration", "25 % of it carried over", "25 % of the original mix is left"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q does not tell %q", words, want)
		}
	}
}

func TestFeedDoubts(t *testing.T) {
	before := ferment.State{Mix: ferment.Mix{Flour: 60, Water: 60}, Original: 1}
	for name, c := range map[string]struct {
		form  feedForm
		known bool
		want  int
		ends  bool
	}{
		"all is well":              {feedForm{kept: 30, flour: 60, water: 60, discarded: 90}, true, 0, false},
		"nothing kept":             {feedForm{flour: 60, water: 60, baked: 120}, true, 1, true},
		"everything baked":         {feedForm{baked: 120}, true, 1, true},
		"more than there is":       {feedForm{kept: 100, flour: 60, water: 60, baked: 90}, true, 1, false},
		"a first mix has no doubt": {feedForm{flour: 60, water: 60}, false, 0, false},
		"scales lose a gram":       {feedForm{kept: 31, flour: 60, water: 60, baked: 90}, true, 0, false},
	} {
		got := c.form.doubts(before, c.known, measure.Units{})
		ends := false
		for _, d := range got {
			ends = ends || d.Ends
		}
		if len(got) != c.want || ends != c.ends {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// A feeding that is altered keeps which bake it went into.
func TestAlteringAFeedingLosesNothing(t *testing.T) {
	rec := &journal.Feeding{At: time.Unix(0, 0), Kept: 30, Flour: 60, Water: 60, WaterC: new(formula.Celsius(30)),
		Taken: []journal.TakenOff{{Grams: 90, For: journal.Baked, Bake: "some bake"}}}
	f := formOf(rec)
	f.flour = 70
	f.write(rec)
	if rec.Flour != 70 || len(rec.Taken) != 1 || rec.Taken[0].Bake != "some bake" || *rec.WaterC != 30 {
		t.Errorf("became %+v", rec)
	}
}

func TestParseHeight(t *testing.T) {
	ratio := func(v float64) [2]float64 { return [2]float64{v, 0} }
	mm := func(v float64) [2]float64 { return [2]float64{0, v} }
	for text, want := range map[string][2]float64{
		"1.8": ratio(1.8), "1,8": ratio(1.8), "2x": ratio(2), "1.25×": ratio(1.25), "doubled": ratio(2),
		"80 %": ratio(1.8), "+100%": ratio(2), "-5 %": ratio(0.95),
		"92 mm": mm(92), "92": mm(92), "9.2 cm": mm(92), "": {},
	} {
		r, m, err := parseHeight(text, measure.Units{})
		if err != nil || math.Abs(kit.OrZero(r)-want[0]) > 1e-9 || math.Abs(kit.OrZero(m)-want[1]) > 1e-9 {
			t.Errorf("%q: %v, %v, %v", text, kit.OrZero(r), kit.OrZero(m), err)
		}
	}
	for _, text := range []string{"high", "x", "0", "-3", "5000 mm", "-200 %", "30x"} {
		if _, _, err := parseHeight(text, measure.Units{}); err == nil {
			t.Errorf("%q was taken for a height", text)
		}
	}
}

func FuzzParseHeight(f *testing.F) {
	for _, s := range []string{"1.8", "80 %", "92 mm", "2x", "½", "1e400", "NaN x", "9 9 9%"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, m, err := parseHeight(s, measure.Units{})
		for _, v := range []*float64{r, m} {
			if err == nil && v != nil && (math.IsNaN(*v) || math.IsInf(*v, 0) || *v <= 0) {
				t.Errorf("%q gives %v", s, *v)
			}
		}
	})
}

func TestHeightInMillimetresNeedsTheMark(t *testing.T) {
	u := measure.Units{}
	f := &readForm{feeding: &journal.Feeding{}}
	if err := f.setHeight("90 mm", u); err != nil {
		t.Fatal(err)
	}
	if s := f.riseWords(u); !strings.HasPrefix(s, "How high did it stand") {
		t.Errorf("without a mark: %q", s)
	}
	f.startMM = new(45.0)
	if s := f.riseWords(u); s != "2.00× the mark, 100 % over it." {
		t.Errorf("with a mark: %q", s)
	}
}

func TestToggleSmell(t *testing.T) {
	f := &readForm{}
	var got []int
	for range 4 {
		got = append(got, f.toggleSmell(ferment.SmellSour))
	}
	if got[0] != 1 || got[1] != 2 || got[2] != 3 || got[3] != 0 || f.rec.Smells != nil {
		t.Errorf("went %v, ends %v", got, f.rec.Smells)
	}
	f.toggleSmell(ferment.SmellFruity)
	f.toggleSmell(ferment.SmellNone)
	if len(f.rec.Smells) != 1 || f.rec.Smells["none"] != 1 {
		t.Errorf("nothing much stands beside %v", f.rec.Smells)
	}
	f.toggleSmell(ferment.SmellFoul)
	if f.rec.Smells["none"] != 0 || f.rec.Smells["foul"] != 1 {
		t.Errorf("foul stands beside %v", f.rec.Smells)
	}
}

func TestAReadingKeepsTheMark(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock})
	f := &journal.Feeding{Culture: c.ID, At: b.Clock, Flour: 60, Water: 60}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, f) })
	b.Clock = b.Clock.Add(3 * time.Hour)
	s := read(b.Env, lifeOf(t, b, c.ID))
	if err := s.form.setHeight("66 mm", b.Units()); err != nil {
		t.Fatal(err)
	}
	s.form.startMM = new(44.0)
	s.keep()
	peaks := lifeOf(t, b, c.ID).Peaks(b.Clock)
	if len(peaks) != 1 || math.Abs(peaks[0].Rise-1.5) > 1e-9 {
		t.Errorf("peaks = %+v, %v", peaks, b.Failed)
	}
}

// Chemistry is for the few who titrate: its fields and their caution come when they are asked for,
// and stand there where a titration was written down.
func TestTheTitrationIsFolded(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock})
	const asks, caution = "Write down a titration", "Sodium hydroxide"
	s := read(b.Env, lifeOf(t, b, c.ID))
	if got := b.Texts(); !strings.Contains(got, asks) || strings.Contains(got, caution) {
		t.Errorf("before it is asked for:\n%s", got)
	}
	for _, link := range pagestest.All[*kit.Link](s.sheet) {
		if link.Text() == asks {
			link.OnTapped()
		}
	}
	if got := b.Texts(); strings.Contains(got, asks) || !strings.Contains(got, caution) || !strings.Contains(got, "Titrated") {
		t.Errorf("once it was asked for:\n%s", got)
	}
	s.sheet.Close()
	reread(b.Env, lifeOf(t, b, c.ID), &journal.Reading{Culture: c.ID, At: b.Clock, TTA: new(8.2)})
	if got := b.Texts(); strings.Contains(got, asks) || !strings.Contains(got, caution) || !strings.Contains(got, "8.2") {
		t.Errorf("of one that was written down:\n%s", got)
	}
}

func TestParseFlours(t *testing.T) {
	for text, want := range map[string]string{
		"dark rye":                      "dark rye 100 rye",
		"strong white 80, whole rye 20": "strong white 80 wheat; whole rye 20 rye",
		"80 % strong white + 20% spelt": "strong white 80 wheat; spelt 20 spelt",
		"strong white, whole wheat 30":  "strong white 70 wheat; whole wheat 30 wheat",
		"type 550":                      "type 550 100 ",
		"  ":                            "",
	} {
		var got []string
		for _, f := range parseFlours(text) {
			got = append(got, f.Name+" "+measure.Units{}.FormatNumber(float64(f.Share), 1)+" "+f.Grain)
		}
		if s := strings.Join(got, "; "); s != want {
			t.Errorf("%q: %q, want %q", text, s, want)
		}
	}
}

func TestTakingTheLastOfIt(t *testing.T) {
	before := ferment.NewState(ferment.Mix{Flour: 60, Water: 60})
	if words, ends := (takeForm{grams: 100}).words(before, true, measure.Units{}); ends || !strings.HasPrefix(words, "20\u00a0g of 120\u00a0g stay") {
		t.Errorf("some: %q, %v", words, ends)
	}
	if words, ends := (takeForm{grams: 120}).words(before, true, measure.Units{}); !ends || !strings.Contains(words, "nothing is kept back") {
		t.Errorf("all: %q, %v", words, ends)
	}
	if words, ends := (takeForm{grams: 180}).words(before, true, measure.Units{}); !ends || !strings.Contains(words, "60\u00a0g are missing") {
		t.Errorf("more: %q, %v", words, ends)
	}
	rec := &journal.Feeding{}
	takeForm{grams: 100, why: journal.Baked}.write(rec, before)
	if !histories.Taking(rec) || rec.Kept != 20 || rec.Taken[0].Grams != 100 {
		t.Errorf("record = %+v", rec)
	}
}

// The hour of feeding is the one the clock shows, on the night the clocks change too.
func TestFeedTimes(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 3, 28, 10, 0, 0, 0, zone)
	got := feedTimes([]time.Duration{8 * time.Hour, 21 * time.Hour}, now, time.Date(2026, 3, 30, 9, 0, 0, 0, zone))
	var clocks []string
	for _, at := range got {
		clocks = append(clocks, at.Format("2 15:04"))
	}
	if s := strings.Join(clocks, ", "); s != "28 21:00, 29 08:00, 29 21:00, 30 08:00" {
		t.Errorf("times: %s", s)
	}
	if got := feedTimes(nil, now, now.AddDate(0, 0, 1)); got != nil {
		t.Errorf("any hour: %v", got)
	}
	if got := feedTimes([]time.Duration{8 * time.Hour}, now, now.Add(time.Hour)); len(got) != 1 || !got[0].Before(now) {
		t.Errorf("none possible: %v", got)
	}
}

// A ratio is understood where the weight kept is asked for as well: as much is kept as
// usually, and flour and water follow. A half ratio saves nothing.
func TestARatioInThePlaceOfAWeight(t *testing.T) {
	b := pagestest.New(t)
	c := &journal.Culture{Name: "Gorse"}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, c) })
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-24 * time.Hour), Kept: 30, Flour: 60, Water: 60})
	})
	life, err := histories.Of(b.Journal, c.ID)
	if err != nil {
		t.Fatal(err)
	}
	b.Loop.Own()
	s := feed(b.Env, life)
	b.Type(s.kept, "1:3:2")
	if s.form.kept != 30 || s.form.flour != 90 || s.form.water != 60 || !s.kept.Understood() {
		t.Errorf("it is understood as %+v", s.form)
	}
	b.Type(s.kept, "1:x")
	if s.kept.Understood() {
		t.Error("half a ratio is understood")
	}
	b.Type(s.kept, "25")
	if s.form.kept != 25 || s.form.flour != 90 {
		t.Errorf("a weight is understood as %+v", s.form)
	}
}
