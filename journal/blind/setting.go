package blind

// Setting is everything that anybody may see of a sealed tasting: who tastes
// what in which order, by code. It says nothing of which code is which loaf.
// It is plain data and may be stored, shown and logged.
type Setting struct {
	// Version says how it was drawn and what its text covers: 2 by this program.
	// Tastings of version 1, which say nothing of it, served balanced orders also
	// to a taster of several rounds, and sealed no more of the plan than method,
	// loaves and tasters.
	Version  int       `json:"version,omitempty"`
	Plan     Plan      `json:"plan"`
	Servings []Serving `json:"servings"` // by taster, then by round
	// Commitment is the SHA-256, in hexadecimal, of the canonical text of the
	// assignment and its salt (see Opened.Text).
	Commitment string `json:"commitment"`
}

// settingVersion is the version of what is drawn now.
const settingVersion = 2

// Balanced reports whether the orders were drawn in balance with one another, so
// that what is served in one round tells something of the others: where each
// taster tastes once, and in every tasting of version 1.
func (s Setting) Balanced() bool {
	return s.Plan.Mode != Alone && s.Plan.Answers() > 1 && (s.Version < settingVersion || s.Plan.Rounds == 1)
}

// Serving is one round of one taster.
type Serving struct {
	Taster int `json:"taster"` // index into Plan.Tasters
	Round  int `json:"round"`  // from 0
	// Samples in serving order. With a helper a label is a three-digit code;
	// alone it is the plate's place, such as "left".
	Samples []string `json:"samples"`
	// Slips are the codes written under the plates of this round, alone only,
	// in an order of no meaning.
	Slips []string `json:"slips,omitempty"`
	// OpenReference is the loaf (1 or 2) that is put out, marked, as the
	// reference of a duo-trio tasted alone. It is no secret. 0 otherwise: with
	// a helper the reference is sealed like the rest.
	OpenReference int `json:"open_reference,omitempty"`
}

// ReferenceLabel is what a duo-trio's reference carries instead of a code.
const ReferenceLabel = "R"

// Serving finds the round of a taster, both from 0.
func (s Setting) Serving(taster, round int) (Serving, bool) {
	i := taster*s.Plan.Rounds + round
	if taster < 0 || round < 0 || round >= s.Plan.Rounds || i >= len(s.Servings) {
		return Serving{}, false
	}
	return s.Servings[i], true
}

// Tasted lists what is eaten in a round in order, the reference first where
// there is one.
func (s Setting) Tasted(serving Serving) []string {
	if !s.Plan.Method.HasReference() {
		return serving.Samples
	}
	return append([]string{ReferenceLabel}, serving.Samples...)
}
