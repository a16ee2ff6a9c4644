//go:build linux && cgo && !ci && !wayland

package main

// #cgo LDFLAGS: -lX11
// void twinloafWatchDisplay(void);
import "C"

import "sync/atomic"

// whenGone is what [displayGone] was given.
var whenGone atomic.Pointer[func()]

// displayGone has end called when the X server goes away. Xlib ends the process
// then, by exit(1), in the middle of whatever call found it out; end is called
// before that, on that thread, and must not touch the window.
func displayGone(end func()) {
	whenGone.Store(&end)
	C.twinloafWatchDisplay()
}

//export twinloafDisplayGone
func twinloafDisplayGone() {
	if end := whenGone.Load(); end != nil {
		(*end)()
	}
}
