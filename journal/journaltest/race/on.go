//go:build race

package race

// Enabled says that the race detector looks on.
const Enabled = true
