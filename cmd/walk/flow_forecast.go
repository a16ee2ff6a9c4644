package main

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"twinloaf/app/outline"
)

// A jar is how a culture rises in this walk: a gamma curve, which is none of those that
// the program reckons with, and each day a little sooner or later than the last.
type jar struct {
	top  time.Duration
	tall float64
}

// jarOf is the jar of the i-th feeding.
func jarOf(i int) jar {
	turns := []time.Duration{0, 12, -9, 4, -14, 8, 10, -6}
	return jar{top: 5*time.Hour + 40*time.Minute + turns[i%len(turns)]*time.Minute, tall: 1.3}
}

// at is the height over its start.
func (j jar) at(after time.Duration) float64 {
	u := float64(after) / float64(j.top)
	return 1 + j.tall*math.Pow(u*math.Exp(1-u), 4)
}

// A foretold is when the window says that a feeding will peak.
type foretold struct{ mid, low, high time.Time }

// expected matches what the culture's page says of the peak: a text of its own. What would
// come of a feeding that is only thought of stands below it in a sentence.
var expected = regexp.MustCompile(`^(?:in (\d+) min|(\d\d:\d\d)), between (\d\d:\d\d) and (\d\d:\d\d)$`)

// foretelling reads the forecast off the page, once what it rests on stands under it: until the
// page is read anew, that is what the last one rested on, and only the feeding that is
// thought of may say it already.
func (p *program) foretelling(now time.Time, rests string) (f foretold) {
	clock := func(s string) time.Time {
		t := must(time.ParseInLocation("15:04", s, now.Location()))
		return time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
	}
	var said []string
	p.wait(fmt.Sprintf("a forecast that rests on %q", rests), func(things []outline.Thing) bool {
		texts := outline.Texts(things)
		at := slices.IndexFunc(texts, expected.MatchString)
		if at < 0 {
			return false
		}
		said = expected.FindStringSubmatch(texts[at])
		under := texts[at:]
		if end := slices.Index(under, "If you feed it at"); end >= 0 {
			under = under[:end]
		}
		return strings.Contains(strings.Join(under, "\n"), rests)
	})
	if said[1] != "" {
		f.mid = now.Add(time.Duration(must(strconv.Atoi(said[1]))) * time.Minute)
	} else {
		f.mid = clock(said[2])
	}
	f.low, f.high = clock(said[3]), clock(said[4])
	return f
}

// foretellAWeek feeds a new culture every morning for a week, by a clock that the walk
// moves, writes down four heights of each feeding, and sets what the window foretold at
// the feeding, once the culture was seen to rise, and four and a half hours later, beside when the jar truly stood highest.
func foretellAWeek(w *walk) {
	p, _ := w.program()
	begin := time.Date(2026, 3, 2, 8, 0, 0, 0, time.Local)
	p.steps(
		p.startingAt(begin),
		p.keys("ctrl+2"), p.seeing("A culture is flour and water kept alive"),
		p.keys("n"), p.seeing("what you call it"), p.typing("Gorse"), p.keys("ctrl+Return"),
		p.seeing("Gorse, day 1"),
	)
	const days = 7
	var table strings.Builder
	inside, off, wide := 0, 0.0, 0.0
	for i := 1; i <= days; i++ {
		fed := begin.AddDate(0, 0, i)
		came := fed.Add(jarOf(i).top)
		p.setClock(fed)
		p.steps(p.keys("g"), p.seeing("Fed Gorse"))
		var made []foretold
		if i == 1 { // nobody has seen it rise
			p.seeing("it has not been seen to rise since it was begun")()
		} else {
			made = append(made, p.foretelling(fed, fmt.Sprintf("From its own past feedings (%d), approximate", i-1)))
		}
		made = append(made, p.fourLooks(fed, jarOf(i)))
		fmt.Fprintf(&table, "  feeding %d:", i)
		for _, f := range made {
			fmt.Fprintf(&table, " %s (%s to %s)", f.mid.Format("15:04"), f.low.Format("15:04"), f.high.Format("15:04"))
			if !came.Before(f.low) && !came.After(f.high) {
				inside++
			}
		}
		fmt.Fprintf(&table, ", the last with two heights; it came at %s\n", came.Format("15:04"))
		if i > days/2 { // by now it knows the culture a little
			wide = max(wide, made[0].high.Sub(made[0].low).Hours())
			for _, f := range made {
				off = max(off, f.mid.Sub(came).Abs().Minutes())
			}
		}
	}
	fmt.Print(table.String())
	failIf(inside < 2*days-3, "%d of %d intervals held:\n%s", inside, 2*days-1, table.String())
	failIf(off > 45, "off by %.0f min in the second half of the week:\n%s", off, table.String())
	failIf(wide > 2.75, "an interval of %.1f h in the second half of the week says little:\n%s", wide, table.String())
	p.picture("week")()
	p.quit()
}

// fourLooks writes down four heights after a feeding, and reads what is foretold after the
// second.
func (p *program) fourLooks(fed time.Time, j jar) (f foretold) {
	for n, after := range []time.Duration{2 * time.Hour, 4*time.Hour + 30*time.Minute, 7 * time.Hour, 9 * time.Hour} {
		p.setClock(fed.Add(after))
		p.steps(
			p.keys("r"), p.seeing("Never taste a culture"), p.keys("h"),
			p.typing(strconv.FormatFloat(j.at(after), 'f', 2, 64)+"x"), p.keys("ctrl+Return"),
			p.missing("Never taste a culture"),
		)
		if n == 1 {
			f = p.foretelling(fed.Add(after), "readings (2), approximate")
		}
	}
	return f
}
