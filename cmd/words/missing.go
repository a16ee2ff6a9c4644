package main

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"twinloaf/assets/words"
	"twinloaf/assets/words/gather"
)

// missing writes, for each language beside English, the sentences of the program in the
// folder root that it lacks (+) and those it has that are no longer said (-), and at the
// end of each how many of either.
func missing(w io.Writer, root string) error {
	said, err := gather.From(root)
	if err != nil {
		return err
	}
	for _, l := range words.Languages()[1:] {
		path := filepath.Join(root, "assets", "words", "catalogue", l.Tag+".json")
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		var list []entry
		if err := json.Unmarshal(data, &list); err != nil {
			return fmt.Errorf("reading %s: %w", path, err)
		}
		has := map[string]bool{}
		idle := 0
		for _, e := range list {
			has[e.ID] = true
			if _, known := said[e.ID]; !known {
				fmt.Fprintf(w, "%s - %s\n", l.Tag, e.ID)
				idle++
			}
		}
		lacks := 0
		for _, s := range slices.Sorted(maps.Keys(said)) {
			if !has[s] {
				fmt.Fprintf(w, "%s + %s\n", l.Tag, s)
				lacks++
			}
		}
		fmt.Fprintf(w, "%s: %d of %d sentences missing, %d no longer said\n", l.Tag, lacks, len(said), idle)
	}
	return nil
}
