package crumb

import (
	"runtime"
	"sync"
)

// bands runs do on contiguous bands of n rows, one for each processor. What do
// writes must depend on its own rows alone, so that results never hang on the
// number of processors.
func bands(n int, do func(from, to int)) {
	parts := min(runtime.GOMAXPROCS(0), n)
	if parts <= 1 {
		do(0, n)
		return
	}
	var wg sync.WaitGroup
	for k := range parts {
		wg.Go(func() { do(n*k/parts, n*(k+1)/parts) })
	}
	wg.Wait()
}

func count(mask []bool) int {
	n := 0
	for _, b := range mask {
		n += b2i(b)
	}
	return n
}
