// Foreign checks the types of the program and its tests as other systems see them:
//
//	go run ./cmd/foreign darwin windows
//
// All is read from its source: nothing is compiled, and what is written in C, by the
// window's drivers, is not looked at.
package main

import (
	"flag"
	"fmt"
	"os"
	"strings"

	"golang.org/x/tools/go/packages"
)

func main() {
	flag.Parse()
	wrong := 0
	for _, system := range flag.Args() {
		n, err := check(system)
		if err != nil {
			fmt.Fprintf(os.Stderr, "foreign: reading the program for %s: %v\n", system, err)
			os.Exit(1)
		}
		wrong += n
	}
	if wrong > 0 || flag.NArg() == 0 {
		os.Exit(1)
	}
}

// check prints what is wrong in our own packages on a system, and counts it. Of the others some
// lack what is in C.
func check(system string) (wrong int, err error) {
	roots, err := packages.Load(&packages.Config{
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedCompiledGoFiles |
			packages.NeedImports | packages.NeedDeps | packages.NeedTypes,
		Tests:      true,
		BuildFlags: []string{"-tags=ci,nodynamic"}, // as the tests have it: a window without drivers
		Env:        append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system),
	}, "./...")
	if err != nil {
		return 0, err
	}
	for _, p := range roots {
		// The walk is for Linux alone.
		if strings.HasPrefix(p.PkgPath, "twinloaf/cmd/walk") {
			continue
		}
		for _, e := range p.Errors {
			fmt.Printf("%s: %v\n", system, e)
			wrong++
		}
	}
	return wrong, nil
}
