// Package race tells tests whether the race detector looks on. Under it everything takes
// many times as long, so that slow tests take fewer cases: what it looks for, two goroutines
// at one thing, shows in a few as well as in all. Whoever imports it, be it for that alone, has
// properties tried on few draws there.
package race

// Cases gives how many cases a test takes: all of them, or few under the race detector.
func Cases(all, few int) int {
	if Enabled {
		return few
	}
	return all
}

// Few gives all cases, or few of them under the race detector, from the first on and as far
// apart as they lie.
func Few[T any](all []T, few int) []T {
	if !Enabled || len(all) <= few {
		return all
	}
	out := make([]T, few)
	for i := range out {
		out[i] = all[i*len(all)/few]
	}
	return out
}
