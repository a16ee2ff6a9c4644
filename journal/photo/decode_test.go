package photo_test

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"testing"

	"github.com/gen2brain/heic"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

func redraw(dst draw.Image, src image.Image) image.Image {
	draw.Draw(dst, dst.Bounds(), src, image.Point{}, draw.Src)
	return dst
}

func TestEveryKindOfPictureIsRead(t *testing.T) {
	scene := phototest.Scene(320, 240)
	all := scene.Rect
	var grey bytes.Buffer
	if err := jpeg.Encode(&grey, redraw(image.NewGray(all), scene), nil); err != nil {
		t.Fatal(err)
	}
	palette := color.Palette{phototest.TopLeft, phototest.TopRight, phototest.BottomLeft, phototest.BottomRight, color.White}
	upright := phototest.Sample(t, "upright.heic")

	for _, c := range []struct {
		name   string
		data   []byte
		format photo.Format
		w, h   int
		plain  bool // its corners have no colours to look at, or other ones
	}{
		{"JPEG", phototest.JPEG(scene, phototest.EXIF{}), photo.JPEG, 320, 240, false},
		{"grey JPEG", grey.Bytes(), photo.JPEG, 320, 240, true},
		{"progressive JPEG", phototest.Sample(t, "progressive.jpg"), photo.JPEG, 320, 240, false},
		{"JPEG of four inks", phototest.Sample(t, "cmyk.jpg"), photo.JPEG, 320, 240, true},
		{"PNG", phototest.PNG(scene), photo.PNG, 320, 240, false},
		{"16-bit PNG", phototest.PNG(redraw(image.NewRGBA64(all), scene)), photo.PNG, 320, 240, false},
		{"grey 16-bit PNG", phototest.PNG(redraw(image.NewGray16(all), scene)), photo.PNG, 320, 240, true},
		{"PNG with a palette", phototest.PNG(redraw(image.NewPaletted(all, palette), scene)), photo.PNG, 320, 240, false},
		{"WebP", phototest.Sample(t, "lossy.webp"), photo.WebP, 320, 240, false},
		{"lossless WebP", phototest.Sample(t, "lossless.webp"), photo.WebP, 160, 120, true},
		{"turned WebP", phototest.Sample(t, "turned.webp"), photo.WebP, 240, 320, true},
		{"HEIC", upright, photo.HEIC, 320, 240, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, err := photo.Inspect("loaf", bytes.NewReader(c.data), photo.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			p, err := photo.Decode("loaf", c.data, photo.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			if p.Meta != m {
				t.Errorf("decoding tells %+v, inspecting %+v", p.Meta, m)
			}
			if m.Format != c.format || m.Width != c.w || m.Height != c.h {
				t.Errorf("told %v %d x %d, want %v %d x %d", m.Format, m.Width, m.Height, c.format, c.w, c.h)
			}
			for _, maxSide := range []int{0, 100} {
				img := p.Fit(maxSide)
				if maxSide == 0 && img.Rect != image.Rect(0, 0, c.w, c.h) {
					t.Errorf("full size is %v", img.Rect)
				}
				if !c.plain {
					checkScene(t, img)
				}
			}
		})
	}
}

// Inks are turned into light without their colour profile, so the colours are
// brighter than drawn, but not swapped and not inverted.
func TestInksKeepTheirHue(t *testing.T) {
	p, err := photo.Decode("inks.jpg", phototest.Sample(t, "cmyk.jpg"), photo.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	img := p.Fit(0)
	red, green, blue := img.RGBAAt(20, 15), img.RGBAAt(300, 15), img.RGBAAt(20, 225)
	if red.R < red.G+50 || red.R < red.B+50 || green.G < green.R+50 || green.G < green.B+50 || blue.B < blue.R+50 || blue.B < blue.G+50 {
		t.Errorf("red patch %v, green patch %v, blue patch %v", red, green, blue)
	}
}

// A phone stores the sensor's rows and says how to turn them: JPEG by EXIF, HEIC by
// a property that its decoder follows, whatever its EXIF repeats.
func TestHEICIsTurnedOnceByItsOwnRotation(t *testing.T) {
	upright := phototest.Sample(t, "upright.heic")
	scene := phototest.Scene(320, 240)
	for turns, clockwiseBack := range map[int]photo.Orientation{
		1: photo.TurnCounter, // ISO/IEC 23008-12, irot: quarter turns counter-clockwise
		2: photo.TurnHalf,
		3: photo.TurnClockwise,
	} {
		p, err := photo.Decode("loaf.heic", phototest.TurnedHEIC(upright, turns), photo.Limits{})
		if err != nil {
			t.Fatalf("%d quarter turns: %v", turns, err)
		}
		want := clockwiseBack.Turn(scene)
		if got := (image.Point{p.Width, p.Height}); got != want.Rect.Max || p.Orientation != photo.Upright {
			t.Errorf("%d quarter turns: told %v and orientation %d, want %v and upright", turns, got, p.Orientation, want.Rect.Max)
		}
		got := p.Fit(0)
		for _, at := range []image.Point{{10, 10}, {want.Rect.Max.X - 10, 10}, {10, want.Rect.Max.Y - 10}} {
			g, w := got.RGBAAt(at.X, at.Y), want.RGBAAt(at.X, at.Y)
			if far(g.R, w.R) || far(g.G, w.G) || far(g.B, w.B) {
				t.Errorf("%d quarter turns: %v at %v, want near %v", turns, g, at, w)
			}
		}
	}
}

func TestPhoneHEICOf12MegapixelsIsReadUpright(t *testing.T) {
	p, err := photo.Decode("phone.heic", phototest.Sample(t, "phone.heic"), photo.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if p.Width != 3024 || p.Height != 4032 {
		t.Errorf("told %d x %d, want 3024 x 4032", p.Width, p.Height)
	}
	img := p.Fit(640)
	if img.Rect != image.Rect(0, 0, 480, 640) {
		t.Errorf("fitted to %v", img.Rect)
	}
	checkScene(t, photo.TurnCounter.Turn(img))
}

func TestHEICIsReadByTheDecoderThatTheProgramCarries(t *testing.T) {
	if heic.Dynamic() == nil {
		t.Error("a libheif of this machine was loaded: build with -tags nodynamic")
	}
}

func TestFitNeverEnlargesAndKeepsTheShape(t *testing.T) {
	for _, c := range []struct {
		w, h, maxSide, wantW, wantH int
	}{
		{400, 300, 0, 400, 300},
		{400, 300, -5, 400, 300},
		{400, 300, 400, 400, 300},
		{400, 300, 1000, 400, 300},
		{400, 300, 200, 200, 150},
		{300, 400, 200, 150, 200},
		{401, 299, 100, 100, 75},
		{1000, 3, 50, 50, 1},
		{1, 1, 1, 1, 1},
	} {
		data := phototest.JPEG(phototest.Scene(c.w, c.h), phototest.EXIF{})
		p, err := photo.Decode("loaf.jpg", data, photo.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		if got := p.Fit(c.maxSide).Rect.Max; got != (image.Point{c.wantW, c.wantH}) {
			t.Errorf("%d x %d into %d gives %v, want %d x %d", c.w, c.h, c.maxSide, got, c.wantW, c.wantH)
		}
	}
}

// A flat colour stays that colour through shrinking by a whole factor, whatever
// the remainder at the edges and the coarseness of the colour planes.
func TestShrinkingKeepsAFlatColour(t *testing.T) {
	want := color.RGBA{181, 122, 60, 255}
	for _, size := range []image.Point{{401, 299}, {400, 300}, {333, 1}, {7, 640}} {
		img := image.NewRGBA(image.Rectangle{Max: size})
		draw.Draw(img, img.Rect, image.NewUniform(want), image.Point{}, draw.Src)
		p, err := photo.Decode("flat.jpg", phototest.JPEG(img, phototest.EXIF{}), photo.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		small := p.Fit(40)
		for i := 0; i < len(small.Pix); i += 4 {
			for c, v := range []uint8{want.R, want.G, want.B, 255} {
				if d := int(small.Pix[i+c]) - int(v); d > 4 || d < -4 {
					t.Fatalf("%v: pixel %d is %v, want near %v", size, i/4, small.Pix[i:i+4], want)
				}
			}
		}
	}
}

func TestTransparentPartsBecomeWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 60, 60))
	for x := 30; x < 60; x++ {
		for y := range 60 {
			img.SetNRGBA(x, y, color.NRGBA{0, 0, 0, 255})
		}
	}
	p, err := photo.Decode("cut-out.png", phototest.PNG(img), photo.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	for _, maxSide := range []int{0, 20} {
		got := p.Fit(maxSide)
		w := got.Rect.Dx()
		if got.RGBAAt(w/6, w/2) != (color.RGBA{255, 255, 255, 255}) || got.RGBAAt(w-w/6, w/2) != (color.RGBA{0, 0, 0, 255}) {
			t.Errorf("fitted to %d: left %v, right %v", w, got.RGBAAt(w/6, w/2), got.RGBAAt(w-w/6, w/2))
		}
	}
}
