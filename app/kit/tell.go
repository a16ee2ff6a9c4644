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

// End ends something that goes on, by the function that does so, which it forgets; nil ends nothing.
func End(stop *func()) {
	if *stop != nil {
		(*stop)()
		*stop = nil
	}
}
