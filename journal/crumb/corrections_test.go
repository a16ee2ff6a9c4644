package crumb

// WithCorrections is a photo made ready, with other corrections than it was made ready with.
func WithCorrections(f *Prepared, c ...Correction) *Prepared {
	g := *f
	g.corrections = c
	return &g
}
