package main

import (
	"fmt"

	"twinloaf/app/outline"
)

// A gesture is one thing a person does or waits for.
type gesture = func()

// steps makes gestures one after another, up to the first that fails, and says which it was.
func (p *program) steps(all ...gesture) {
	for i, do := range all {
		doing(fmt.Sprintf("step %d", i+1), do)
	}
}

func (p *program) seeing(text string) gesture   { return func() { p.see(text) } }
func (p *program) missing(text string) gesture  { return func() { p.gone(text) } }
func (p *program) pressing(text string) gesture { return func() { p.press(text) } }

func (p *program) typing(text string) gesture {
	return func() {
		p.typeText(text)
		p.caughtUp()
	}
}

func (p *program) keys(names ...string) gesture {
	return func() {
		for _, name := range names {
			p.key(name)
			p.caughtUp()
		}
	}
}

// caughtUp waits until the program has done what the keys so far asked for: on a busy
// computer a Tab could else come before the field that it goes to. The question is
// answered only after what was asked before it.
func (p *program) caughtUp() {
	p.things()
}

// picture keeps a picture of the window under a name.
func (p *program) picture(name string) gesture {
	return func() { p.shot(name) }
}

// counting waits until a text is shown that many times.
func (p *program) counting(text string, times int) gesture {
	return func() {
		p.wait(fmt.Sprintf("%q %d times", text, times), func(things []outline.Thing) bool {
			n := 0
			for _, t := range outline.Texts(things) {
				if t == text {
					n++
				}
			}
			return n == times
		})
	}
}

// fillingIn clicks on the field that stands below its label.
func (p *program) fillingIn(label string) gesture {
	return func() {
		t := p.reach(label)
		// The label may stand at the very foot of the window, and its field below it, or under
		// what is told there.
		for tries := 0; t.Y+t.H+32 > p.size.Height-56 && tries < 6; tries++ {
			p.wheel(p.size.Width*0.6, p.size.Height*0.53, 2)
			t = p.reach(label)
		}
		p.click(t.X+8, t.Y+t.H+12)
	}
}

// scrolling turns the wheel over the page, downward for positive notches, so that what
// is pressed next is not half out of sight.
func (p *program) scrolling(notches int) gesture {
	return func() { p.wheel(p.size.Width*0.4, p.size.Height*0.5, notches) }
}
