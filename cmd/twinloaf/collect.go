package main

import (
	"os"
	"runtime/debug"
	"time"
)

// collectLater has nothing collected while the program starts, when almost all that is made
// is kept, unless it comes to a quarter of a gigabyte; then once, what is free going back to
// the system, and from then on twice as often as is usual. Most of the memory is pixels, which
// the collector need not look through, so that it costs little, and less of what is done with
// stays around. Who sets GOGC decides instead.
func collectLater() {
	if os.Getenv("GOGC") != "" {
		return
	}
	debug.SetGCPercent(-1)
	usual := debug.SetMemoryLimit(256 << 20)
	time.AfterFunc(5*time.Second, func() {
		debug.SetGCPercent(50)
		debug.SetMemoryLimit(usual)
		debug.FreeOSMemory()
	})
}
