package main

import (
	"errors"
	"fmt"
	"os"
	"strings"
)

// An effort is how many clicks and keys something takes.
type effort struct{ clicks, keys int }

func (e effort) String() string { return fmt.Sprintf("%d and %d", e.clicks, e.keys) }

// A task is something that a baker does for the first time. Before is what it took before
// the keys were gone over, and half of that, of clicks and of keys, the most that it may take
// now; done by keys alone it may take a key in the place of each click. A task that was not
// counted then is only counted.
type task struct {
	name   string
	before effort
	do     func(p *program)
}

func (t task) goal() effort { return effort{t.before.clicks / 2, t.before.keys / 2} }

// met says whether an effort is no more than the goal.
func (t task) met(now effort) bool {
	goal := t.goal()
	if t.before == (effort{}) {
		return true
	}
	return now.clicks <= goal.clicks && now.keys <= goal.keys || now.clicks == 0 && now.keys <= (t.before.clicks+t.before.keys)/2
}

// counts are what tasks took, as the lines of a table.
type counts struct {
	lines []string
	over  []error
}

// count does a task and counts what it takes.
func (c *counts) count(p *program, t task) {
	p.keyed, p.clicked = 0, 0
	doing(t.name, func() { t.do(p) })
	now := effort{p.clicked, p.keyed}
	before, goal := "", ""
	if t.before != (effort{}) {
		before, goal = t.before.String(), t.goal().String()
	}
	c.lines = append(c.lines, fmt.Sprintf("| %s | %s | %s | %s |", t.name, before, goal, now))
	if !t.met(now) {
		c.over = append(c.over, fmt.Errorf("%s takes %s, more than %s", t.name, now, goal))
	}
}

func (c *counts) counting(p *program, t task) gesture {
	return func() { c.count(p, t) }
}

// write prints the table, keeps it in a file, and says what took more than it may.
func (c *counts) write(path string) {
	head := []string{"| task (clicks and keys) | before | goal | now |", "|---|---|---|---|"}
	text := strings.Join(append(head, c.lines...), "\n") + "\n"
	fmt.Print(text)
	check(errors.Join(append(c.over, os.WriteFile(path, []byte(text), 0o644))...))
}
