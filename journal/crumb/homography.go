package crumb

import "math"

// A homography carries one plane onto another as a camera does: straight lines
// stay straight, parallels need not stay parallel. Rows of the 3 by 3 matrix that
// acts on (x, y, 1).
type homography [9]float64

// homographyOf gives the homography that carries four points onto four others, by the
// direct linear transform with both sets normalised first (Hartley & Zisserman 2004,
// Multiple View Geometry in Computer Vision, 2nd edition, algorithm 4.2; with four
// points it is exact, and no least squares are needed; from memory). It is false where
// three points of either set lie in a line, or nearly.
func homographyOf(from, to [4]Point) (homography, bool) {
	a, fromN := normalised(from)
	b, toN := normalised(to)
	// Eight equations: u (h6 x + h7 y + 1) = h0 x + h1 y + h2, and likewise for v.
	m := equations(8)
	for i := range 4 {
		x, y, u, v := fromN[i].X, fromN[i].Y, toN[i].X, toN[i].Y
		m[2*i] = []float64{x, y, 1, 0, 0, 0, -u * x, -u * y, u}
		m[2*i+1] = []float64{0, 0, 0, x, y, 1, -v * x, -v * y, v}
	}
	h, ok := solve(m)
	if !ok {
		return homography{}, false
	}
	back, ok := b.inverse()
	if !ok {
		return homography{}, false
	}
	return back.after(homography{h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1}.after(a)), true
}

// normalised moves points so that their middle is the origin and their mean distance
// from it is √2, and gives what did so.
func normalised(p [4]Point) (homography, [4]Point) {
	mid := Sheet{Corners: p}.middle()
	mean := 0.0
	for _, q := range p {
		mean += math.Hypot(q.X-mid.X, q.Y-mid.Y) / 4
	}
	k := math.Sqrt2 / math.Max(mean, 1e-300)
	h := homography{k, 0, -k * mid.X, 0, k, -k * mid.Y, 0, 0, 1}
	for i := range p {
		p[i], _ = h.carry(p[i])
	}
	return h, p
}

// carry gives where a point goes, and its depth: what the third row makes of it. A
// point of no positive depth lies behind the camera, or at the horizon.
func (h homography) carry(p Point) (Point, float64) {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return Point{(h[0]*p.X + h[1]*p.Y + h[2]) / w, (h[3]*p.X + h[4]*p.Y + h[5]) / w}, w
}

// after gives the homography that does first and then h.
func (h homography) after(first homography) homography {
	var out homography
	for r := range 3 {
		for c := range 3 {
			for k := range 3 {
				out[3*r+c] += h[3*r+k] * first[3*k+c]
			}
		}
	}
	return out
}

// inverse gives the homography that leads back; false where there is none.
func (h homography) inverse() (homography, bool) {
	out := homography{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
	det := h[0]*out[0] + h[1]*out[3] + h[2]*out[6]
	if det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return homography{}, false
	}
	for i := range out {
		out[i] /= det
	}
	return out, true
}

// jacobian is how h stretches and turns what lies close about a point: the derivatives
// of the carried x along x and y, then those of the carried y.
func (h homography) jacobian(p Point) (xx, xy, yx, yy float64) {
	q, w := h.carry(p)
	return (h[0] - h[6]*q.X) / w, (h[1] - h[7]*q.X) / w, (h[3] - h[6]*q.Y) / w, (h[4] - h[7]*q.Y) / w
}

// equations makes room for n of them, each with its n coefficients and its value.
func equations(n int) [][]float64 {
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n+1)
	}
	return m
}

// solve is Gaussian elimination with pivoting.
func solve(m [][]float64) (x []float64, ok bool) {
	n := len(m)
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		if !(math.Abs(m[p][c]) > 1e-9) {
			return nil, false
		}
		m[c], m[p] = m[p], m[c]
		for r := range n {
			if r == c {
				continue
			}
			k := m[r][c] / m[c][c]
			for j := c; j <= n; j++ {
				m[r][j] -= k * m[c][j]
			}
		}
	}
	for c := range n {
		x = append(x, m[c][n]/m[c][c])
	}
	return x, true
}
