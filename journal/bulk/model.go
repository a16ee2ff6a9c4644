package bulk

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
)

// The effects common to all doughs, by their place among the unknowns.
const (
	level = iota // ln(rise - 1) of the usual dough after midway hours of thermal time
	slope        // the power of thermal time
	ofInoculation
	ofSalt
	ofWholegrain
	ofWarmth
	commons
)

// midway are the hours of thermal time at which level is reckoned: half-way up a usual bulk.
const midway = 5.0

// The usual dough, from which effects are counted.
const (
	usualInoculation = 15.0 // % of the flour
	usualSalt        = 2.0  // %
	usualWarmth      = 25.0 // °C
)

// believed are the effects and how sure they are before anything is learned. Our own
// guesses from common practice, no source: a dough with 15 % of its flour in the levain
// rises by half in five hours at 25 °C, twice the levain doubles the rise at an hour, salt
// slows, whole grain speeds.
var believed = [commons]struct{ mean, sd float64 }{
	level:         {math.Log(0.5), 0.55},
	slope:         {2, 0.4},
	ofInoculation: {1, 0.4},    // per factor e
	ofSalt:        {-0.3, 0.3}, // per % of the flour
	ofWholegrain:  {0.4, 0.4},  // all wholegrain against none
	ofWarmth:      {0, 0.4},    // per 5 °C, beyond what thermal time has
}

// How far doughs and readings stray, and how firmly that is believed (our own guesses, no
// source).
const (
	groupSpread = 0.4  // sd of cultures and of styles about the rest, in ln(rise - 1)
	doughSpread = 0.3  // sd of doughs, believed before it is learned
	slopeSpread = 0.3  // sd of their slopes, likewise
	spreadKnown = 4.0  // as well known as from so many doughs
	readNoise   = 0.1  // sd of ln(rise - 1) for the shape
	markNoise   = 0.04 // sd of a rise, for reading the mark
	leastRise   = 0.04 // of a rise that cannot be told from none
	rounds      = 3    // of expectation and maximisation
	mostDoughs  = 60   // that are learned from, the latest
)

// noise is the sd of ln(rise - 1) of a rise that was read: by eye the mark is read to a
// twenty-fifth of the dough's height at the start. near is how many more were read from
// pictures at about that time: a dough that is off the shape is off it in all of them.
func noise(r Rise, over, near float64) float64 {
	mark := markNoise
	if r.SD > 0 {
		mark = r.SD
	}
	return math.Hypot(readNoise*math.Sqrt(1+near), mark/over)
}

// sameMoment is the time within which a dough is taken to be off its shape alike (our own
// guess).
const sameMoment = 40 * time.Minute

// near is how many more rises were read from pictures at about the time of one.
func (d Dough) near(r Rise) (n float64) {
	for _, o := range d.Rises {
		if o.SD > 0 && o != r && o.At.Sub(r.At).Abs() < sameMoment {
			n++
		}
	}
	return n
}

// effects are what a dough brings to the common ones, at an hour's thermal time.
func effects(d Dough, w warmth, theta float64) [commons]float64 {
	inoculation := d.Inoculation
	if inoculation <= 0 {
		inoculation = usualInoculation
	}
	salt := d.Salt
	if salt <= 0 {
		salt = usualSalt
	}
	return [commons]float64{
		level: 1, slope: math.Log(max(theta, 0.05) / midway),
		ofInoculation: math.Log(min(max(inoculation, 1), 60) / usualInoculation),
		ofSalt:        min(salt, 5) - usualSalt,
		ofWholegrain:  min(max(d.Wholegrain, 0), 100) / 100,
		ofWarmth:      (w.mean - usualWarmth) / 5,
	}
}

// seen is one reading of a dough: y = ln(rise - 1) with its sd.
type seen struct {
	x     [commons]float64
	y, sd float64
}

// readings are those of a dough that tell something.
func readings(d Dough, w warmth) []seen {
	var out []seen
	for _, r := range d.Rises {
		h := r.At.Sub(d.Began).Hours()
		if h <= 0.2 || r.Times <= 0 || d.Over() && r.At.After(d.Ended.Add(gridStep)) {
			continue
		}
		over := max(r.Times-1, leastRise)
		out = append(out, seen{effects(d, w, w.at(h)), math.Log(over), noise(r, over, d.near(r))})
	}
	return out
}

// groups are what a dough has in common with others: its culture, and its style.
func (d Dough) groups() [2]string { return [2]string{"culture " + d.Culture, "style " + d.Style} }

// model is what has been learned: the joint belief in the unknowns, which are the common
// effects, then one for each culture and style, as a precision matrix and what it is
// multiplied with.
type model struct {
	places           map[string]int // of cultures and styles among the unknowns
	prec             *mat.SymDense
	rhs              *mat.VecDense
	ofDough, ofSlope float64 // sd
}

func newModel(doughs []Dough) *model {
	m := &model{places: map[string]int{}, ofDough: doughSpread, ofSlope: slopeSpread}
	for _, d := range doughs {
		for _, g := range d.groups() {
			if _, ok := m.places[g]; !ok {
				m.places[g] = commons + len(m.places)
			}
		}
	}
	m.begin()
	return m
}

// begin sets the model back to what is believed.
func (m *model) begin() {
	n := commons + len(m.places)
	m.prec, m.rhs = mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i, b := range believed {
		m.prec.SetSym(i, i, 1/(b.sd*b.sd))
		m.rhs.SetVec(i, b.mean/(b.sd*b.sd))
	}
	for i := commons; i < n; i++ {
		m.prec.SetSym(i, i, 1/(groupSpread*groupSpread))
	}
}

// solve gives the mean of the unknowns and the factor of their precision.
func solve(prec *mat.SymDense, rhs *mat.VecDense) (*mat.VecDense, *mat.Cholesky) {
	var chol mat.Cholesky
	mean := mat.NewVecDense(rhs.Len(), nil)
	if chol.Factorize(prec) {
		// The precision holds the beliefs, so this cannot fail on finite figures.
		_ = chol.SolveVecTo(mean, rhs)
	}
	return mean, &chol
}

// row is a reading's place among the unknowns of a dough: the common effects and those of
// its groups, without the dough's own.
func (m *model) row(groups [2]string, x [commons]float64, n int) *mat.VecDense {
	row := mat.NewVecDense(n, nil)
	for i, v := range x {
		row.SetVec(i, v)
	}
	for _, g := range groups {
		if i, ok := m.places[g]; ok {
			row.SetVec(i, 1)
		}
	}
	return row
}

// widened is the model for a dough whose readings are stranger than the spread of doughs
// lets one expect: its own intercept and slope are given as much more room as that takes.
// A levain that was past its best is no usual day.
func (m *model) widened(groups [2]string, all []seen) *model {
	if len(all) == 0 {
		return m
	}
	common, chol := solve(m.prec, m.rhs)
	sum := 0.0
	for _, s := range all {
		row := m.row(groups, s.x, m.rhs.Len())
		var back mat.VecDense
		variance := s.sd*s.sd + m.ofDough*m.ofDough + m.ofSlope*m.ofSlope*s.x[slope]*s.x[slope]
		if chol.SolveVecTo(&back, row) == nil {
			variance += mat.Dot(row, &back)
		}
		off := s.y - mat.Dot(row, common)
		sum += off * off / variance
	}
	wide := *m
	if strange := sum / float64(len(all)); strange > asUsual {
		wide.ofDough, wide.ofSlope = m.ofDough*math.Sqrt(strange), m.ofSlope*math.Sqrt(strange)
	}
	return &wide
}

// asUsual is the mean square, over what is expected, up to which readings are not strange
// (our own choice).
const asUsual = 1.5

// own is the joint belief in a dough's own intercept and slope and everything common,
// with its readings: the unknowns of the model and two more.
func (m *model) own(groups [2]string, all []seen) (*mat.SymDense, *mat.VecDense) {
	n := m.rhs.Len()
	prec, rhs := mat.NewSymDense(n+2, nil), mat.NewVecDense(n+2, nil)
	for i := range n {
		rhs.SetVec(i, m.rhs.AtVec(i))
		for j := i; j < n; j++ {
			prec.SetSym(i, j, m.prec.At(i, j))
		}
	}
	prec.SetSym(n, n, 1/(m.ofDough*m.ofDough))
	prec.SetSym(n+1, n+1, 1/(m.ofSlope*m.ofSlope))
	for _, s := range all {
		row := m.row(groups, s.x, n+2)
		row.SetVec(n, 1)
		row.SetVec(n+1, s.x[slope])
		prec.SymRankOne(prec, 1/(s.sd*s.sd), row)
		rhs.AddScaledVec(rhs, s.y/(s.sd*s.sd), row)
	}
	return prec, rhs
}

// add takes in a dough's readings, and forgets what was its own: the two last unknowns are
// summed over (the Schur complement). Its readings tell only of the common effects and of
// its own groups, so that no other unknown is touched.
func (m *model) add(groups [2]string, all []seen) {
	const own = commons + len(groups) // where the dough's own two unknowns stand
	at := make([]int, 0, own)         // where the others stand among those of the model
	for i := range commons {
		at = append(at, i)
	}
	for _, g := range groups {
		if i, ok := m.places[g]; ok {
			at = append(at, i)
		}
	}
	var prec [own + 2][own + 2]float64
	var rhs [own + 2]float64
	prec[own][own], prec[own+1][own+1] = 1/(m.ofDough*m.ofDough), 1/(m.ofSlope*m.ofSlope)
	for _, s := range all {
		var row [own + 2]float64
		copy(row[:], s.x[:])
		for i := commons; i < len(at); i++ {
			row[i] = 1
		}
		row[own], row[own+1] = 1, s.x[slope]
		w := 1 / (s.sd * s.sd)
		for i, v := range row {
			rhs[i] += w * s.y * v
			for j := i; j < len(row); j++ {
				prec[i][j] += w * v * row[j]
			}
		}
	}
	a, b, c := prec[own][own], prec[own][own+1], prec[own+1][own+1]
	det := a*c - b*b
	p, q := rhs[own], rhs[own+1]
	for i, to := range at {
		u, v := prec[i][own], prec[i][own+1]
		m.rhs.SetVec(to, m.rhs.AtVec(to)+rhs[i]-(u*(c*p-b*q)+v*(a*q-b*p))/det)
		for j := i; j < len(at); j++ {
			s, t := prec[j][own], prec[j][own+1]
			m.prec.SetSym(to, at[j], m.prec.At(to, at[j])+prec[i][j]-(u*(c*s-b*t)+v*(a*t-b*s))/det)
		}
	}
}

// learn takes in doughs, finding how far they differ from one another on the way.
func (m *model) learn(groups [][2]string, all [][]seen) {
	for range rounds {
		m.begin()
		for i := range all {
			m.add(groups[i], all[i])
		}
		sum, sumSlope, weight := spreadKnown*doughSpread*doughSpread, spreadKnown*slopeSpread*slopeSpread, spreadKnown
		common, chol := solve(m.prec, m.rhs)
		for i := range all {
			if len(all[i]) == 0 {
				continue
			}
			v, s := m.without(groups[i], all[i], common, chol)
			sum, sumSlope, weight = sum+v, sumSlope+s, weight+1
		}
		m.ofDough, m.ofSlope = math.Sqrt(sum/weight), math.Sqrt(sumSlope/weight)
	}
	m.begin()
	for i := range all {
		m.add(groups[i], all[i])
	}
}

// without gives the expected squares of a dough's own intercept and slope, which were
// taken in with the others: its readings are held against everything common, which solve gave.
func (m *model) without(groups [2]string, all []seen, common *mat.VecDense, chol *mat.Cholesky) (intercept, slopes float64) {
	n := m.rhs.Len()
	// The dough's own two unknowns, with the common ones as good as known: their doubt is
	// added to each reading's.
	var a, b, c, y, z float64
	a, c = 1/(m.ofDough*m.ofDough), 1/(m.ofSlope*m.ofSlope)
	var back mat.VecDense
	for _, s := range all {
		row := m.row(groups, s.x, n)
		doubt := 0.0
		if chol.SolveVecTo(&back, row) == nil {
			doubt = mat.Dot(row, &back)
		}
		w := 1 / (s.sd*s.sd + doubt)
		off := s.y - mat.Dot(row, common)
		a, b, c = a+w, b+w*s.x[slope], c+w*s.x[slope]*s.x[slope]
		y, z = y+w*off, z+w*off*s.x[slope]
	}
	det := a*c - b*b
	v, s := (c*y-b*z)/det, (a*z-b*y)/det
	return v*v + c/det, s*s + a/det
}
