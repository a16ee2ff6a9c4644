package cut

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

//go:embed slice.pov
var scene []byte

// A Truth is what is known of a picture because it was made.
type Truth struct {
	// Left and Right are the slice's ends on one row of the picture, in pixels, and
	// WidthMM how far they are apart on the slice.
	Left, Right, Row, WidthMM float64
	// Open is the share of the crumb that the cut opened.
	Open float64
	// Opened tells of a place in the picture whether the cut opened a bubble there, and
	// whether it lies on the crumb at all.
	Opened func(x, y float64) (open, crumb bool)
}

// Bake gives what is known of a slice and its picture, without tracing it.
func (s Slice) Bake() Truth { return s.bake().truth() }

// Photo traces a slice with POV-Ray, which is in Debian's package povray.
func (s Slice) Photo(ctx context.Context) (image.Image, Truth, error) {
	b := s.bake()
	img, err := b.trace(ctx)
	if err != nil {
		return nil, Truth{}, fmt.Errorf("tracing a slice: %w", err)
	}
	return s.View.develop(img), b.truth(), nil
}

// finer is how many rays go through the width of four pixels: a picture is traced larger than
// it is wanted, and made smaller.
const finer = 5

func (b *body) trace(ctx context.Context) (image.Image, error) {
	dir, err := os.MkdirTemp("", "slice")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	write := func(name string, data []byte) {
		err = errors.Join(err, os.WriteFile(filepath.Join(dir, name), data, 0o644))
	}
	write("slice.pov", scene)
	write("slice.inc", b.setting())
	write("crumbs.inc", b.crumbs())
	write("relief.png", b.relief())
	write("colour.png", b.colours())
	if err != nil {
		return nil, err
	}
	cmd := exec.CommandContext(ctx, "povray", "+Islice.pov", "+Oslice.png", fmt.Sprintf("+W%d", b.View.W*finer/4), fmt.Sprintf("+H%d", b.View.H*finer/4),
		"+WT1", "-D", "+FN8", "+Q9", "-A", "File_Gamma=sRGB")
	cmd.Dir = dir
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &said
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("povray: %w: %s", err, said.Bytes()[max(0, said.Len()-800):])
	}
	f, err := os.Open(filepath.Join(dir, "slice.png"))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return png.Decode(f)
}

// relief is the height of each place over the table.
func (b *body) relief() []byte {
	img := image.NewGray16(image.Rect(0, 0, b.w, b.h))
	for j := range b.h {
		for i := range b.w {
			if p := j*b.w + i; b.edge.v[p] > 0 {
				img.SetGray16(i, j, color.Gray16{Y: uint16(65535 * (1 - float64(b.level.v[p])/thick))})
			}
		}
	}
	return encode(img)
}

func (b *body) colours() []byte {
	img := image.NewRGBA(image.Rect(0, 0, b.w, b.h))
	level := func(v float32) uint8 { return uint8(max(0, min(255, v+0.5))) }
	for j := range b.h {
		for i := range b.w {
			c := b.colour[j*b.w+i]
			img.SetRGBA(i, j, color.RGBA{level(c.r), level(c.g), level(c.b), 255})
		}
	}
	return encode(img)
}

func encode(img image.Image) []byte {
	var buf bytes.Buffer
	_ = (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&buf, img) // a buffer takes everything
	return buf.Bytes()
}

// An eye is the camera: where it is, and its directions right, up and ahead.
type eye struct {
	at, right, up, ahead [3]float64
	on                   [3]float64
	sky                  [3]float64
	angle                float64 // of its view across, in degrees
	w, h                 float64
}

// eye stands over the slice as high as shows it as large as the view wants.
func (b *body) eye() eye {
	v := b.View
	rng := rand.New(rand.NewPCG(v.Seed, 0xe7e))
	e := eye{angle: 27, w: float64(v.W), h: float64(v.H)}
	lean := v.Lean * math.Pi / 180
	turn := v.Turn * math.Pi / 180
	wide := float64(b.w)/perMM - 8
	high := float64(b.h)/perMM - 8
	span := max(wide/v.Fill, high/0.86*e.w/e.h)
	far := span / 2 / math.Tan(e.angle/2*math.Pi/180)
	e.on = [3]float64{(rng.Float64() - 0.5) * 0.04 * span, thick, (rng.Float64()-0.5)*0.03*span - 0.004*span}
	e.sky = [3]float64{math.Sin(turn), 0, math.Cos(turn)}
	e.at = [3]float64{e.on[0] - math.Sin(turn)*math.Sin(lean)*far, thick + math.Cos(lean)*far, e.on[2] - math.Cos(turn)*math.Sin(lean)*far}
	e.ahead = unit([3]float64{e.on[0] - e.at[0], e.on[1] - e.at[1], e.on[2] - e.at[2]})
	e.right = unit(cross(e.sky, e.ahead))
	e.up = cross(e.ahead, e.right)
	return e
}

func unit(v [3]float64) [3]float64 {
	l := math.Sqrt(dot(v, v))
	return [3]float64{v[0] / l, v[1] / l, v[2] / l}
}
func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// sees gives the pixel at which a place of the cut face shows.
func (e eye) sees(x, y float64) (px, py float64) {
	v := [3]float64{x - e.at[0], thick - e.at[1], y - e.at[2]}
	k := e.w / 2 / math.Tan(e.angle/2*math.Pi/180) / dot(v, e.ahead)
	return e.w/2 + k*dot(v, e.right), e.h/2 - k*dot(v, e.up)
}

// face gives the place of the cut face that shows at a pixel.
func (e eye) face(px, py float64) (x, y float64) {
	k := math.Tan(e.angle/2*math.Pi/180) / (e.w / 2)
	var d [3]float64
	for i := range d {
		d[i] = e.ahead[i] + (px-e.w/2)*k*e.right[i] - (py-e.h/2)*k*e.up[i]
	}
	t := (thick - e.at[1]) / d[1]
	return e.at[0] + t*d[0], e.at[2] + t*d[2]
}

func (b *body) truth() Truth {
	e := b.eye()
	t := Truth{Left: math.Inf(1), Right: math.Inf(-1)}
	var left, right float64
	for _, p := range b.contour {
		px, py := e.sees(p.x, p.y)
		if px < t.Left {
			t.Left, left = px, py
		}
		if px > t.Right {
			t.Right, right = px, py
		}
	}
	t.Row = (left + right) / 2
	x0, y0 := e.face(t.Left, t.Row)
	x1, y1 := e.face(t.Right, t.Row)
	t.WidthMM = math.Hypot(x1-x0, y1-y0)
	open, all := 0.0, 0.0
	for p, d := range b.edge.v {
		if d > 3 {
			all++
			if b.depth.v[p] > 0.3 {
				open++
			}
		}
	}
	t.Open = open / all
	t.Opened = func(px, py float64) (bool, bool) {
		i, j := b.place(e.face(px, py))
		k, l := int(i), int(j)
		if k < 0 || l < 0 || k >= b.w || l >= b.h {
			return false, false
		}
		p := l*b.w + k
		return b.depth.v[p] > 0.3, b.edge.v[p] > 3
	}
	return t
}

// setting declares camera, light and ground.
func (b *body) setting() []byte {
	v, e := b.View, b.eye()
	rng := rand.New(rand.NewPCG(v.Seed, 0x11647))
	vec := func(a [3]float64) string { return fmt.Sprintf("<%.4f, %.4f, %.4f>", a[0], a[1], a[2]) }
	from := v.Window * math.Pi / 180
	const far, height, side = 470, 560, 200
	at := [3]float64{far * math.Cos(from), height, far * math.Sin(from)}
	across := [3]float64{-side * math.Sin(from), 0, side * math.Cos(from)}
	lamp := [3]float64{1 + 0.10*v.Warm, 0.985, 1.03 - 0.22*v.Warm}
	room := [3]float64{1, 0.93, 0.83}
	scaled := func(a [3]float64, k float64) [3]float64 { return [3]float64{a[0] * k, a[1] * k, a[2] * k} }
	bright := 1 - v.Dim
	var out strings.Builder
	line := func(name string, value any) { fmt.Fprintf(&out, "#declare %s = %v;\n", name, value) }
	line("Wide", float64(b.w)/perMM)
	line("High", float64(b.h)/perMM)
	line("Thick", thick)
	line("Eye", vec(e.at))
	line("Eye_On", vec(e.on))
	line("Eye_Sky", vec(e.sky))
	line("Eye_Angle", e.angle)
	line("Window_At", vec(at))
	line("Window_Across", vec(across))
	line("Window_Up", vec([3]float64{0, side * 1.2, 0}))
	line("Window_Light", "rgb "+vec(scaled(lamp, 0.84*bright)))
	line("Room_Light", "rgb "+vec(scaled(room, 0.28*bright)))
	line("Ground", int(v.Ground))
	line("Ground_Turn", fmt.Sprintf("%.1f", (rng.Float64()-0.5)*24))
	line("Ground_At", vec([3]float64{(rng.Float64() - 0.5) * 60, 0, (rng.Float64() - 0.5) * 60}))
	return []byte(out.String())
}

// crumbs strews what fell off about the slice.
func (b *body) crumbs() []byte {
	rng := rand.New(rand.NewPCG(b.View.Seed, 0xc2))
	var out strings.Builder
	vec := func(x, y, z float64) string { return fmt.Sprintf("<%.2f, %.2f, %.2f>", x, y, z) }
	linear := func(c rgb, k float64) string {
		f := func(v float32) float64 { return k * math.Pow(float64(v)/255, 2.2) }
		return vec3(f(c.r), f(c.g), f(c.b))
	}
	for range 26 + rng.IntN(40) {
		p := b.contour[rng.IntN(len(b.contour))]
		off := 1.2 + 26*math.Pow(rng.Float64(), 2.2)
		l := math.Hypot(p.x, p.y)
		x, y := p.x*(1+off/l)+2*rng.NormFloat64(), p.y*(1+off/l)+2*rng.NormFloat64()
		c := crumbColour[b.Flour]
		if rng.IntN(3) == 0 {
			c = b.crust(0.3 + 0.5*rng.Float64())
		}
		size := 0.25 + 1.1*math.Pow(rng.Float64(), 3)
		fmt.Fprintf(&out, "Crumb(%s, %.2f, %s, rgb %s)\n", vec(x, 0, y), size, vec(90*rng.Float64(), 360*rng.Float64(), 0), linear(c, 0.85))
	}
	if b.View.Ground == Slate || b.View.Ground == Walnut {
		for range 260 { // flour
			p := b.contour[rng.IntN(len(b.contour))]
			l := math.Hypot(p.x, p.y)
			off := 34 * math.Pow(rng.Float64(), 1.6)
			fmt.Fprintf(&out, "Dust(%s, %.3f)\n", vec(p.x*(1+off/l)+4*rng.NormFloat64(), 0, p.y*(1+off/l)+4*rng.NormFloat64()), 0.08+0.12*rng.Float64()*rng.Float64())
		}
	}
	if b.Sesame {
		for range 330 {
			k := rng.IntN(len(b.contour))
			p := b.contour[k]
			if p.y < -0.3*math.Abs(p.x) && rng.IntN(5) > 0 {
				continue
			}
			h := thick * (0.1 + 0.84*rng.Float64())
			fmt.Fprintf(&out, "Sesame(%s, %s)\n", vec(p.x, h, p.y), vec(360*rng.Float64(), 360*rng.Float64(), 360*rng.Float64()))
		}
	}
	return []byte(out.String())
}

func vec3(x, y, z float64) string { return fmt.Sprintf("<%.4f, %.4f, %.4f>", x, y, z) }
