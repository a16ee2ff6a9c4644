package crumb_test

import (
	"context"
	"image"
	"runtime"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
)

func noChange(*phantom.Slice) {}

func onProcessors(t *testing.T, n int, img image.Image, k float64) *crumb.Result {
	t.Helper()
	before := runtime.GOMAXPROCS(n)
	defer runtime.GOMAXPROCS(before)
	r, err := crumb.Measure(context.Background(), img, 0, crumb.Options{PxPerMM: k})
	if err != nil {
		t.Fatal(err)
	}
	return r
}
