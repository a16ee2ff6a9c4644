package main

import "fmt"

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

func (p *program) seeing(text string) gesture   { return func() error { return p.see(text) } }
func (p *program) missing(text string) gesture  { return func() error { return p.gone(text) } }
func (p *program) pressing(text string) gesture { return func() error { return p.press(text) } }
func (p *program) typing(text string) gesture   { return func() error { return p.typeText(text) } }
func (p *program) keys(names ...string) gesture { return func() error { return p.key(names...) } }

// picture keeps a picture of the window under a name.
func (p *program) picture(name string) gesture {
	return func() error {
		_, err := p.shot(name)
		return err
	}
}
