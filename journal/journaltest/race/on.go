//go:build race

package race

import (
	"flag"

	_ "pgregory.net/rapid" // so that its flags are there before they are set
)

// Enabled says that the race detector looks on.
const Enabled = true

// Properties are tried on few draws in every package of tests that knows this one.
func init() {
	if err := flag.Set("rapid.checks", "10"); err != nil {
		panic(err)
	}
}
