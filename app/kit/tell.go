package kit

// tell hands what happened to whoever wants to hear of it, if anybody does.
func tell[T any](listener func(T), what T) {
	if listener != nil {
		listener(what)
	}
}

// call does what may be there to be done.
func call(do func()) {
	if do != nil {
		do()
	}
}
