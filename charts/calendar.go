package charts

import (
	"fmt"
	"image/color"
	"strconv"
	"time"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

func (c Calendar) check() error {
	if c.Year < 1 || c.Year > 9999 {
		return fmt.Errorf("the calendar's year is %d", c.Year)
	}
	if n := c.days(); len(c.Counts) > n {
		return fmt.Errorf("the calendar has %d counts for the %d days of %d", len(c.Counts), n, c.Year)
	}
	if c.Days < 0 {
		return fmt.Errorf("the calendar draws %d days", c.Days)
	}
	for i, n := range c.Counts {
		if n < 0 {
			return fmt.Errorf("the calendar counts %d on %s", n, c.day(i).Format("2 January"))
		}
	}
	return nil
}

func (c Calendar) day(i int) time.Time {
	return time.Date(c.Year, time.January, 1+i, 0, 0, 0, 0, time.UTC)
}

// days are those that are drawn.
func (c Calendar) days() int {
	whole := c.day(-1).AddDate(1, 0, 0).YearDay()
	if c.Days > 0 {
		return min(c.Days, whole)
	}
	return whole
}

func (c Calendar) count(i int) int {
	if i < len(c.Counts) {
		return c.Counts[i]
	}
	return 0
}

// row is a day's place in the week, from the day a week begins.
func (c Calendar) row(t time.Time) int {
	if c.SundayFirst {
		return int(t.Weekday())
	}
	return (int(t.Weekday()) + 6) % 7
}

func (c Calendar) describe(i int, w Words) string {
	if c.Describe != nil {
		return c.Describe(c.day(i), c.count(i))
	}
	day := c.day(i)
	return w.valued(w.weekdayDay(day, w.MonthDay(day)), c.count(i))
}

func (c Calendar) most() int {
	most := 0
	for _, n := range c.Counts {
		most = max(most, n)
	}
	return most
}

// shades is how many depths of colour a count may have.
const shades = 4

// shade is the colour of a count: bare for none, then up to four depths.
func (c Calendar) shade(s *drawList, n, most int) color.NRGBA {
	if n == 0 {
		return mix(s.style.Paper, s.style.Rule, 0.55)
	}
	depth := n
	if most > shades {
		depth = (n*shades + most - 1) / most
	}
	steps := min(most, shades)
	return mix(s.style.Paper, s.style.Accent, 0.25+0.75*float64(depth)/float64(steps))
}

func (c Calendar) draw(s *drawList) {
	f := s.label()
	names := 0.0
	for _, d := range toldDays() {
		names = max(names, s.measure(s.style.Words.Weekday(d), f))
	}
	left := edge + names + labelGap
	first := c.row(c.day(0))
	weeks := (first + c.days() + 6) / 7
	top := edge + f.size*leading + 2
	cell := min((s.w-left-edge)/float64(weeks), (s.h-top-edge-f.size*leading-8)/7)
	if cell < 2 {
		s.cramped()
		return
	}
	most := c.most()
	gap := max(1/s.scale, cell*0.12)
	for i := range c.days() {
		d := c.day(i)
		week, row := (first+i)/7, c.row(d)
		r := rect{left + float64(week)*cell, top + float64(row)*cell, cell - gap, cell - gap}
		if d.Day() == 1 {
			// The month stands over its first whole week, and whole at the end of the year.
			at, month := r.x, s.fit(s.style.Words.ShortMonth(d), f, cell*4)
			if row > 0 {
				at += cell
			}
			s.write(point{min(at, s.w-s.measure(month, f)), edge + ascent*f.size}, month, f, 0)
		}
		shade := c.shade(s, c.count(i), most)
		s.block(r, shade)
		if n := c.count(i); n > 1 && cell >= f.size*1.2 {
			g := f
			g.size *= 0.8
			g.colour = s.style.Ink
			if contrast(shade, s.style.Paper) > contrast(shade, s.style.Ink) {
				g.colour = s.style.Paper
			}
			s.middle(point{r.x + r.w/2, r.y + r.h/2}, s.fit(strconv.Itoa(n), g, r.w), g, 0.5)
		}
		s.marks = append(s.marks, mark{at: point{r.x + r.w/2, r.y + r.h/2}, area: rect{r.x, r.y, cell, cell}, series: strconv.Itoa(c.Year), index: i, text: c.describe(i, s.style.Words)})
	}
	c.legend(s, left, top, cell, gap, most)
}

// toldDays are the weekdays that are named: a Monday, a Wednesday and a Friday
// are enough to find the rest.
func toldDays() [3]time.Time {
	var out [3]time.Time
	for i := range out {
		out[i] = time.Date(2024, time.January, 1+2*i, 0, 0, 0, 0, time.UTC)
	}
	return out
}

// legend names the weekdays and the depths of colour.
func (c Calendar) legend(s *drawList, left, top, cell, gap float64, most int) {
	f := s.label()
	if cell*2 >= f.size*1.1 {
		for _, d := range toldDays() {
			s.middle(point{edge, top + (float64(c.row(d))+0.5)*cell - gap/2}, s.style.Words.Weekday(d), f, 0)
		}
	}
	y := top + 7*cell + 8
	x := left
	side := min(max(cell-gap, 8), 14)
	for n := 0; n <= min(most, shades); n++ {
		count := n
		if most > shades {
			count = (n*most + shades - 1) / shades
		}
		words := strconv.Itoa(count)
		if x+side+10+s.measure(words, f) > s.w-edge {
			return
		}
		s.block(rect{x, y, side, side}, c.shade(s, count, most))
		s.middle(point{x + side + 5, y + side/2}, words, f, 0)
		x += side + 5 + s.measure(words, f) + 14
	}
}

func (c Calendar) tabulate() grid {
	t := grid{head: []table.Cell{"day", "count"}}
	for i := range c.days() {
		t.rows = append(t.rows, []table.Cell{table.Cell(c.day(i).Format(time.DateOnly)), table.Int(c.count(i))})
	}
	return t
}

func (c Calendar) summary(w Words) string {
	days, sum, best := 0, 0, -1
	for i, n := range c.Counts {
		sum += n
		if n > 0 {
			days++
			if best < 0 || n > c.Counts[best] {
				best = i
			}
		}
	}
	if best < 0 {
		return w.Say(say.Of("{{.Year}}: nothing yet.", say.With{"Year": c.Year}))
	}
	day := c.day(best)
	return w.Say(say.N("{{.Year}}: {{.All}} in all, on {{.N}} day; the most on {{.Day}} ({{.Most}}).", "{{.Year}}: {{.All}} in all, on {{.N}} days; the most on {{.Day}} ({{.Most}}).", days,
		say.With{"Year": c.Year, "All": sum, "Day": w.MonthDay(day), "Most": c.Counts[best]}))
}
