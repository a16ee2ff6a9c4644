package formula

// Basis says whether the seed cultures' own flour and water are counted.
// See the package comment for our convention.
type Basis int

const (
	// WithCulture counts a culture as the flour and water it is made of.
	WithCulture Basis = iota
	// WithoutCulture leaves cultures out of flour and water.
	WithoutCulture
)
