package jar

import (
	"cmp"
	"slices"
	"time"
)

// A Shot is one picture before it is in its place of a series.
type Shot struct {
	Name string
	// Taken is when the camera says that it was taken; zero if it does not say.
	Taken time.Time
	// Filed is when its file was last written: what is left where Taken is zero.
	Filed time.Time
}

// An Order is a series in the order of its times.
type Order struct {
	// Which are the shots in order, by their places in what was given; At are their
	// times.
	Which []int
	At    []time.Time
	// ByFile are those, by their places in the order, whose time is only their file's.
	ByFile []int
	// Doubles were left out, by their places in what was given: of one moment there is
	// one picture.
	Doubles []int
	// Gaps are the places in the order before which much more time passed than usually
	// does between two pictures.
	Gaps []int
	// Every is the usual time between two pictures; 0 with fewer than two.
	Every time.Duration
}

// gap is how many times the usual a pause has to be to be told as one.
const gap = 3

// Ordered puts pictures into the order in which they were taken.
func Ordered(shots []Shot) Order {
	times := make([]time.Time, len(shots))
	which := make([]int, len(shots))
	for i, s := range shots {
		which[i], times[i] = i, s.Filed
		if !s.Taken.IsZero() {
			times[i] = s.Taken
		}
	}
	slices.SortStableFunc(which, func(a, b int) int {
		return cmp.Or(times[a].Compare(times[b]), cmp.Compare(shots[a].Name, shots[b].Name))
	})
	var o Order
	for _, i := range which {
		if n := len(o.At); n > 0 && !times[i].After(o.At[n-1]) {
			o.Doubles = append(o.Doubles, i)
			continue
		}
		if shots[i].Taken.IsZero() {
			o.ByFile = append(o.ByFile, len(o.At))
		}
		o.Which, o.At = append(o.Which, i), append(o.At, times[i])
	}
	if len(o.At) < 2 {
		return o
	}
	between := make([]time.Duration, len(o.At)-1)
	for i := range between {
		between[i] = o.At[i+1].Sub(o.At[i])
	}
	sorted := slices.Sorted(slices.Values(between))
	o.Every = sorted[len(sorted)/2]
	for i, d := range between {
		if d > gap*o.Every {
			o.Gaps = append(o.Gaps, i+1)
		}
	}
	return o
}
