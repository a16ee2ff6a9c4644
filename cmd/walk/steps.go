package main

import (
	"errors"
	"fmt"

	"twinloaf/app/outline"
)

// A gesture is one thing a person does or waits for.
type gesture = func() error

// steps makes gestures one after another, up to the first that fails.
func (p *program) steps(all ...gesture) error {
	for i, do := range all {
		if err := do(); err != nil {
			return fmt.Errorf("step %d: %w", i+1, err)
		}
	}
	return nil
}

// doing makes a gesture whose error says what was being done.
func doing(what string, do gesture) gesture {
	return func() error {
		if err := do(); err != nil {
			return fmt.Errorf("%s: %w", what, err)
		}
		return nil
	}
}

func (p *program) seeing(text string) gesture   { return func() error { return p.see(text) } }
func (p *program) missing(text string) gesture  { return func() error { return p.gone(text) } }
func (p *program) pressing(text string) gesture { return func() error { return p.press(text) } }

func (p *program) typing(text string) gesture {
	return func() error { return errors.Join(p.typeText(text), p.caughtUp()) }
}

func (p *program) keys(names ...string) gesture {
	return func() error {
		for _, name := range names {
			if err := errors.Join(p.key(name), p.caughtUp()); err != nil {
				return err
			}
		}
		return nil
	}
}

// caughtUp waits until the program has done what the keys so far asked for: on a busy
// computer a Tab could else come before the field that it goes to. The question is
// answered only after what was asked before it.
func (p *program) caughtUp() error {
	_, err := p.things()
	return err
}

// picture keeps a picture of the window under a name.
func (p *program) picture(name string) gesture {
	return func() error {
		_, err := p.shot(name)
		return err
	}
}

// counting waits until a text is shown that many times.
func (p *program) counting(text string, times int) gesture {
	return func() error {
		_, err := p.wait(fmt.Sprintf("%q %d times", text, times), func(things []outline.Thing) bool {
			n := 0
			for _, t := range outline.Texts(things) {
				if t == text {
					n++
				}
			}
			return n == times
		})
		return err
	}
}

// fillingIn clicks on the field that stands below its label.
func (p *program) fillingIn(label string) gesture {
	return func() error {
		t, err := p.reach(label)
		// The label may stand at the very foot of the window, and its field below it, or under
		// what is told there.
		for tries := 0; err == nil && t.Y+t.H+32 > p.size.Height-56 && tries < 6; tries++ {
			if err = p.wheel(p.size.Width*0.6, p.size.Height*0.53, 2); err == nil {
				t, err = p.reach(label)
			}
		}
		if err != nil {
			return err
		}
		return p.click(t.X+8, t.Y+t.H+12)
	}
}

// scrolling turns the wheel over the page, downward for positive notches, so that what
// is pressed next is not half out of sight.
func (p *program) scrolling(notches int) gesture {
	return func() error { return p.wheel(p.size.Width*0.4, p.size.Height*0.5, notches) }
}
