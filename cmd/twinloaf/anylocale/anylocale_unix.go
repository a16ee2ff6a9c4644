//go:build !windows && !darwin

package anylocale

import "os"

// world is English without a country: what is not known of the baker is metric.
const world = "en_001.UTF-8"

func init() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} { // in this order, as POSIX has it
		switch os.Getenv(name) {
		case "":
		case "C", "POSIX", "C.UTF-8", "C.utf8":
			_ = os.Setenv(name, world) // it only fails for names that are none
			return
		default:
			return
		}
	}
	_ = os.Setenv("LANG", world)
}
