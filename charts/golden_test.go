package charts_test

import "flag"

var (
	update = flag.Bool("update", false, "write the golden pictures anew")
	show   = flag.String("show", "", "write the whole gallery to this folder")
)
