package trials

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// A learner foretells from a diary without a thermometer. It knows by which law the cultures
// live, how cultures of that law, kitchens and days scatter, and by how much what is written down
// is off; of this culture and of this kitchen it has the diary, as the forecast does. (That a baker
// looks the longer, the later a top was, tells of it, too; neither of them makes use of that.)
//
// What it thinks of is a vector of standard normals, of which culture, kitchen, weather and
// luck are made as the trials make them. With each feeding it looks for the most probable vector by
// Gauss-Newton steps, and draws from the normal that fits there (Laplace's approximation; Tierney &
// Kadane 1986, J Am Stat Assoc 81:82). Nobody who knew it all exactly would be off by more in the mean, and
// hardly by much less as long as the learner's own intervals hold as often as they say (Cook,
// Gelman & Rubin 2006, J Comput Graph Stat 15:675). A Metropolis chain about that normal
// was tried, and stuck in the tails: its intervals held 42 % instead of 80.
type learner struct {
	law    Law
	past   []Feeding
	z      []float64    // the most probable
	common int          // numbers for the culture and its kitchen; then come knots, then luck
	knots  int          // of the weather, one each knot hours
	lucky  int          // numbers for the luck of a feeding
	chol   mat.Cholesky // of the curvature there
}

const knot = 6.0 // hours

// chance gives numbers drawn at random, or such as a learner thinks of.
type chance interface {
	Float64() float64
	NormFloat64() float64
}

// thought gives the numbers of a vector, one after the other.
type thought struct {
	z []float64
	n int
}

func (t *thought) NormFloat64() float64 {
	t.n++
	if t.n > len(t.z) {
		return 0
	}
	return t.z[t.n-1]
}

func (t *thought) Float64() float64 { return distuv.UnitNormal.CDF(t.NormFloat64()) }

func newLearner(law Law, days int) *learner {
	l := &learner{law: law, knots: days*24/int(knot) + 2}
	var count thought
	nature := law.Born(&count)
	kitchenUsual(&count)
	l.common = count.n
	count.n = 0
	nature(&Luck{chance: &count}, 3, 12, func(float64) float64 { return 22 })
	l.lucky = count.n
	l.z = make([]float64, l.common+l.knots)
	return l
}

// A world is what a vector comes to.
type world struct {
	nature Nature
	usual  func(h float64) float64
	air    []float64 // weather at each knot
}

func (l *learner) world(z []float64) world {
	t := &thought{z: z[:l.common]}
	w := world{nature: l.law.Born(t)}
	w.usual = kitchenUsual(t)
	keep := math.Exp(-knot / weatherKeeps)
	now := 0.0
	for _, x := range z[l.common : l.common+l.knots] {
		now = keep*now + weatherSpread*math.Sqrt(1-keep*keep)*x
		w.air = append(w.air, now)
	}
	return w
}

// rise is the rise after a feeding; the luck that is handed in has the mood of the day before.
func (w world) rise(f Feeding, luck *Luck) []float64 {
	fed := f.Course.Feeding.At.Sub(begin).Hours()
	return w.nature(luck, f.Dilution, f.rested, func(h float64) float64 {
		x := (fed + h) / knot
		i := min(int(x), len(w.air)-2)
		return w.usual(fed+h) + w.air[i] + (w.air[i+1]-w.air[i])*(x-float64(i))
	})
}

func (l *learner) luck(z []float64, i int) []float64 {
	from := l.common + l.knots + i*l.lucky
	return z[from : from+l.lucky]
}

// told is how well all that was written down goes with a vector, and how far off each note is.
func (l *learner) told(z []float64) (log float64, off [][]float64, moods []float64) {
	w, mood := l.world(z), 0.0
	for i, f := range l.past {
		moods = append(moods, mood)
		luck := &Luck{chance: &thought{z: l.luck(z, i)}, mood: mood}
		v, o := f.fits(w.rise(f, luck), math.Inf(1))
		mood = luck.mood
		log, off = log+v, append(off, o)
	}
	return log - floats.Dot(z, z)/2, off, moods
}

// learn takes in a feeding that is over.
func (l *learner) learn(f Feeding) {
	l.past = append(l.past, f)
	for range l.lucky {
		l.z = append(l.z, 0.5) // at 0 there are laws without a slope
	}
	log, off, moods := l.told(l.z)
	for range 8 {
		h, slope := l.curve(off, moods)
		var by mat.VecDense
		if !l.chol.Factorize(h) || l.chol.SolveVecTo(&by, mat.NewVecDense(len(slope), slope)) != nil {
			panic("trials: " + l.law.Name + ": the curvature holds the prior's, and can be inverted unless it is no number")
		}
		before := log
		for size := 1.0; size > 0.05; size /= 3 {
			z := make([]float64, len(l.z))
			for i := range z {
				z[i] = l.z[i] + size*by.AtVec(i)
			}
			if v, o, m := l.told(z); v > log {
				l.z, log, off, moods = z, v, o, m
				break
			}
		}
		if log < before+0.1 {
			break
		}
	}
}

// nudge is by how much a number is changed to see what it does.
const nudge = 0.05

// curve is the Gauss-Newton curvature and the slope at the most probable vector.
func (l *learner) curve(off [][]float64, moods []float64) (*mat.SymDense, []float64) {
	n, rows := len(l.z), 0
	first := make([]int, len(off))
	for i, o := range off {
		first[i] = rows
		rows += len(o)
	}
	jac := mat.NewDense(max(1, rows), n, nil)
	put := func(k, i int, o []float64, by float64) {
		for r := range o {
			jac.Set(first[i]+r, k, jac.At(first[i]+r, k)+(o[r]-off[i][r])/nudge*by)
		}
	}
	for k := range l.common {
		z := slices.Clone(l.z)
		z[k] += nudge
		_, moved, _ := l.told(z)
		for i := range moved {
			put(k, i, moved[i], 1)
		}
	}
	w := l.world(l.z)
	keep := math.Exp(-knot / weatherKeeps)
	for i, f := range l.past {
		fed := f.Course.Feeding.At.Sub(begin).Hours()
		for c := int(fed / knot); c < len(w.air) && float64(c)*knot < fed+18; c++ {
			w.air[c] += nudge
			_, o := f.fits(w.rise(f, &Luck{chance: &thought{z: l.luck(l.z, i)}, mood: moods[i]}), math.Inf(1))
			w.air[c] -= nudge
			by := weatherSpread * math.Sqrt(1-keep*keep)
			for k := c; k >= 0 && by > 1e-3; k-- {
				put(l.common+k, i, o, by)
				by *= keep
			}
		}
		for k := range l.lucky {
			z := slices.Clone(l.z)
			l.luck(z, i)[k] += nudge
			mood := moods[i]
			for j := i; j < len(l.past) && (j == i || math.Abs(mood-moods[j]) > 1e-6); j++ {
				luck := &Luck{chance: &thought{z: l.luck(z, j)}, mood: mood}
				_, o := l.past[j].fits(w.rise(l.past[j], luck), math.Inf(1))
				put(l.common+l.knots+i*l.lucky+k, j, o, 1)
				mood = luck.mood
			}
		}
	}
	var square mat.SymDense
	square.SymOuterK(1, jac.T())
	slope := make([]float64, n)
	for k := range n {
		square.SetSym(k, k, square.At(k, k)+1)
		slope[k] = -l.z[k]
		for i := range off {
			for r, o := range off[i] {
				slope[k] -= jac.At(first[i]+r, k) * o
			}
		}
	}
	return &square, slope
}

// thoughts is how many rises a learner draws for a forecast.
const thoughts = 150

// foretell draws rises as they may come after a feeding, in the order of their tops.
func (l *learner) foretell(rng *rand.Rand, f Feeding) []possibility {
	var root mat.TriDense
	l.chol.UTo(&root)
	out := make([]possibility, thoughts)
	for k := range out {
		z := make([]float64, len(l.z))
		for i := range z {
			z[i] = rng.NormFloat64()
		}
		blas64.Trsv(blas.NoTrans, root.RawTriangular(), blas64.Vector{N: len(z), Data: z, Inc: 1})
		floats.Add(z, l.z)
		w, luck := l.world(z), &Luck{}
		for i, p := range l.past { // for the mood alone
			luck.chance = &thought{z: l.luck(z, i)}
			w.rise(p, luck)
		}
		luck.chance = rng
		out[k].heights = w.rise(f, luck)
		out[k].top, _ = Top(out[k].heights)
	}
	inOrder(out)
	return out
}
