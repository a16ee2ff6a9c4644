package kit

// A Main has a function done on the main goroutine, now or soon; it may be called from
// any. The window hands one to whatever works elsewhere: fyne.Do, or what stands in for
// it in a test. Nothing else brings work back to the main goroutine.
type Main func(fn func())

// settle has what waits in a test's stand-in for the main goroutine done.
func (m Main) settle() { m(func() {}) }
