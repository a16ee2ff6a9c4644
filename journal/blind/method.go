package blind

// Method is a tasting method by its standard name.
type Method string

const (
	// Triangle: three samples, two of them the same; which is the odd one?
	// ISO 4120.
	Triangle Method = "triangle"
	// DuoTrio: a reference and two samples; which is the same as the
	// reference? ISO 10399, with both loaves taking turns as the reference.
	DuoTrio Method = "duo-trio"
	// Paired: two samples; which has more of one attribute (ISO 5495), or which is
	// liked better (common practice: that standard is about intensity alone)?
	Paired Method = "paired"
	// Tetrad: four samples, two of each; which two belong together? Common
	// practice; Ennis & Jesionka 2011, J Sens Stud 26:371.
	Tetrad Method = "tetrad"
	// ThreeAFC: three samples, two of them the same, and the third the loaf that
	// is expected beforehand to have more of one attribute; which has most? The
	// 3-alternative forced choice of psychophysics and sensory practice; it has no
	// ISO standard of its own (from memory).
	ThreeAFC Method = "3-AFC"
	// TwoOutOfFive: five samples, two of one loaf and three of the other; which
	// two belong together? ISO 6658 names it.
	TwoOutOfFive Method = "two-out-of-five"
	// Scaling: two samples, each scored on attributes from 1 to 9. For liking that
	// is the hedonic scale of Peryam & Pilgrim 1957, Food Technology 11(9):9; for
	// the rest it is common practice.
	Scaling Method = "scaling"
)

// Methods lists all methods in the order in which they are offered.
func Methods() []Method {
	return []Method{Triangle, DuoTrio, Tetrad, TwoOutOfFive, Paired, ThreeAFC, Scaling}
}

// facts are what the program knows of a method.
type facts struct {
	title    string
	standard string
	samples  int
	chance   float64
	picks    int
	question string
}

var methodFacts = map[Method]facts{
	Triangle:     {"Triangle", "ISO 4120", 3, 1.0 / 3, 1, "Can they be told apart?"},
	DuoTrio:      {"Duo-trio", "ISO 10399", 2, 1.0 / 2, 1, "Can they be told apart?"},
	Paired:       {"Paired comparison", "ISO 5495", 2, 1.0 / 2, 1, "Which has more of it, or is liked better?"},
	Tetrad:       {"Tetrad", "no standard of its own", 4, 1.0 / 3, 2, "Can they be told apart?"},
	ThreeAFC:     {"3-AFC", "3-alternative forced choice, no ISO standard of its own", 3, 1.0 / 3, 1, "Which of three has most of it?"},
	TwoOutOfFive: {"Two-out-of-five", "ISO 6658", 5, 1.0 / 10, 2, "Can they be told apart?"},
	Scaling:      {"Scaling of attributes", "nine-point scale, for liking that of Peryam & Pilgrim 1957", 2, 0, 0, "How much of each attribute?"},
}

// Known reports whether m is one of the methods.
func (m Method) Known() bool { _, known := methodFacts[m]; return known }

// Title is the method's name for a heading.
func (m Method) Title() string { return methodFacts[m].title }

// Standard names where the method is laid down. A plan may ask it something that the
// standard does not cover: [Plan.Standard].
func (m Method) Standard() string { return methodFacts[m].standard }

// PairedPreference is where asking which of two is liked better is laid down.
const PairedPreference = "paired preference, common practice"

// Standard names where what the plan asks is laid down. ISO 5495 is about the intensity of
// an attribute; it says nothing of liking.
func (p Plan) Standard() string {
	if p.Method == Paired && p.Attribute == "" {
		return PairedPreference
	}
	return p.Method.Standard()
}

// Question is what the method can answer.
func (m Method) Question() string { return methodFacts[m].question }

// Samples is the number of coded samples in a round; a duo-trio has its
// reference besides.
func (m Method) Samples() int { return methodFacts[m].samples }

// HasReference reports whether a round opens with a marked reference.
func (m Method) HasReference() bool { return m == DuoTrio }

// Picks is how many samples an answer names; 0 when it gives scores.
func (m Method) Picks() int { return methodFacts[m].picks }

// Chance is the probability of a right answer by guessing, 0 for scaling.
func (m Method) Chance() float64 { return methodFacts[m].chance }

// Discriminates reports whether an answer by the method is right or wrong: where
// it asks if the loaves can be told apart, or which of three has most.
func (m Method) Discriminates() bool { return m != Paired && m != Scaling && m.Known() }

// Directional reports whether the method compares the loaves by one attribute.
func (m Method) Directional() bool { return m == Paired || m == ThreeAFC }
