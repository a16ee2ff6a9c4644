package crumb

import (
	"flag"
	"os"
	"testing"

	"twinloaf/journal/journaltest/race"
)

func TestMain(m *testing.M) {
	if race.Enabled {
		if err := flag.Set("rapid.checks", "4"); err != nil {
			panic(err) // whole slices are measured for each
		}
	}
	os.Exit(m.Run())
}
