package kit

import (
	"image"

	"golang.org/x/image/draw"
)

// pyramid is a picture in halving sizes, so that the screen never has to shrink one
// by more than two, which would flicker and glitter.
type pyramid struct {
	levels []*image.RGBA
	done   chan struct{}
}

// largestSide is the largest texture that every graphics card of the last ten years
// takes.
const largestSide = 8192

func newPyramid() *pyramid { return &pyramid{done: make(chan struct{})} }

// build works on a goroutine and tells ready on the main one.
func (p *pyramid) build(main Main, img image.Image, ready func()) {
	go func() {
		defer close(p.done)
		top := tightRGBA(img)
		for max(top.Rect.Dx(), top.Rect.Dy()) > largestSide {
			top = halved(top)
		}
		levels := []*image.RGBA{top}
		for min(top.Rect.Dx(), top.Rect.Dy()) > 512 {
			top = halved(top)
			levels = append(levels, top)
		}
		main(func() {
			p.levels = levels
			ready()
		})
	}()
}

func halved(src *image.RGBA) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, max(1, src.Rect.Dx()/2), max(1, src.Rect.Dy()/2)))
	draw.ApproxBiLinear.Scale(out, out.Bounds(), src, src.Bounds(), draw.Src, nil)
	return out
}
