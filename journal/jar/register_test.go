package jar

import (
	"image"
	"math"
	"testing"

	"twinloaf/journal/journaltest/race"
)

// painted samples a pattern that is known everywhere, as a camera that has moved
// would see it.
func painted(dx, dy, zoom, light float64) *image.RGBA {
	const w, h, fine = 240, 320, 2
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sum := 0.0
			for k := range fine * fine {
				u := (float64(x) + (float64(k%fine)+0.5)/fine) / w
				v := (float64(y) + (float64(k/fine)+0.5)/fine) / h
				u, v = 0.5+(u-dx-0.5)/zoom, 0.5+(v-dy-0.5)/zoom
				p := 0.5
				for i := 1; i <= 16; i++ { // waves of many lengths and directions
					a := float64(i)
					p += 0.12 / math.Sqrt(a) * math.Sin(2*math.Pi*(u*3*a*math.Cos(a*a)+v*3*a*math.Sin(a*a)))
				}
				sum += math.Max(0, math.Min(1, p)) / (fine * fine)
			}
			for c := range 3 {
				img.Pix[img.PixOffset(x, y)+c] = uint8(sum*light*230 + 0.5)
			}
			img.Pix[img.PixOffset(x, y)+3] = 255
		}
	}
	return img
}

// A camera that was moved by a known way, and zoomed, and whose light has changed, is
// found to a tenth of a pixel of 320 once it is laid over the first picture.
func TestAMovedCameraIsFound(t *testing.T) {
	const tenth = 0.1 / 320
	img := painted(0, 0, 1, 1)
	first := sightOf(img)
	// With something in the middle that is another one each time.
	jar := Marks{Left: 0.3, Right: 0.7, Bottom: 0.9, Level: 0.6, Top: 0.2}
	about := backdropOf(img, jar)
	for _, want := range race.Few([]Move{{Zoom: 1}, {DX: 0.02, DY: -0.015, Zoom: 1}, {DY: 0.0007, Zoom: 1}, {Zoom: 1.006}, {DX: -0.011, DY: 0.008, Zoom: 0.994}}, 2) {
		for _, light := range []float64{1, 0.35} {
			now := sightOf(painted(want.DX, want.DY, want.Zoom, light))
			got := move(first.windows, now.windows)
			if math.Abs(got.DX-want.DX) > 2*tenth || math.Abs(got.DY-want.DY) > 2*tenth || math.Abs(got.Zoom-want.Zoom) > 0.0015 || got.Sure < 0.2 {
				t.Errorf("moved by %+v in light %g: found %+v", want, light, got)
			}
			got = about.align(now.detail, got)
			if math.Abs(got.DX-want.DX) > tenth || math.Abs(got.DY-want.DY) > tenth || math.Abs(got.Zoom-want.Zoom) > 0.0003 {
				t.Errorf("moved by %+v in light %g: laid over it, %+v", want, light, got)
			}
		}
	}
}
