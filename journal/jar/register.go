package jar

import (
	"image"
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

// A Move is how far the camera has moved since the first picture: what was at y is
// at 0.5 + (y-0.5)·Zoom + DY, in parts of the picture's height, and x in the same way.
type Move struct {
	DX, DY, Zoom float64
	// Sure is the height of the correlation's peak, 0 to 1: by chance about 0.03.
	Sure float64
}

// windowSize is the side of what is correlated, in samples.
const windowSize = 128

// A window is a part of a picture, ready for correlation.
type window struct{ spectrum []complex128 }

// halves are the parts of the height that are correlated by themselves. How far they
// move apart tells how much the picture was scaled.
var halves = [2][2]float64{{0, 0.55}, {0.45, 1}}

// windowOf samples a part of a picture, from y0 to y1 of its height, takes the
// logarithm of its luma, so that light that changes by a factor changes nothing but the
// mean, lets it fade towards the edges, and transforms it.
func windowOf(img *image.RGBA, y0, y1 float64) window {
	const n = windowSize
	samples := boxed(img, n, n, y0, y1)
	mean := 0.0
	for i, v := range samples {
		samples[i] = math.Log(8 + v)
		mean += samples[i] / (n * n)
	}
	data := make([]complex128, n*n)
	for y := range n {
		for x := range n {
			data[y*n+x] = complex((samples[y*n+x]-mean)*fade(x)*fade(y), 0)
		}
	}
	transform(data, false)
	return window{data}
}

// fade is a cosine taper over a sixth of the window at each end (Tukey's window).
func fade(i int) float64 {
	const edge = windowSize / 6
	d := min(i, windowSize-1-i)
	if d >= edge {
		return 1
	}
	return 0.5 - 0.5*math.Cos(math.Pi*(float64(d)+0.5)/edge)
}

// boxed is the mean luma (ITU-R BT.601) of each box of a part of a picture, each pixel
// counted by how much of it lies in the box: boxes of whole pixels would be of unlike
// sizes, and the picture would seem to move with them.
func boxed(img *image.RGBA, wide, high int, y0, y1 float64) []float64 {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	across := make([][]float64, wide) // the weight of each pixel from the first, by box
	first := make([]int, wide)
	for x := range wide {
		from, to := float64(x)/float64(wide)*float64(w), float64(x+1)/float64(wide)*float64(w)
		first[x] = int(from)
		covered(from, to, w, func(_ int, weight float64) { across[x] = append(across[x], weight/(to-from)) })
	}
	out := make([]float64, wide*high)
	luma := make([]float64, w)
	for y := range high {
		from, to := (y0+(y1-y0)*float64(y)/float64(high))*float64(h), (y0+(y1-y0)*float64(y+1)/float64(high))*float64(h)
		clear(luma)
		covered(from, to, h, func(at int, weight float64) {
			row := img.Pix[at*img.Stride:]
			for x := range luma {
				luma[x] += weight / (to - from) * (0.299*float64(row[4*x]) + 0.587*float64(row[4*x+1]) + 0.114*float64(row[4*x+2]))
			}
		})
		for x := range wide {
			for k, weight := range across[x] {
				out[y*wide+x] += weight * luma[first[x]+k]
			}
		}
	}
	return out
}

// transform is the Fourier transform of a square in two dimensions, in place.
func transform(data []complex128, back bool) {
	const n = windowSize
	fft := fourier.NewCmplxFFT(n)
	line, out := make([]complex128, n), make([]complex128, n)
	do := func() {
		if back {
			fft.Sequence(out, line)
		} else {
			fft.Coefficients(out, line)
		}
	}
	for y := range n {
		copy(line, data[y*n:(y+1)*n])
		do()
		copy(data[y*n:], out)
	}
	for x := range n {
		for y := range n {
			line[y] = data[y*n+x]
		}
		do()
		for y := range n {
			data[y*n+x] = out[y]
		}
	}
}

// shift finds how far b has moved against a, in samples, and how high the peak is.
func shift(a, b window) (dx, dy, sure float64) {
	const n = windowSize
	cross := make([]complex128, n*n)
	for i := range cross {
		c := b.spectrum[i] * cmplx.Conj(a.spectrum[i])
		// Whitening, with the finest detail held back: it is the camera's noise.
		u, v := i%n, i/n
		f2 := float64(sq(min(u, n-u)) + sq(min(v, n-v)))
		weight := math.Exp(-f2 / (2 * sq(n/6.0)))
		if m := cmplx.Abs(c); m > 1e-9 {
			cross[i] = c * complex(weight/m, 0)
		}
	}
	total := 0.0
	for _, c := range cross {
		total += cmplx.Abs(c)
	}
	transform(cross, true)
	best := 0
	const far = n / 5 // a camera that moved further was moved on purpose
	for i := range cross {
		u, v := i%n, i/n
		if (u > far && u < n-far) || (v > far && v < n-far) {
			continue
		}
		if real(cross[i]) > real(cross[best]) {
			best = i
		}
	}
	at := func(du, dv int) float64 {
		return real(cross[((best/n+dv+n)%n)*n+(best%n+du+n)%n])
	}
	dx = signed(best%n) + vertex(at(-1, 0), at(0, 0), at(1, 0))
	dy = signed(best/n) + vertex(at(0, -1), at(0, 0), at(0, 1))
	if total == 0 {
		return 0, 0, 0
	}
	return dx, dy, at(0, 0) / total
}

type number interface{ ~int | ~float64 }

func sq[T number](x T) T { return x * x }

func signed(i int) float64 {
	if i > windowSize/2 {
		i -= windowSize
	}
	return float64(i)
}

// vertex is where a peak is highest, from the middle of three neighbours: the bell
// through them, for the spectrum is weighted by one.
func vertex(left, mid, right float64) float64 {
	if left <= 0 || right <= 0 || mid <= max(left, right) {
		return 0
	}
	l, m, r := math.Log(left), math.Log(mid), math.Log(right)
	return max(-0.5, min(0.5, 0.5*(l-r)/(l-2*m+r)))
}

// move finds how the camera has moved from one picture to another.
func move(first, now [2]window) Move {
	var dx, dy, sure [2]float64
	for i := range halves {
		dx[i], dy[i], sure[i] = shift(first[i], now[i])
		dy[i] *= (halves[i][1] - halves[i][0]) / windowSize
		dx[i] /= windowSize
	}
	apart := (halves[1][0] + halves[1][1] - halves[0][0] - halves[0][1]) / 2
	m := Move{Zoom: 1 + (dy[1]-dy[0])/apart, Sure: min(sure[0], sure[1])}
	m.DX, m.DY = (dx[0]+dx[1])/2, (dy[0]+dy[1])/2
	const most = 0.05 // autofocus breathes by less
	if math.Abs(m.Zoom-1) > most {
		i := 0
		if sure[1] > sure[0] {
			i = 1
		}
		m = Move{DX: dx[i], DY: dy[i], Zoom: 1, Sure: sure[i] / 2}
	}
	return m
}
