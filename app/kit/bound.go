package kit

// A Bound figure is one that records of a kind keep: how it is got from a record, nil where
// there is none, and set in it, nil for none.
type Bound[R any] struct {
	Get func(*R) *float64
	Set func(*R, *float64)
}

// Optional binds a figure to the pointer through which a record keeps it.
func Optional[R any, T ~float64](at func(*R) **T) Bound[R] {
	return Bound[R]{
		Get: func(r *R) *float64 { return Number(*at(r)) },
		Set: func(r *R, v *float64) {
			if *at(r) = nil; v != nil {
				*at(r) = new(T(*v))
			}
		},
	}
}

// NonZero binds a figure of which zero is none; one is how much of what the record keeps
// is one of the figure: time.Minute where it counts minutes.
func NonZero[R any, T ~float64 | ~int | ~int64](at func(*R) *T, one T) Bound[R] {
	return Bound[R]{
		Get: func(r *R) *float64 {
			if *at(r) == 0 {
				return nil
			}
			return new(float64(*at(r)) / float64(one))
		},
		Set: func(r *R, v *float64) {
			if *at(r) = 0; v != nil {
				*at(r) = T(*v * float64(one))
			}
		},
	}
}

// Number is an optional quantity as a plain number.
func Number[T ~float64](v *T) *float64 {
	if v == nil {
		return nil
	}
	return new(float64(*v))
}

// OrZero is an optional figure, or 0 for none.
func OrZero(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}
