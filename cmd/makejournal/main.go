// Command makejournal makes a large journal to try the program on.
//
//	makejournal -dir /tmp/ten-years -bakes 10000 -photos 40000
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"

	"twinloaf/journal/journaltest"
)

func main() {
	dir := flag.String("dir", "", "folder to make the journal in; it must not hold one")
	spec := journaltest.Spec{}
	flag.IntVar(&spec.Bakes, "bakes", 10000, "how many bakes")
	flag.IntVar(&spec.Photos, "photos", 40000, "how many photos")
	flag.Uint64Var(&spec.Seed, "seed", 1, "the same seed makes the same journal")
	flag.Parse()
	if *dir == "" {
		fmt.Fprintln(os.Stderr, "makejournal: say where to make it, as in -dir /tmp/ten-years")
		os.Exit(2)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := journaltest.Generate(ctx, *dir, spec); err != nil {
		fmt.Fprintln(os.Stderr, "makejournal:", err)
		os.Exit(1)
	}
}
