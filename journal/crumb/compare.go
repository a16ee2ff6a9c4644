package crumb

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"twinloaf/journal/say"
)

// A Verdict says what two photos tell about a measure.
type Verdict int

// The verdicts.
const (
	CannotTell Verdict = iota // nothing says what retaking the photo would give
	Alike                     // no larger than retaking the photo would give
	Perhaps                   // larger than that, but a figure is doubtful, or both are stated no more exactly than that
	Differs                   // larger than that
)

// A Difference is one measure of two photos side by side.
type Difference struct {
	ID      MeasureID
	A, B    Measurement
	Change  float64 // B less A; for the main direction the smaller turn, -90 to 90
	Spread  float64 // standard deviation of retakes of one slice; 0 when unknown
	Limit   float64 // changes beyond this are larger than retaking gives; 0 when unknown
	Apart   float64 // changes beyond this are larger than both figures' uncertainties together; 0 when unknown
	Verdict Verdict
	Why     say.Line // the verdict as a sentence
}

// Compare lays two photos side by side. Each group of retakes holds summaries
// of repeated photos of one slice, of any loaf, taken anew each time; their
// spread within the groups, pooled, is what retaking a photo gives. The limit is
// t √2 s, t being Student's for 95 % at the spread's degrees of freedom: the
// repeatability limit of ISO 5725-6:1994 (from memory), which has 1.96 for t,
// made honest for few repeats. Without any group of two or more a change still differs
// when it is larger than the uncertainties of both figures together, which add as
// independent ones do: the root of the sum of their squares (ISO/IEC Guide 98-3:2008,
// from memory). Any other verdict is then CannotTell. Retakes tell nothing of what errs
// alike in every photo of a slice, so that a change within those uncertainties differs
// Perhaps at most, and so does one of doubtful figures.
func Compare(a, b Summary, retakes ...[]Summary) []Difference {
	out := make([]Difference, 0, len(definitions))
	for _, d := range definitions {
		x := Difference{ID: d.ID, A: a.Measured(d.ID), B: b.Measured(d.ID)}
		x.judge(d, a, b, retakes)
		out = append(out, x)
	}
	return out
}

func (x *Difference) judge(d Definition, a, b Summary, retakes [][]Summary) {
	if x.A.Trust == Withheld || x.B.Trust == Withheld {
		x.Why = say.Of("Withheld in one of the photos.")
		return
	}
	if why := unlikeTerms(d, a, b); !why.IsZero() {
		x.Why = why
		return
	}
	x.Change = change(d.ID, x.A.Value, x.B.Value)
	s2, freedom := retakeVariance(d, a, retakes)
	if x.A.Off > 0 && x.B.Off > 0 {
		x.Apart = math.Hypot(x.A.Off, x.B.Off)
	}
	if freedom < 1 {
		x.judgeByUncertainty()
		x.doubt()
		return
	}
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Quantile(0.975)
	x.Spread = math.Sqrt(s2)
	x.Limit = t * math.Sqrt2 * x.Spread
	if math.Abs(x.Change) > x.Limit {
		x.Verdict, x.Why = Differs, say.Of("Larger than retaking the photo would give nineteen times in twenty.")
		if math.Abs(x.Change) <= x.Apart {
			x.Verdict = Perhaps
			x.Why = say.Join(x.Why, say.Of("Photos in another light may say otherwise: it is no larger than the uncertainties of both figures together."))
		}
	} else {
		x.Verdict, x.Why = Alike, say.Of("No larger than between two photos of one slice.")
	}
	x.doubt()
}

// doubt has doubtful figures differ perhaps, and says so.
func (x *Difference) doubt() {
	if !x.Doubtful() {
		return
	}
	x.Why = say.Join(x.Why, say.Of("One of the figures is doubtful."))
	if x.Verdict == Differs {
		x.Verdict = Perhaps
	}
}

// Doubtful says that one of the two figures is.
func (x *Difference) Doubtful() bool { return x.A.Trust == Doubtful || x.B.Trust == Doubtful }

// judgeByUncertainty judges a change where no retakes do.
func (x *Difference) judgeByUncertainty() {
	switch {
	case x.Apart == 0:
		x.Why = say.Of("No repeat photos of one slice: nothing says what retaking the photo would change.")
	case math.Abs(x.Change) > x.Apart:
		x.Verdict, x.Why = Differs, say.Of("Larger than the uncertainties of both figures together.")
	default:
		x.Why = say.Of("No larger than the uncertainties of both figures together; repeat photos of one slice would tell finer.")
	}
}

// unlikeTerms says why two figures may not be compared, or nothing.
func unlikeTerms(d Definition, a, b Summary) say.Line {
	switch {
	case d.ID == SureVoids:
		return say.Of("It grows with a photo's contrast, so it is not compared.")
	case a.Method != b.Method:
		return say.Of("Measured by different versions of the method: measure both again.")
	case a.Sensitivity != b.Sensitivity:
		return say.Of("Measured at different sensitivities.")
	case a.Relative != b.Relative && (d.RelativeUnit != "" || d.ID == SmallToLarge || d.ID == LargeShare):
		return say.Of("Only one of the photos has a true length.")
	case d.ID == LargeShare && a.LargeFrom != b.LargeFrom:
		return say.Of("A large cell was set to different sizes.")
	}
	return say.Line{}
}

// retakeVariance pools the variance within groups of retakes measured on the
// same terms as a.
func retakeVariance(d Definition, a Summary, groups [][]Summary) (s2, freedom float64) {
	for _, g := range groups {
		var values []float64
		for _, s := range g {
			if f := s.Measured(d.ID); f.Trust != Withheld && unlikeTerms(d, a, s).IsZero() {
				values = append(values, f.Value)
			}
		}
		if len(values) < 2 {
			continue
		}
		// Deviations from the first value, so that directions may wrap.
		mean := 0.0
		for _, v := range values {
			mean += change(d.ID, values[0], v) / float64(len(values))
		}
		for _, v := range values {
			e := change(d.ID, values[0], v) - mean
			s2 += e * e
		}
		freedom += float64(len(values) - 1)
	}
	if freedom > 0 {
		s2 /= freedom
	}
	return s2, freedom
}

func change(id MeasureID, from, to float64) float64 {
	if id != Direction {
		return to - from
	}
	turn := math.Mod(to-from, 180)
	switch {
	case turn > 90:
		turn -= 180
	case turn < -90:
		turn += 180
	}
	return turn
}
