package main

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"time"

	"twinloaf/app/outline"
)

// boxOf is where a thing is in a picture of the window.
func boxOf(t outline.Thing) image.Rectangle {
	return image.Rect(int(t.X), int(t.Y), int(t.X+t.W), int(t.Y+t.H))
}

// unlike is the share of a thing's pixels that differ between two pictures.
func unlike(a, b image.Image, t outline.Thing) float64 {
	n, r := 0, boxOf(t)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				n++
			}
		}
	}
	return float64(n) / float64(r.Dx()*r.Dy())
}

// pressingSecond clicks on the second of two equal texts.
func (p *program) pressingSecond(text string) gesture {
	return func() {
		n := 0
		for _, t := range p.things() {
			if t.Kind == "text" && t.Text == text && !t.Clipped {
				if n++; n == 2 {
					p.clickOn(t)
					return
				}
			}
		}
		panic(fmt.Errorf("%q is shown %d times", text, n))
	}
}

// saying waits until a text is part of the page, on however many lines it is, and
// though it may be scrolled out of sight.
func (p *program) saying(text string) gesture {
	return func() {
		text := p.in.say(text)
		p.wait(fmt.Sprintf("%q on the page", text), func(things []outline.Thing) bool {
			return strings.Contains(strings.Join(outline.Texts(things), ""), text)
		})
	}
}

// settled keeps a picture once the window has stood still for a moment.
func (p *program) settled(name string) gesture {
	return func() {
		time.Sleep(1200 * time.Millisecond)
		p.shot(name)
	}
}

// pressingLast clicks on what lies uppermost of several equal texts.
func (p *program) pressingLast(text string) gesture {
	return func() {
		text := p.in.say(text)
		for _, t := range slices.Backward(p.things()) {
			if t.Kind == "text" && t.Text == text && !t.Clipped {
				p.clickOn(t)
				return
			}
		}
		panic(fmt.Errorf("%q is not shown", text))
	}
}
